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

func TestLossesSumToTheNetRate(t *testing.T) {
	for _, c := range []struct {
		name  string
		speed float64
		rated float64
	}{{"at rated speed", 0, 18_000}, {"slower", 15_000, 18_000}} {
		t.Run(c.name, func(t *testing.T) {
			l := modeltest.ReferenceLine()
			l.Speed = c.speed
			modeltest.FirstOf[*model.Feeder](l).OnMisfeed = model.Stop
			modeltest.FirstOf[*model.Feeder](l).OnDouble = model.Ship
			study, err := Run(context.Background(), l, sim.Plan{Seed: 1, Min: 20, Max: 20}, nil)
			require.NoError(t, err)
			rated, losses, net := study.Losses()
			assert.Equal(t, c.rated, rated)
			assert.InEpsilon(t, study.NetRates().Mean(), net, 1e-12)
			left := rated
			for _, loss := range losses {
				assert.GreaterOrEqual(t, loss.PerHour, 0.0, loss.Name)
				left -= loss.PerHour
			}
			assert.InEpsilon(t, net, left, 1e-9)
			assert.Equal(t, c.rated-study.Line.RunSpeed(), losses[0].PerHour)
		})
	}
}

func TestLossesOfNothing(t *testing.T) {
	_, losses, net := (&Study{Line: modeltest.ReferenceLine()}).Losses()
	assert.Empty(t, losses)
	assert.Zero(t, net)
}
