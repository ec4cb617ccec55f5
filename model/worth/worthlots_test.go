package worth

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/money"
	"netrate/model/runs"
	"netrate/model/setup"
	"netrate/sim"
)

// timeCosts returns costs of nothing but the hours of a line, 100 each, and of a price.
func timeCosts(price float64) *Costs {
	return &Costs{Currency: "EUR", Life: 5, Rate: 0.1, Price: money.Fixed(price), LineHour: money.Fixed(100), Volume: money.Fixed(10_000_000)}
}

// The uncertainty of the rates is in the hours a year and in the net present value: against the
// closed form of the net rate over the same draws. Each year of the variant saves some
// hours of 100, for 5 years at 10 %: P/A 3.790786769 (any table of engineering economy, from
// memory, recomputed).
func TestWorthOfLinesUncertain(t *testing.T) {
	modeltest.Briefly(t)
	seen := [6]int64{20, 20, 20, 20, 20, 20}
	base, better := modeltest.CountedLine(seen, 10_000), modeltest.CountedLine(seen, 10_000)
	first := better.Stations[0].(*model.Feeder)
	first.Double, better.UncertainInputs = 0, better.UncertainInputs[1:]
	lines, costs := []*model.Line{base, better}, []*Costs{timeCosts(0), timeCosts(20_000)}
	plan := sim.Plan{Seed: 3, Min: 1000, Max: 1000}
	studies, err := runs.Together(context.Background(), lines, plan, nil, nil)
	require.NoError(t, err)
	plan.Max = 1000
	drawn, _, err := runs.RunUncertain(context.Background(), lines, plan, 4, nil)
	require.NoError(t, err)
	plain, err := Weigh(studies, costs, 1000, 3)
	require.NoError(t, err)
	w, err := Weigh(studies, costs, 1000, 3, drawn...)
	require.NoError(t, err)

	var hours, npv sim.Sample
	for _, p := range drawn[0].Values {
		a := 10e6 / modeltest.OnPaper(p)
		b := 10e6 / modeltest.OnPaper(append([]float64{0}, p[1:]...))
		hours, npv = append(hours, a), append(npv, 100*(a-b)*3.790786769-20_000)
	}
	for _, c := range []struct {
		what              string
		want, got, beside sim.Sample
	}{{"hours", hours, w.Lines[0].Hours, plain.Lines[0].Hours}, {"NPV", npv, w.Gains[1].NPV, plain.Gains[1].NPV}} {
		sd := c.want.SD()
		assert.InDelta(t, c.want.Mean(), c.got.Mean(), 0.15*sd, c.what)
		assert.InEpsilon(t, sd, c.got.SD(), 0.12, c.what)
		assert.Less(t, c.beside.SD(), 0.4*sd, "%s: without the uncertainty it spreads as much", c.what)
		assert.InEpsilon(t, c.want.Quantile(0.05), c.got.Quantile(0.05), 0.03, c.what)
	}
}

// Without anything uncertain the draws tell what the shifts tell.
func TestWorthWithoutUncertainty(t *testing.T) {
	l := modeltest.TruthLine(1)
	study, err := runs.Run(context.Background(), l, sim.Plan{Seed: 3, Min: 1000, Max: 1000}, nil)
	require.NoError(t, err)
	drawn, _, err := runs.RunUncertain(context.Background(), []*model.Line{l}, sim.Plan{Seed: 3, Max: 500}, 4, nil)
	require.NoError(t, err)
	costs := []*Costs{timeCosts(0)}
	plain, err := Weigh([]*runs.Study{study}, costs, 500, 3)
	require.NoError(t, err)
	w, err := Weigh([]*runs.Study{study}, costs, 500, 3, drawn...)
	require.NoError(t, err)
	a, b := plain.Lines[0].Hours, w.Lines[0].Hours
	assert.InDelta(t, a.Mean(), b.Mean(), modeltest.Z999*math.Hypot(a.SD(), b.SD()))
	var single sim.Sample
	for _, rate := range study.NetRates() {
		single = append(single, 10e6/rate)
	}
	// By chance 500 draws of 4 may show an uncertainty of √(√(2/500)/4), an eighth of what shifts vary by.
	assert.Less(t, b.SD(), single.SD()/4, "chance of single shifts is taken for uncertainty")
}

func TestWeighWantsUncertaintyOfAllLines(t *testing.T) {
	_, err := Weigh([]*runs.Study{slow(), fast()}, []*Costs{prices(), gateCosts()}, 20, 1, &runs.UncertaintyStudy{})
	assert.ErrorContains(t, err, "want as many")
	few := &runs.UncertaintyStudy{Study: &runs.Study{Line: &model.Line{Name: "slow"}, Each: 2, Shifts: make([]runs.Shift, 2)}, Values: make([][]float64, 1)}
	_, err = Weigh([]*runs.Study{slow()}, []*Costs{prices()}, 20, 1, few)
	assert.ErrorContains(t, err, "slow was drawn 1 times and the first line 1, want as many, 2 at least")
}

// A line at two jobs uncertain inputs the same numbers in both; its mixed shifts are those of its jobs.
func TestUncertaintyOfJobs(t *testing.T) {
	line := modeltest.CountedLine([6]int64{20, 20, 20, 20, 20, 20}, 10_000)
	slower := *line
	slower.Name, slower.Random, slower.Speed = "b", "b", modeltest.TruthPerHour/2
	mix := &runs.Mix{Line: line, Setups: []*setup.Setup{{Line: line}, {Line: &slower}}, Shares: []float64{0.5, 0.5}}
	studies, _, err := runs.RunUncertainMixed(context.Background(), []*runs.Mix{mix}, sim.Plan{Seed: 1, Max: 300}, 4, nil)
	require.NoError(t, err)
	s := studies[0]
	require.Len(t, s.ByJob, 2)
	assert.Equal(t, s.ByJob[0].Values, s.ByJob[1].Values)
	assert.Equal(t, s.ByJob[0].Values, s.Values)
	for k := range s.Shifts {
		a, b := s.ByJob[0].Shifts[k].NetRate, s.ByJob[1].Shifts[k].NetRate
		assert.InEpsilon(t, 2/(1/a+1/b), s.Shifts[k].NetRate, 1e-12)
	}
	d := s.Of(func(s *runs.Shift) float64 { return s.NetRate })
	assert.Greater(t, d.Parts.Share(), 0.1)
	assert.Len(t, d.Sources, 6)
}
