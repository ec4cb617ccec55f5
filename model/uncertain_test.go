package model

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
	"netrate/sim/output"
)

// uncertainInputsLine is a line by hand of which nearly everything is uncertain.
func uncertainInputsLine(uncertain ...UncertainInput) *Line {
	clearing, _ := sim.NewLognormal(20, 0.5)
	l := handLine(3600, func(_ *Line, a, _ *Feeder) {
		a.Misfeed, a.Growth, a.Clear = 0.001, 1, clearing
	})
	l.UncertainInputs = uncertain
	return l
}

func TestDrawn(t *testing.T) {
	l := uncertainInputsLine(
		UncertainInput{Station: "A", Name: "misfeed", Of: output.Counted{Seen: 10, Of: 10_000}},
		UncertainInput{Station: "A", Name: "double", Of: output.Counted{Seen: 0, Of: 10_000}},
		UncertainInput{Station: "A", Name: "growth", Of: output.About{Mean: 1, Error: 0.2}},
		UncertainInput{Station: "A", Name: "caught", Of: output.Between{Low: 0.8, Likely: 0.9, High: 1}},
		UncertainInput{Station: "A", Name: "clear", Part: CVPart, Of: output.About{Mean: 0.5, Error: 0.1}},
		UncertainInput{Station: "A", Name: "clear", Part: MeanPart, Of: output.About{Mean: 20, Error: 3}},
		UncertainInput{Name: "crew.walk", Part: MeanPart, Of: output.Between{Low: 5, Likely: 10, High: 20}},
		UncertainInput{Station: "inserter", Name: "hopper.refill", Part: MeanPart, Of: output.Between{Low: 10, Likely: 20, High: 30}},
	)
	require.Empty(t, l.Check())
	drawn, values := l.Drawn(7, 3)
	require.Empty(t, drawn.Check())
	assert.Empty(t, drawn.UncertainInputs, "a line that was drawn has nothing uncertain")

	a, inserter := drawn.Stations[handA].(*Feeder), drawn.Stations[handInserter].(*Inserter)
	want, _ := sim.NewLognormal(sim.Seconds(values[5]), values[4])
	for i, got := range []float64{a.Misfeed, a.Double, a.Growth, a.Caught, deviation(t, a.Clear), float64(a.Clear.Mean()), float64(drawn.Crew.Walk.Mean()), float64(inserter.Hopper.Work.Mean())} {
		if i == 4 {
			assert.InEpsilon(t, deviation(t, want), got, 1e-9)
			continue
		}
		assert.InEpsilon(t, values[i], got, 1e-12, l.UncertainInputs[i].Path())
	}
	own := l.Stations[handA].(*Feeder)
	assert.Equal(t, 0.001, own.Misfeed, "the line itself stays as it is")
	assert.Len(t, l.UncertainInputs, 8)

	again, _ := l.Drawn(7, 3)
	assert.Equal(t, drawn, again)
	_, others := l.Drawn(7, 4)
	for i := range values {
		assert.NotEqual(t, values[i], others[i])
	}
	// The same number has common random numbers, whatever else is uncertain.
	one, _ := uncertainInputsLine(l.UncertainInputs[2]).Drawn(7, 3)
	assert.Equal(t, a.Growth, one.Stations[handA].(*Feeder).Growth)
}

// deviation returns the standard deviation of the logarithm of what a duration draws.
func deviation(t *testing.T, d sim.Duration) float64 {
	t.Helper()
	s, logs := sim.NewStream("test", "deviation"), sim.Sample{}
	s.Seed(1, 0)
	for range 1000 {
		logs = append(logs, math.Log(float64(d.Draw(s))))
	}
	return logs.SD()
}

// What is drawn is spread as its prior says: half of the draws of a rate lie below its
// median, one in forty below the end of its interval.
func TestDrawnAsThePriorSays(t *testing.T) {
	of := output.Counted{Seen: 3, Of: 10_000}
	l := uncertainInputsLine(UncertainInput{Station: "A", Name: "misfeed", Of: of})
	const draws = 4000
	below := func(p float64) int64 {
		n := int64(0)
		for k := range draws {
			if _, v := l.Drawn(1, k); v[0] < of.Quantile(p) {
				n++
			}
		}
		return n
	}
	for _, p := range []float64{0.025, 0.5, 0.975} {
		low, high := output.ExactInterval(below(p), draws, 0.9997)
		assert.True(t, low <= p && p <= high, "%g: %g to %g", p, low, high)
	}
	low, _ := output.ExactInterval(below(0.6), draws, 0.9997)
	assert.Greater(t, low, 0.5, "a median at 0.6 goes unseen")
}

func TestUncertaintyThatCannotBe(t *testing.T) {
	counted := output.Counted{Seen: 1, Of: 1000}
	for _, c := range []struct {
		name string
		UncertainInput
		want string
	}{
		{"no such station", UncertainInput{Station: "X", Name: "misfeed", Of: counted}, "it is not a number of the line"},
		{"no such number", UncertainInput{Station: "A", Name: "flap", Of: counted}, "it is not a number of the line"},
		{"a duration as a whole", UncertainInput{Station: "A", Name: "clear", Of: counted}, "it is not a number of the line"},
		{"the mean of a rate", UncertainInput{Station: "A", Name: "misfeed", Part: MeanPart, Of: counted}, "it is not a number of the line"},
		{"no prior", UncertainInput{Station: "A", Name: "misfeed", Of: output.Counted{Seen: 2, Of: 1}}, "2 of 1 were seen"},
		{"not even a number", UncertainInput{Station: "A", Name: "growth", Of: output.About{Mean: math.NaN(), Error: 1}}, "NaN"},
		{"below 0", UncertainInput{Station: "A", Name: "growth", Of: output.Between{Low: -1, Likely: 1, High: 2}}, "as low as -1"},
		{"no probability", UncertainInput{Station: "A", Name: "misfeed", Of: output.Between{Low: 0, Likely: 1, High: 2}}, "as high as 2"},
		{"no time", UncertainInput{Station: "A", Name: "clear", Part: MeanPart, Of: output.Between{Low: 0, Likely: 1, High: 2}}, ""},
		{"a time of 0 s", UncertainInput{Name: "line.restart", Part: MeanPart, Of: output.Between{Low: -1, Likely: 1, High: 2}}, "as low as -1"},
		{"a time far beyond what is given", UncertainInput{Station: "A", Name: "clear", Part: MeanPart, Of: output.Between{Low: 1, Likely: 2, High: 3e10}}, "want more than 0"},
		{"the cv of what has none", UncertainInput{Station: "B", Name: "clear", Part: CVPart, Of: output.About{Mean: 0.5, Error: 0.1}}, "has no cv"},
		{"a cv that may be beyond all bounds", UncertainInput{Station: "A", Name: "clear", Part: CVPart, Of: output.About{Mean: 2, Error: 2}}, ""},
		{"a cv of a range beyond all bounds", UncertainInput{Station: "A", Name: "clear", Part: CVPart, Of: output.Between{Low: 1, Likely: 2, High: 20}}, "cv is 20"},
		{"a cv below 0", UncertainInput{Station: "A", Name: "clear", Part: CVPart, Of: output.Between{Low: -1, Likely: 2, High: 20}}, "as low as"},
	} {
		t.Run(c.name, func(t *testing.T) {
			errs := uncertainInputsLine(c.UncertainInput).Check()
			if c.want == "" {
				require.Empty(t, errs)
				return
			}
			require.Len(t, errs, 1)
			assert.ErrorContains(t, errs[0], c.want)
			assert.ErrorContains(t, errs[0], c.Path())
		})
	}
}

func TestUncertaintyPath(t *testing.T) {
	assert.Equal(t, "stations.A.clear.mean", UncertainInput{Station: "A", Name: "clear", Part: MeanPart, Of: nil}.Path())
	assert.Equal(t, "stations.A.streak.again", UncertainInput{Station: "A", Name: "streak.again", Of: nil}.Path())
	assert.Equal(t, "crew.walk.mean", UncertainInput{Name: "crew.walk", Part: MeanPart, Of: nil}.Path())
}
