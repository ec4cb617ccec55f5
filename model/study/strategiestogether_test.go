package study

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// fewChoices are what leaves a line with eight strategies, so that those of two can all be run.
var fewChoices = []model.Forbidden{
	{Fault: model.Misfeed, Response: model.Ship},
	{Fault: model.Double, Response: model.Ship},
	{Fault: model.Misfeed, Response: model.Outsort},
	{Fault: model.Double, Response: model.Outsort},
}

// What is found is within a hundredth of the best of all combinations, each of them simulated in the
// shifts of the search; what the lines have is not.
func TestStrategiesTogetherAgainstAll(t *testing.T) {
	group := &model.LineGroup{Lines: []*model.Line{gated("left"), gated("right")}, Crew: gated("").Crew}
	group.Lines[0].Stations[0].(*model.Feeder).Misfeed = 0.004
	q := StrategiesTogether{Group: group, Never: fewChoices, Plan: sim.Plan{Seed: 5, Min: 20, Max: 20}}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)

	var all works
	for _, left := range every(model.Permitted(group.Lines[0].Decisions(), fewChoices)) {
		for _, right := range every(model.Permitted(group.Lines[1].Decisions(), fewChoices)) {
			all = append(all, runs.Work{Group: &model.LineGroup{Crew: group.Crew, Lines: []*model.Line{
				group.Lines[0].AsItStands().Answering(left)[0], group.Lines[1].AsItStands().Answering(right)[0],
			}}})
		}
	}
	require.Len(t, all, 64)
	studies, err := together(t.Context(), all, q.Plan, func([]*runs.Study) *int { return nil }, nil)
	require.NoError(t, err)
	most := 0.0
	for _, s := range studies {
		most = max(most, s.NetRates().Mean())
	}
	found := float64(a.Lines[1].Leading().NetRate.Mean)
	assert.InEpsilon(t, most, found, 0.01)
	assert.InDelta(t, found, float64(a.Lines[0].Leading().NetRate.Mean), 1e-9, "each line was asked last with the other as it was found")
	own, err := runs.RunLineGroup(t.Context(), group, q.Plan, nil)
	require.NoError(t, err)
	assert.Less(t, runs.Gathered("", own).NetRates().Mean(), 0.95*most, "what the lines have is far behind")
	assert.InDelta(t, 64, float64(a.Combinations), 0)
	assert.LessOrEqual(t, a.Simulated, 64)

	other := q.Plan
	other.Seed++
	own, err = runs.RunLineGroup(t.Context(), group, other, nil)
	require.NoError(t, err)
	assert.Equal(t, NetRateOf(runs.Gathered("", own)), a.Own, "in other shifts")
	assert.InDelta(t, float64(a.NetRate.Mean-a.Own.Mean), float64(a.Gain.Mean), 1e-9)
}

// needy returns two lines with one operator. The first may stop for a flap, which takes a moment, or
// outsort the envelope, after which the operator empties a bin for a minute while the line runs. The
// second calls the operator for every misfeed, unless it diverts them. All rates are invented.
func needy(misfeed float64) *model.LineGroup {
	first, second := gated("first"), gated("second")
	for _, l := range []*model.Line{first, second} {
		l.Crew = model.Crew{Operators: 1, Walk: sim.Constant(0)}
		l.Restart = sim.Constant(1)
		feeder, in := l.Stations[0].(*model.Feeder), l.Stations[2].(*model.Inserter)
		feeder.Misfeed, feeder.Double, in.Flap, in.Jam = 0, 0, 0, 0
		full := model.Stock{Capacity: 6000, Warn: 3000, Work: sim.Constant(1)} // no hopper runs out
		feeder.Hopper, in.Hopper = full, full
	}
	in := first.Stations[2].(*model.Inserter)
	in.Flap, in.Clear = 0.002, sim.Constant(2)
	first.Stations[3].(*model.ExitGate).Bin = model.Stock{Capacity: 10, Warn: 9, Work: sim.Constant(60)}
	feeder := second.Stations[0].(*model.Feeder)
	feeder.Misfeed, feeder.Clear = misfeed, sim.Constant(36)
	return &model.LineGroup{Lines: []*model.Line{first, second}, Crew: first.Crew}
}

// A line has the operator's minutes when the other does not need them: what is best for it depends on
// what the other answers, and it is asked again when that changes.
func TestStrategiesTogetherDependOnEachOther(t *testing.T) {
	never := []model.Forbidden{{Fault: model.Misfeed, Response: model.Ship}, {Fault: model.Misfeed, Response: model.Outsort}}
	ask := func(never ...model.Forbidden) *StrategiesTogetherAnswer {
		q := StrategiesTogether{Group: needy(0.008), Never: never, Plan: sim.Plan{Seed: 5, Min: 30, Max: 30}}
		a, err := q.Ask(t.Context(), nil)
		require.NoError(t, err)
		return a
	}
	a := ask(append(never, model.Forbidden{Fault: model.Misfeed, Response: model.Divert})...)
	assert.Empty(t, a.Changed(), "the other must stop: an envelope in the bin is dearer than a stop")
	assert.Nil(t, a.Gain)
	assert.Equal(t, a.Own, a.NetRate)

	a = ask(never...)
	assert.Equal(t, []string{"first", "second"}, a.Changed())
	assert.Contains(t, a.Lines[0].Leading().Otherwise, "flap outsort")
	assert.Contains(t, a.Lines[1].Leading().Otherwise, "misfeed divert")
	var changed []bool
	for _, x := range a.Turns {
		changed = append(changed, x.Changed)
	}
	assert.Equal(t, []bool{false, true, true, false}, changed, "the first is asked again")
	assert.Positive(t, a.Gain.Estimate().Low())
}

// Each line answers what it would be asked by itself, with the others as they were found.
func TestStrategiesTogetherIsLineByLine(t *testing.T) {
	group := needy(0.008)
	plan := sim.Plan{Seed: 5, Min: 10, Max: 10}
	a, err := StrategiesTogether{Group: group, MaxDefective: new(0.01), Plan: plan}.Ask(t.Context(), nil)
	require.NoError(t, err)
	first := group.Lines[0].AsItStands().Answering(a.Lines[0].Leading().Strategy)[0]
	one, err := Strategies{
		Line: group.Lines[1], MaxDefective: new(0.01), Plan: plan,
		Group: &model.LineGroup{Lines: []*model.Line{first, group.Lines[1]}, Crew: group.Crew},
	}.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, one.Leading().Strategy, a.Lines[1].Leading().Strategy)
	assert.Equal(t, one.Leading().NetRate, a.Lines[1].Leading().NetRate)
	assert.Equal(t, one.Rivals, a.Lines[1].Rivals)
}

func TestStrategiesTogetherRefused(t *testing.T) {
	_, err := StrategiesTogether{}.Ask(t.Context(), nil)
	assert.ErrorContains(t, err, "several lines with one crew")
	q := StrategiesTogether{Group: needy(0.008), Plan: sim.Plan{Seed: 5, Min: 2, Max: 2}}
	q.Never = []model.Forbidden{{Fault: model.Flap, Response: model.Stop}}
	_, err = q.Ask(t.Context(), nil)
	assert.ErrorContains(t, err, "first: inserter has the response stop to a flap")

	q.Never = nil
	ctx, cancel := context.WithCancel(t.Context())
	a, err := q.Ask(ctx, func(so Sofar[StrategiesTogetherAnswer]) {
		assert.Nil(t, so.Answer())
		cancel()
	})
	require.NoError(t, err)
	assert.Nil(t, a, "half a search has no answer")
}
