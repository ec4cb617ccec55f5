package runs

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
	"netrate/sim/tape"
	"netrate/sim/tape/tapetest"
)

// shifts is recorded as the shifts of a study are.
type shifts struct{ All []Shift }

// Values names what is recorded of them.
func (s *shifts) Values(v *tape.Values) {
	of := Study{Shifts: s.All}
	of.Values(v)
	s.All = of.Shifts
}

// All that a shift, a trial and a record hold is recorded.
func TestRecordedWhole(t *testing.T) {
	assert.Greater(t, tapetest.Whole(t, &shifts{make([]Shift, 2)}), int64(50))
	tapetest.Whole(t, &TrialRun{Outcome: model.Outcome{Stations: make([]model.StationOutcome, 2)}, Good: make([]int64, 3)})
	tapetest.Whole(t, &Replica{make([]StopSum, 3), make([][model.Causes]StopSum, 2), make([]int64, 2)})
}
