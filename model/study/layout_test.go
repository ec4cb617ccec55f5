package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/runs"
	"netrate/sim"
)

// What stations cost on paper adds up to what the line loses there: its speed less its net rate,
// to what two losses of one set come to.
func TestLayoutCostsAddUp(t *testing.T) {
	l := modeltest.ReferenceLine()
	h := l.Analytic()
	lost := 0.0
	for _, s := range LayoutOf(l).Stations {
		lost += s.Lost
	}
	assert.InEpsilon(t, h.Speed-h.NetRate, lost, 0.002)
}

// And in the simulation: but for the sets on the line at the end.
func TestSimulatedCostsAddUp(t *testing.T) {
	l := modeltest.ReferenceLine()
	s, err := runs.Run(t.Context(), l, sim.Plan{Seed: 1, Min: 20, Max: 20}, nil)
	require.NoError(t, err)
	lost := 0.0
	for _, x := range SimulatedLayout(s).Stations {
		lost += x.Lost
	}
	assert.InEpsilon(t, l.RunSpeed()-s.NetRates().Mean(), lost, 0.003)
}

func TestLayoutAgainst(t *testing.T) {
	base := modeltest.ReferenceLine()
	l := base.Clone()
	feeders := modeltest.StationsOf[*model.Feeder](l)
	feeders[1].Misfeed *= 2
	last := l.Stations[len(l.Stations)-1].(*model.Delivery)
	last.At += 2
	gone := l.Stations[0].Where().Name
	feeders[2].Name = "new"
	l.Stations = l.Stations[1:]
	changes := map[LayoutChange]int{}
	a := LayoutAgainst(l, base)
	for i, s := range a.Stations {
		changes[s.Change]++
		if i > 0 {
			assert.GreaterOrEqual(t, s.At, a.Stations[i-1].At)
		}
		switch s.Change {
		case LayoutTakenAway:
			assert.Contains(t, []string{gone, modeltest.StationsOf[*model.Feeder](base)[2].Name}, s.Name)
		case LayoutMoved:
			assert.Equal(t, s.At-2, s.Before)
			assert.False(t, s.Otherwise, "moved only")
		case LayoutAdded:
			assert.Equal(t, "new", s.Name)
		case LayoutAltered:
			assert.Equal(t, feeders[1].Name, s.Name)
		case LayoutKept:
		}
	}
	assert.Equal(t, map[LayoutChange]int{
		LayoutTakenAway: 2, LayoutAdded: 1, LayoutMoved: 1, LayoutAltered: 1, LayoutKept: len(base.Stations) - 5 + 1,
	}, changes)
	assert.True(t, a.Differs())
	assert.False(t, LayoutAgainst(base, base).Differs())
	last.Belt.Capacity++
	both := LayoutAgainst(l, base).Stations
	assert.True(t, both[len(both)-1].Otherwise, "moved, and changed otherwise")
}
