package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
		assert.NotEqual(t, studies[i].Total, s.Total)
	}
}
