package study

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/output"
)

// offer is a line of a file, with a guess of its misfeeds and of the walk of the crew.
func offer(file string, misfeed output.Between, common bool) Alternative {
	l := modeltest.ReferenceLine()
	l.UncertainInputs = []model.UncertainInput{
		{Station: l.Stations[0].Where().Name, Name: "misfeed", Of: misfeed},
		{Name: model.CrewWalk, Part: model.MeanPart, Of: output.Between{Low: 5, Likely: 10, High: 30}, SameAs: "crew.walk.mean", Common: common},
	}
	return Alternative{Name: file, File: file, Line: l}
}

// Two makers who guess nearly alike, a tenth apart, are next to a coin toss. Drawn as one unknown, the
// guess that is worse would be nearly sure to be behind the other.
func TestTwoGuessesAreTwoUnknowns(t *testing.T) {
	a := offer("a", output.Between{Low: 0.001, Likely: 0.01, High: 0.1}, true)
	b := offer("b", output.Between{Low: 0.0011, Likely: 0.011, High: 0.11}, true)
	sure := func(b Alternative) float64 {
		answer, err := Comparison{Alternatives: []Alternative{a, b}, Plan: sim.Plan{Seed: 1, Min: 4, Max: 4}, Draws: 200}.Ask(context.Background(), nil)
		require.NoError(t, err)
		return float64(*answer.Uncertainty.Lines[1].Sure)
	}
	assert.InDelta(t, 0.5, sure(b), 0.12, "200 draws know a probability to 0.035: 3.29 of that")
	b.File = "a"
	assert.Less(t, sure(b), 0.2, "of one file both are one unknown, and b is behind: this test can fail")
}

func TestSharedBetweenFiles(t *testing.T) {
	alike := output.Between{Low: 0.0001, Likely: 0.001, High: 0.01}
	all, err := apart([]Alternative{offer("a", alike, false), offer("b", alike, true)})
	require.NoError(t, err)
	first, second := all[0].Line.UncertainInputs, all[1].Line.UncertainInputs
	assert.NotEqual(t, first[0].Unknown(), second[0].Unknown())
	assert.Equal(t, first[1].Unknown(), second[1].Unknown())

	other := offer("b", alike, true)
	other.Line.UncertainInputs[1].Of = output.Between{Low: 5, Likely: 10, High: 31}
	_, err = apart([]Alternative{offer("a", alike, false), other})
	assert.EqualError(t, err, "“b”: crew.walk.mean is said to be the same as crew.walk.mean, which is written differently in what it is compared with: want the same numbers")
	none := offer("a", alike, false)
	none.Line.UncertainInputs = none.Line.UncertainInputs[:1]
	_, err = apart([]Alternative{none, other})
	assert.EqualError(t, err, "“b”: crew.walk.mean is said to be the same as crew.walk.mean, which is not uncertain in what it is compared with")
}
