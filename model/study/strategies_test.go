package study

import (
	"context"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// The choice, of strategies with given net rates and risks. The line's own is the first; all
// differ surely, but for those whose rates are alike.
func TestStrategiesChoose(t *testing.T) {
	type one struct {
		rate float64
		risk Risk
	}
	sure := func(rate float64, perMillion Number) one { return one{rate, Risk{PerMillion: perMillion}} }
	counted := func(rate float64, high float64) one {
		return one{rate, Risk{PerMillion: 4, FromCount: true, Low: 3, High: Number(high)}}
	}
	const own = 0 // no limit but that of the line's own
	for name, c := range map[string]struct {
		limit    Number
		given    []one
		best     int
		rivals   []int
		none     bool
		frontier []int
	}{
		"the most within the limit":       {5, []one{sure(100, 1), sure(200, 4), sure(300, 9)}, 1, nil, false, []int{0, 1, 2}},
		"the limit itself is within":      {9, []one{sure(100, 1), sure(200, 4), sure(300, 9)}, 2, nil, false, []int{0, 1, 2}},
		"no more than the line's own":     {own, []one{sure(100, 4), sure(200, 4.02), sure(300, 5)}, 1, nil, false, []int{1, 2}},
		"more risk that earns nothing":    {9, []one{sure(300, 1), sure(200, 4)}, 0, nil, false, []int{0}},
		"not told apart":                  {9, []one{sure(300, 1), sure(300.001, 4)}, 1, []int{0}, false, []int{0, 1}},
		"a rival over the limit is none":  {2, []one{sure(300, 1), sure(300.001, 4)}, 0, nil, false, []int{0, 1}},
		"none: the nearest":               {0.5, []one{sure(300, 4), sure(200, 1), sure(100, 2)}, 1, nil, true, []int{0, 1}},
		"none: the most of the nearest":   {0.5, []one{sure(300, 1.005), sure(200, 1)}, 0, nil, true, []int{0}},
		"a count is within if all is":     {5, []one{sure(100, 1), counted(200, 5)}, 1, nil, false, []int{0, 1}},
		"a count that may be over is not": {5, []one{sure(100, 1), counted(200, 6)}, 0, nil, false, []int{0, 1}},
		"the line's own is its measure":   {own, []one{counted(100, 6), sure(90, 1)}, 0, nil, false, []int{0, 1}},
		"nothing else to choose from":     {own, []one{sure(100, 4)}, 0, nil, false, []int{0}},
	} {
		t.Run(name, func(t *testing.T) {
			a := &StrategiesAnswer{LimitGiven: c.limit != own, Limit: c.limit}
			if !a.LimitGiven {
				a.Limit = strategiesAlike * c.given[0].risk.PerMillion
			}
			var samples []sim.Sample
			for i, g := range c.given {
				wobble := 0.1 * float64(i%2) // so that differences have an interval
				sample := sim.Sample{g.rate - wobble, g.rate + wobble, g.rate - wobble, g.rate + wobble}
				samples = append(samples, sample)
				a.Strategies = append(a.Strategies, StrategiesOne{NetRate: NetRate{Mean: Number(sample.Mean())}, Defective: g.risk})
			}
			a.Pairs = Pairwise(samples)
			a.choose()
			assert.Equal(t, c.best, a.Leader)
			assert.Equal(t, c.rivals, a.AsGood)
			assert.Equal(t, c.none, !a.Within)
			assert.Equal(t, !c.none && c.rivals == nil, a.Shown)
			var frontier []int
			for i := range a.Strategies {
				if a.Strategies[i].Frontier {
					frontier = append(frontier, i)
				}
			}
			assert.Equal(t, c.frontier, frontier)
		})
	}
}

// The answer so far can be had while the shifts run and is the one that as many shifts give;
// a run that is cancelled gives the answer up to there, and the number of workers changes
// nothing.
func TestStrategiesSoFar(t *testing.T) {
	const enough = 3
	plan := sim.Plan{Seed: 7, Min: 200, Max: 200, Workers: 2}
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	var early *StrategiesAnswer
	q := Strategies{Line: riskLine(t, "gateless.yaml"), MaxDefective: new(0.001), Plan: plan}
	a, err := q.Ask(ctx, func(so Sofar[StrategiesAnswer]) {
		if so.Done == enough {
			early = so.Answer()
			cancel()
		}
		assert.Equal(t, 200, so.Most)
	})
	require.NoError(t, err)
	require.NotNil(t, early)
	done := len(a.Strategies[0].Study.Shifts)
	assert.GreaterOrEqual(t, done, enough)
	assert.Less(t, done, 200)
	assert.Equal(t, sim.Cancelled, a.Strategies[0].Study.Ending)

	q.Plan.Min, q.Plan.Max, q.Plan.Workers = enough, enough, 1
	again, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.NotEqual(t, again.Settings, early.Settings, "one was cancelled")
	again.Settings = early.Settings
	want, err := json.Marshal(again)
	require.NoError(t, err)
	got, err := json.Marshal(early)
	require.NoError(t, err)
	assert.JSONEq(t, string(want), string(got))

	cancel()
	none, err := q.Ask(ctx, nil)
	require.NoError(t, err)
	assert.Nil(t, none, "no shift was done")
}

func TestStrategiesRefused(t *testing.T) {
	_, err := Strategies{Line: riskLine(t, "small.yaml"), MaxDefective: new(-0.1)}.Ask(t.Context(), nil)
	assert.ErrorContains(t, err, "-0.1 of the envelopes")
	_, err = Strategies{Line: &model.Line{}}.Ask(t.Context(), nil)
	assert.Error(t, err, "a line without stations")
}

// What is forbidden has the price that the search without it shows: on the same random events
// the best strategy with it delivers that much more than the best without.
func TestStrategiesNever(t *testing.T) {
	limit := 0.001
	q := Strategies{Line: riskLine(t, "gateless.yaml"), MaxDefective: &limit, Plan: sim.Plan{Seed: 5, Min: 60, Max: 60}}
	free, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.Equal(t, "card: misfeed ship", free.Leading().Otherwise)
	q.Never = []model.Forbidden{{Fault: model.Misfeed, Response: model.Ship}, {Fault: model.Flap, Response: model.Outsort}}
	require.Empty(t, q.Line.Breach(q.Never))
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	for _, x := range a.Strategies {
		assert.NotContains(t, x.Otherwise, "misfeed ship")
	}
	require.Len(t, a.Never, 2)
	paid := a.Never[0]
	assert.Equal(t, "misfeed=ship", paid.Answer)
	assert.Equal(t, "card: misfeed ship", paid.Otherwise)
	assert.Equal(t, free.Leading().NetRate, *paid.NetRate)
	assert.InDelta(t, float64(free.Leading().NetRate.Mean-a.Leading().NetRate.Mean), float64(paid.Price.Mean), 1e-9)
	assert.Greater(t, float64(paid.Price.Mean), float64(paid.Price.Half))
	assert.Nil(t, a.Never[1].Price, "there is no exit gate")

	// To let unread sets go is looked at for its price only, and told.
	q = Strategies{Line: riskLine(t, "matched.yaml"), Never: []model.Forbidden{{Fault: model.NoRead, Response: model.Ship}}, Plan: sim.Plan{Seed: 5, Min: 20, Max: 20}}
	a, err = q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.False(t, a.Leading().ShipsUnread)
	assert.True(t, a.Never[0].ShipsUnread)
	assert.Contains(t, a.Never[0].Otherwise, "no read ship")

	q = Strategies{Line: riskLine(t, "gateless.yaml"), Plan: sim.Plan{Seed: 5, Min: 2, Max: 2}}
	q.Never = []model.Forbidden{{Fault: model.Double, Response: model.Stop}}
	_, err = q.Ask(t.Context(), nil)
	assert.ErrorContains(t, err, "what is forbidden cannot be avoided: letter has the response stop to a double")
}
