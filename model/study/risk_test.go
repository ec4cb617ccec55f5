package study

import (
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/runs"
	"netrate/scenarios"
	"netrate/sim"
)

// riskLine returns the line of a scenario of the command's tests.
func riskLine(t *testing.T, name string) *model.Line {
	t.Helper()
	text, err := os.ReadFile("../../cmd/netrate/testdata/" + name)
	require.NoError(t, err)
	sc, err := scenarios.Load(name, text)
	require.NoError(t, err)
	return sc.Line
}

func riskStudy(t *testing.T, l *model.Line) *runs.Study {
	t.Helper()
	s, err := runs.Run(t.Context(), l, sim.Plan{Seed: 5, Min: 30, Max: 30}, nil)
	require.NoError(t, err)
	return s
}

// What is risked is what the rates lead to, unless the count shows more, or nothing ever
// finds the fault.
func TestRiskOf(t *testing.T) {
	small := riskLine(t, "small.yaml")
	s := riskStudy(t, small)
	r := RiskOf(s)
	assert.False(t, r.FromCount)
	assert.InEpsilon(t, s.Escapes().PerMillion, float64(r.PerMillion), 1e-12)

	s.Total.Sets.Defective *= 3
	assert.True(t, RiskOf(s).FromCount, "the count shows more")
	assert.Positive(t, RiskOf(s).Low)

	unread := riskLine(t, "matched.yaml")
	unread.Stations = slices.DeleteFunc(unread.Stations, func(s model.Station) bool { _, ok := s.(*model.Reader); return ok })
	r = RiskOf(riskStudy(t, unread))
	assert.True(t, slices.ContainsFunc(r.From, func(x RiskSource) bool { return x.Unfound }))
	assert.True(t, r.FromCount)
	assert.Less(t, r.Low, float64(r.PerMillion))
	assert.Less(t, float64(r.PerMillion), r.High)

	assert.Zero(t, RiskOf(&runs.Study{Line: small}).PerMillion)
}

// A quarter of the good envelopes is of a job with a known risk, three of four of one without: a quarter
// of that risk, but for the defective ones themselves, which are delivered too. What a count shows of
// one job keeps its interval, which holds at once with that of the other.
func TestRiskOfJobs(t *testing.T) {
	leaky, clean := riskLine(t, "small.yaml"), riskLine(t, "small.yaml")
	for _, s := range clean.Stations {
		if f, is := s.(*model.Feeder); is {
			f.Misfeed, f.Double = 0, 0
		}
	}
	leaks := riskStudy(t, leaky)
	of := func() Risk {
		return RiskOf(runs.Mixed(leaky, []*runs.Study{leaks, riskStudy(t, clean)}, []float64{0.25, 0.75}))
	}
	alone, both := RiskOf(leaks), of()
	wrong := float64(alone.PerMillion) / 1e6
	perGood := 0.25 * wrong / (1 - wrong)
	assert.InEpsilon(t, 1e6*perGood/(1+perGood), float64(both.PerMillion), 1e-9)
	assert.Len(t, both.From, len(alone.From))
	assert.Greater(t, both.Delivered, alone.Delivered)
	assert.False(t, both.FromCount)
	assert.Zero(t, both.High)

	leaks.Total.Sets.Defective *= 3
	alone, both = RiskOf(leaks), of()
	assert.True(t, both.FromCount)
	assert.InEpsilon(t, 0.25*float64(alone.PerMillion), float64(both.PerMillion), 0.01)
	assert.Greater(t, float64(both.High-both.PerMillion), 0.25*float64(alone.High-alone.PerMillion), "both hold at once")
	assert.False(t, both.Within(float64(both.PerMillion)))

	one := RiskOf(runs.Mixed(leaky, []*runs.Study{leaks}, []float64{1}))
	assert.Equal(t, alone.PerMillion, one.PerMillion)
	assert.Equal(t, alone.High, one.High)
}
