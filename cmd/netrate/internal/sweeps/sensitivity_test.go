package sweeps

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/cmd/netrate/internal/small"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

func sensitivityOf(t *testing.T, sc *scenarios.Scenario, reps int, times float64) present.Sensitivity {
	t.Helper()
	question := study.SensitivityAnalysis{Line: sc.Line, Factor: times, Plan: sim.Plan{Seed: 5, Min: reps, Max: reps}}
	answer, err := question.Ask(t.Context(), nil)
	require.NoError(t, err)
	by := factor(times)
	return present.Sensitivity{SensitivityAnswer: answer, Origin: page.Origin{Scenario: sc, Text: []byte("…")}, Command: "netrate sensitivity x.yaml" + by.again()}
}

func TestSensitivityJSONGolden(t *testing.T) {
	sc, _, _ := small.Scenario(t, 1)
	s := sensitivityOf(t, sc, 20, 2)
	s.Effects, s.Kinds, s.Matter = s.Effects[:2], s.Kinds[:1], 2
	var out strings.Builder
	require.NoError(t, page.WriteDocument(&out, s.Document("v0")))
	golden.Check(t, "testdata/sensitivity.json", out.String())
}

func TestSensitivitySays(t *testing.T) {
	sc, _, _ := small.Scenario(t, 1)
	s := sensitivityOf(t, sc, 60, 2)
	assert.Regexp(t, `^Halving the inserter's \w+( \w+)* (is worth most|leads): \+\d+ ± \d+ good envelopes an hour, on 5,\d+ ± \d+\.( .* to be worth less[^.]*\.)? \d+ of 19 rates and times are shown to matter\.$`, present.SensitivityFinding(s.SensitivityAnswer))
	s = sensitivityOf(t, sc, 60, 3)
	assert.Contains(t, present.SensitivityFinding(s.SensitivityAnswer), "Dividing by 3 the inserter's ")
	assert.Contains(t, s.Text(), "netrate sensitivity x.yaml --factor 3 --seed 5 --reps 60\n")
	s.Gains = false
	assert.Contains(t, present.SensitivityFinding(s.SensitivityAnswer), "is not shown to gain anything")
	s.Effects = nil
	assert.Contains(t, present.SensitivityFinding(s.SensitivityAnswer), "no rate and no time")
	assert.Contains(t, present.SensitivityFinding(sensitivityOf(t, sc, 1, 2).SensitivityAnswer), "One shift alone")
}

// What cannot be is shown as such in every form.
func TestSensitivityShowsWhatCannotBe(t *testing.T) {
	sc, _, _ := small.Scenario(t, 1)
	for _, s := range sc.Line.Stations {
		if f, ok := s.(*model.Feeder); ok && f.Name == "letter" {
			f.Misfeed = 0.7
		}
	}
	s := sensitivityOf(t, sc, 5, 2)
	s.All = true
	assert.Regexp(t, `letter, misfeeds +70 % .* cannot be`, s.Text())
	assert.Regexp(t, `all \d misfeeds .* cannot be`, s.Text())
	r, err := s.Report("v0")
	require.NoError(t, err)
	assert.Contains(t, r.Page.Sections[0].Text, "letter, misfeeds, 140 %: feeder letter: misfeed is 1.4, want a probability")
	assert.NotContains(t, r.Page.Sections[0].Text, "card")
}

func TestSensitivityFitsTheScreen(t *testing.T) {
	if golden.Raced {
		t.Skip("the width of the answers is not what the race detector looks at")
	}
	for _, x := range scenarios.Examples() {
		sc, err := scenarios.Load(x.Name, x.Data)
		require.NoError(t, err)
		s := sensitivityOf(t, sc, 2, 2)
		for line := range strings.Lines(s.Text()) {
			assert.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), say.Screen(), line)
		}
	}
}
