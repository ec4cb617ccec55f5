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

// All lines together lose what each of them loses, and deliver what each delivers.
func TestGathered(t *testing.T) {
	a, b := modeltest.ReferenceLine(), modeltest.ReferenceLine()
	a.Name, b.Name, b.Speed = "first", "second", 12_000
	b.Stations[0].(*model.Feeder).Misfeed *= 3
	h := &model.LineGroup{Lines: []*model.Line{a, b}, Crew: model.Crew{Operators: 1, Walk: sim.Constant(15)}}
	studies, err := RunLineGroup(context.Background(), h, sim.Plan{Seed: 1, Min: 20, Max: 20}, nil)
	require.NoError(t, err)
	all := Gathered("both", studies)

	rated, losses, net := all.Losses()
	sum := rated
	for _, l := range losses {
		sum -= l.PerHour
	}
	assert.InDelta(t, net, sum, 1e-6, "the losses lead from the rated speed to the net rate")
	assert.InDelta(t, net, all.NetRates().Mean(), 1e-6)
	for i := range all.Shifts {
		assert.InDelta(t, studies[0].Shifts[i].NetRate+studies[1].Shifts[i].NetRate, all.Shifts[i].NetRate, 1e-9)
	}
	assert.NotEqual(t, studies[0].Shifts, all.Shifts, "the study of the first line was changed")
	assert.Equal(t, studies[0].Total.Sets.Good+studies[1].Total.Sets.Good, all.Total.Sets.Good)
	assert.Equal(t, studies[0].Total.Time.Shift, all.Total.Time.Shift, "it is the same shift")

	names := map[string]bool{}
	for _, c := range all.StopCosts() {
		names[c.Name] = true
	}
	assert.Contains(t, names, "first: inserter, insertion jam")
	assert.Contains(t, names, "second: inserter, insertion jam")
	assert.Len(t, names, len(studies[0].StopCosts())+len(studies[1].StopCosts()))
}

// LineGroups that run together come to what they come to by themselves.
func TestLineGroupsTogether(t *testing.T) {
	a, b := modeltest.ReferenceLine(), modeltest.ReferenceLine()
	a.Name, b.Name, b.Speed = "first", "second", 12_000
	crew := model.Crew{Operators: 1, Walk: sim.Constant(15)}
	groups := []*model.LineGroup{{Lines: []*model.Line{a, b}, Crew: crew}, {Lines: []*model.Line{b}, Crew: crew}}
	plan := sim.Plan{Seed: 1, Min: 10, Max: 10}
	together, err := TogetherWork(context.Background(), []Work{{Group: groups[0]}, {Group: groups[1]}}, plan, nil, nil)
	require.NoError(t, err)
	for i, h := range groups {
		alone, err := RunLineGroup(context.Background(), h, plan, nil)
		require.NoError(t, err)
		assert.Equal(t, alone, together[i])
	}
	shared, own := together[0][1], together[1][0]
	assert.Greater(t, own.NetRates().Mean(), shared.NetRates().Mean(), "sharing an operator costs nothing")
}
