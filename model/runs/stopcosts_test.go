package runs

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
)

// The costs are all the time that the line stood, the largest first.
func TestStopCosts(t *testing.T) {
	study, err := Run(context.Background(), modeltest.ReferenceLine(), sim.Plan{Seed: 1, Min: 20, Max: 20}, nil)
	require.NoError(t, err)
	costs := study.StopCosts()
	require.NotEmpty(t, costs)
	var sum model.StopTotal
	for i, c := range costs {
		assert.Positive(t, c.Count)
		if i > 0 {
			assert.LessOrEqual(t, c.Total(), costs[i-1].Total())
		}
		sum.Add(c.StopTotal)
	}
	stopped := study.Total.Stopped()
	assert.Equal(t, stopped.Count, sum.Count)
	assert.InEpsilon(t, float64(stopped.Total()), float64(sum.Total()), 1e-9)
	assert.Contains(t, costs[0].Name, ", ")

	assert.Empty(t, (&Study{Line: modeltest.ReferenceLine()}).StopCosts())
}
