package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
)

// unsureOffers are two lines alike on average: the misfeeds of one feeder are somewhere in a skewed
// range, of which the likeliest is far from the mean, and those of the other are that mean.
func unsureOffers() []Alternative {
	guess := output.Between{Low: 1.0 / 4000, Likely: 1.0 / 2000, High: 1.0 / 150}
	var all []Alternative
	for _, name := range []string{"North", "South"} {
		l := sweepLine(1, 0)
		l.Name = name
		f := l.Stations[0].(*model.Feeder)
		f.Misfeed = guess.Expected()
		if name == "North" {
			f.Misfeed = guess.Likely
			l.UncertainInputs = []model.UncertainInput{{Station: f.Name, Name: "misfeed", Of: guess}}
		}
		all = append(all, Alternative{Name: name, Line: l})
	}
	return all
}

// What a difference rests on is worked out of the lines at their means, as the draws beside it are: of
// the likeliest values one of these two lines would be hundreds ahead. It is of nominal values where
// all else is.
func TestMattersAreAtMeans(t *testing.T) {
	ask := func(draws int) *ComparisonAnswer {
		a, err := Comparison{Alternatives: unsureOffers(), Plan: sim.Plan{Seed: 1, Min: 10, Max: 10}, Draws: draws}.Ask(t.Context(), nil)
		require.NoError(t, err)
		a.Explain(0, 1)
		return a
	}
	drawn := ask(UncertaintyLeast).Matters(3)
	require.NotEmpty(t, drawn)
	for _, m := range drawn {
		assert.InDelta(t, 0, float64(m.Paper), 0.5)
	}
	nominal := ask(0).Matters(1)
	require.Len(t, nominal, 1)
	assert.Less(t, float64(nominal[0].Paper), -300.0, "the likeliest values would do: this test cannot fail")
}

// A number is of the line that has it, or of both where it is the same in both; what is uncertain has
// its range.
func TestMattersAreSomebodys(t *testing.T) {
	offers := unsureOffers()
	offers[1].Line.Speed = 7000
	a, err := Comparison{Alternatives: offers, Plan: sim.Plan{Seed: 1, Min: 10, Max: 10}, Draws: UncertaintyLeast}.Ask(t.Context(), nil)
	require.NoError(t, err)
	a.Explain(0, 1)
	of := map[string][][]int{}
	for _, m := range a.Matters(1000) {
		of[m.Path] = append(of[m.Path], m.Of)
		if m.Input != nil {
			assert.InDelta(t, 1.0/4000, float64(m.Range.Low), 1e-12)
			assert.InDelta(t, 1.0/150, float64(m.Range.High), 1e-12)
			assert.Equal(t, []int{0}, m.Of)
		}
	}
	feeder := a.Lines[0].Of.Line.Stations[0].Where().Name
	assert.ElementsMatch(t, [][]int{{0}, {1}}, of["stations."+feeder+".misfeed"], "each has its own")
	assert.Equal(t, [][]int{{0, 1}}, of["stations."+feeder+".clear"], "both have the same")
}

// The usual difference that matters is a part of what the base delivers at its means, at which a
// selection runs.
func TestUsualIndifferenceIsAtMeans(t *testing.T) {
	offers := unsureOffers()
	a, err := Comparison{Alternatives: offers, Plan: sim.Plan{Seed: 1, Max: 100}, Selection: &ComparisonSelection{}}.Ask(t.Context(), nil)
	require.NoError(t, err)
	means, likeliest := offers[1].Line.Analytic().NetRate, offers[0].Line.Analytic().NetRate
	assert.InDelta(t, usualIndifferenceOf(means), float64(a.Selection.Indifference), 1e-9)
	assert.Greater(t, usualIndifferenceOf(likeliest), float64(a.Selection.Indifference)+1, "the likeliest values would do: this test cannot fail")
}

// What wins a target back is looked for at the means, too, and not at the likeliest values, of which
// the line is better than its draws are on average.
func TestTargetHelpIsAtMeans(t *testing.T) {
	l := unsureOffers()[0].Line
	ask := func(target float64) *RunAnswer {
		a, err := Run{Alternative: Alternative{Line: l, Target: target}, Plan: sim.Plan{Seed: 1, Min: 10, Max: 10}, Draws: 400}.Ask(t.Context(), nil)
		require.NoError(t, err)
		return a
	}
	mean := float64(ask(0).NetRate.Mean)
	met := ask(mean + 50).Target
	assert.True(t, met.AtMeans)
	require.NotEmpty(t, met.WonBack)
	means, _ := l.AtMeans().Parameter(met.WonBack[0].Path)
	assert.Equal(t, "stations.letter.misfeed", means.Path())
	assert.Equal(t, means.Value, met.WonBack[0].Value)
}
