package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/scenarios"
	"netrate/sim"
)

// Every rate and time of every example has a word of the trade.
func TestSensitivityHasWords(t *testing.T) {
	for _, x := range scenarios.Examples() {
		sc, err := scenarios.Load(x.Name, x.Data)
		require.NoError(t, err)
		for _, v := range sc.Line.Parameters() {
			assert.Contains(t, sensitivityWords, v.Name, x.Name)
		}
	}
}

// The answer so far is that of an analysis that ends there, and stays what it is.
func TestSensitivitySoFar(t *testing.T) {
	ask := func(reps int, told func(Sofar[SensitivityAnswer])) *SensitivityAnswer {
		q := SensitivityAnalysis{Line: sweepLine(1, 0), Plan: sim.Plan{Seed: 3, Min: reps, Max: reps}}
		a, err := q.Ask(t.Context(), told)
		require.NoError(t, err)
		return a
	}
	var kept *SensitivityAnswer
	all := ask(12, func(so Sofar[SensitivityAnswer]) {
		if so.Done == 5 {
			kept = so.Answer()
		}
	})
	short := ask(5, nil)
	assert.True(t, kept.Settings.Partial)
	kept.Settings = short.Settings // one was cancelled
	assert.Equal(t, encoded(t, short), encoded(t, kept))
	assert.NotEqual(t, encoded(t, all), encoded(t, kept))
}

// What is shown to gain most leads, and what cannot be says why.
func TestSensitivityAnswer(t *testing.T) {
	line := sweepLine(1, 0)
	q := SensitivityAnalysis{Line: line, Factor: 600, Plan: sim.Plan{Seed: 3, Min: 40, Max: 40}}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.True(t, a.Gains)
	assert.Positive(t, a.Matter)
	for _, x := range a.Effects {
		assert.LessOrEqual(t, x.Lower.Change.Mean, a.Effects[0].Lower.Change.Mean)
		if x.Name == "letter, misfeeds" { // 600 in 500 feeds
			assert.Contains(t, x.Higher.Impossible, "misfeed is 1.2")
			assert.Nil(t, x.Higher.Change)
		}
	}
	q.Factor = 0.5
	_, err = q.Ask(t.Context(), nil)
	assert.ErrorContains(t, err, "is 0.5, want a number above 1")
}
