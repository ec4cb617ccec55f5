package model

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim/tape/tapetest"
)

// All that an outcome holds is recorded.
func TestOutcomeIsRecordedWhole(t *testing.T) {
	assert.Greater(t, tapetest.Whole(t, &Outcome{Stations: make([]StationOutcome, 3)}), int64(300))
}
