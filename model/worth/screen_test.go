package worth

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/runs"
)

// Where all shifts are alike, a shift costs what they all do; and no line costs less than its
// hours, its upkeep and its price.
func TestAllInByShift(t *testing.T) {
	studies, costs := []*runs.Study{slow(), fast()}, []*Costs{prices(), gateCosts()}
	w, err := Weigh(studies, costs, 20, 1)
	require.NoError(t, err)
	for i, s := range studies {
		sample, err := AllInByShift(s, costs[i])
		require.NoError(t, err)
		assert.Len(t, sample, len(s.Shifts))
		want := steadily(t, w.AllInPerThousand(i))
		assert.InDelta(t, want, steadily(t, sample), 1e-9*want)

		floor, err := AllInFloor(s.Line, costs[i], s.Shifts[0].NetRate)
		require.NoError(t, err)
		parts := 0.0
		for _, p := range []CostPart{InsertCost, EnvelopeCost, RemakeCost, SpoiledCost, DefectiveCost, OvertimePay} {
			parts += steadily(t, w.PartPerThousand(i, p))
		}
		assert.InDelta(t, want-parts, floor, 1e-9*want, "the rest is what depends on more than the rate")
	}
}
