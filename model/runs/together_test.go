package runs

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// threeLines returns the reference line for one hour, and two that are better.
func threeLines() []*model.Line {
	one, two, fewer := modeltest.ReferenceLine(), modeltest.ReferenceLine(), modeltest.ReferenceLine()
	two.Crew.Operators = 2
	for _, f := range modeltest.StationsOf[*model.Feeder](fewer) {
		f.Jam /= 10
	}
	for _, l := range []*model.Line{one, two, fewer} {
		l.Shift = 3600
	}
	return []*model.Line{one, two, fewer}
}

// Each study of Together is the one that the line alone would have had.
func TestTogetherIsEachAlone(t *testing.T) {
	lines := threeLines()
	plan := sim.Plan{Seed: 2, Min: 200, Max: 200, Workers: 2}
	studies, err := Together(context.Background(), lines, plan, nil, nil)
	require.NoError(t, err)
	for i, l := range lines {
		alone, err := Run(context.Background(), l, plan, nil)
		require.NoError(t, err)
		assert.Equal(t, alone, studies[i])
	}
}

// A selection gives the same bits for any number of workers, drops the loser early and saves its
// replications.
func TestSelection(t *testing.T) {
	var first []*Study
	for _, workers := range []int{1, 3} {
		selection, err := output.NewSelection(3, 20, 100, 0.95)
		require.NoError(t, err)
		plan := sim.Plan{Seed: 2, Min: 5000, Max: 5000, Workers: workers}
		studies, err := Together(context.Background(), threeLines(), plan, selection, nil)
		require.NoError(t, err)
		best, promised := selection.Best()
		assert.Equal(t, 2, best, "a tenth of the jams")
		assert.True(t, promised)
		assert.Equal(t, sim.Precise, studies[0].Ending)
		assert.Less(t, len(studies[0].Shifts), 5000)
		for _, s := range studies {
			s.Plan.Workers = 0
		}
		if first == nil {
			first = studies
		}
		assert.Equal(t, first, studies)
	}
}

func TestTogetherNamesTheLine(t *testing.T) {
	lines := threeLines()
	lines[1].Name, lines[1].Shift = "the second", 0
	_, err := Together(context.Background(), lines, sim.Plan{Min: 1, Max: 1}, nil, nil)
	assert.ErrorContains(t, err, "the second: the shift is 0 s long")
}
