package runs

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/modeltest"
	"netrate/sim"
)

// A copy of a study that goes on to grow stays what the replications up to there came to: the
// study of a run that ends there.
func TestKept(t *testing.T) {
	lines := threeLines()
	var kept []*Study
	studies, err := Together(t.Context(), lines, sim.Plan{Seed: 1, Min: 9, Max: 9}, nil, func(replication int, soFar []*Study) {
		if replication == 4 {
			for _, s := range soFar {
				kept = append(kept, s.Kept())
			}
		}
	})
	require.NoError(t, err)
	short, err := Together(t.Context(), lines, sim.Plan{Seed: 1, Min: 5, Max: 5}, nil, nil)
	require.NoError(t, err)
	for i, s := range kept {
		assert.Equal(t, sim.Cancelled, s.Ending)
		assert.Equal(t, short[i].Shifts, s.Shifts)
		assert.Equal(t, short[i].Total, s.Total)
		assert.Equal(t, courseOf(t, short[i]), courseOf(t, s))
		for replication := range s.Shifts {
			assert.Equal(t, s.Shifts[replication:replication+1], s.Only(replication).Shifts)
		}
		assert.Empty(t, s.Only(5).Shifts)
		assert.NotEqual(t, studies[i].Total, s.Total)
	}
}

// A study is the same for any number of workers.
func TestStudyIsTheSameForAnyWorkers(t *testing.T) {
	l := modeltest.ReferenceLine()
	l.Shift = 3600
	var first *Study
	for _, workers := range []int{1, 2, 7} {
		plan := sim.Plan{Seed: 3, Min: 300, Max: 300, Workers: workers}
		study, err := Run(context.Background(), l, plan, nil)
		require.NoError(t, err)
		study.Plan.Workers = 0
		if first == nil {
			first = study
		}
		require.Equal(t, first, study)
	}
	require.Len(t, first.Shifts, 300)
}
