package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// gated returns a line that has a choice of answers to three faults. Its rates are invented.
func gated(name string) *model.Line {
	l := sweepLine(1, 8000)
	l.Name = name
	in := l.Stations[1].(*model.Inserter)
	in.At, in.Flap = 4, 0.002
	l.Stations = []model.Station{
		l.Stations[0],
		&model.TrackGate{Place: model.Place{Name: "track gate", At: 2}, Bin: model.Stock{Capacity: 60, Warn: 30, Work: sim.Constant(20)}},
		in,
		&model.ExitGate{Place: model.Place{Name: "exit gate", At: 6}, Bin: model.Stock{Capacity: 60, Warn: 30, Work: sim.Constant(20)}},
		&model.Delivery{Place: model.Place{Name: "belt", At: 7}},
	}
	return l
}

// every returns all strategies that decisions leave.
func every(decisions []model.Decision) []model.Strategy {
	all := []model.Strategy{{}}
	for _, d := range decisions {
		var longer []model.Strategy
		for _, s := range all {
			for _, r := range d.Responses {
				longer = append(longer, append(append(model.Strategy{}, s...), r))
			}
		}
		all = longer
	}
	return all
}

// The best strategy of one of two lines with one operator is the best of all that it can have, each of
// them simulated: net rates are those of both lines, and the risk is its own.
func TestStrategyOfALineOfAGroup(t *testing.T) {
	group := &model.LineGroup{Lines: []*model.Line{gated("left"), gated("right")}, Crew: gated("").Crew}
	group.Lines[0].Stations[0].(*model.Feeder).Misfeed = 0.004
	q := Strategies{Line: group.Lines[1], Group: group, Plan: sim.Plan{Seed: 5, Min: 40, Max: 40}}
	group.Lines[1].Stations[0].(*model.Feeder).Caught = 1
	for _, limit := range []float64{0.9, 1e-9} {
		q.MaxDefective = new(limit)
		a, err := q.Ask(t.Context(), nil)
		require.NoError(t, err)
		all := every(q.work().Decisions())
		require.Greater(t, len(all), 20)
		studies, err := together(t.Context(), q.works(all), q.Plan, func([]*runs.Study) *int { return nil }, nil)
		require.NoError(t, err)
		best, most := -1, 0.0
		for i, s := range studies {
			if risk := RiskOf(s.Lines()[1]); risk.Within(1e6*limit) && s.NetRates().Mean() > most {
				best, most = i, s.NetRates().Mean()
			}
		}
		require.GreaterOrEqual(t, best, 0)
		assert.True(t, a.Within)
		assert.InDelta(t, most, float64(a.Leading().NetRate.Mean), 1e-9)
		assert.Equal(t, all[best], a.Leading().Strategy)
	}

	q.MaxDefective = nil
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	alone, err := runs.RunLineGroup(t.Context(), group, q.Plan, nil)
	require.NoError(t, err)
	assert.InDelta(t, runs.Gathered("", alone).NetRates().Mean(), float64(a.Own().NetRate.Mean), 1e-9, "that of both lines")
	assert.Equal(t, RiskOf(alone[1]).PerMillion, a.Own().Defective.PerMillion, "that of the line")
	c := a.Compared("own", []int{0, a.Leader})
	assert.NotNil(t, c.Lines[0].Of.Group)

	q.Line = gated("elsewhere")
	_, err = q.Ask(t.Context(), nil)
	assert.ErrorContains(t, err, "elsewhere is none of the lines that share the crew")
}

// Lines that share a crew need none of their own: what is found is the same.
func TestStrategyOfALineWithoutACrewOfItsOwn(t *testing.T) {
	ask := func(crews bool) *StrategiesAnswer {
		group := &model.LineGroup{Lines: []*model.Line{gated("left"), gated("right")}, Crew: gated("").Crew}
		if !crews {
			group.Lines[0].Crew, group.Lines[1].Crew = model.Crew{}, model.Crew{}
		}
		q := Strategies{Line: group.Lines[1], Group: group, Plan: sim.Plan{Seed: 5, Min: 10, Max: 10}}
		a, err := q.Ask(t.Context(), nil)
		require.NoError(t, err)
		return a
	}
	with, without := ask(true), ask(false)
	assert.Equal(t, with.Leading().Strategy, without.Leading().Strategy)
	assert.Equal(t, with.Own().OnPaper, without.Own().OnPaper)
	assert.Equal(t, with.Leading().NetRate, without.Leading().NetRate)
}
