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
