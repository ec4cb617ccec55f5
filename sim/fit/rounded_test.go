package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// rounded returns durations as they are written down in whole minutes.
func rounded(exact []Observation) []Observation {
	obs := make([]Observation, len(exact))
	for i, o := range exact {
		obs[i] = Observation{Seconds: sim.Seconds(math.Round(float64(o.Seconds)/60)) * 60, Step: 60}
	}
	return obs
}

// Durations of 45 s on average with a cv of 0.8, in whole minutes: fitted as what is rounded to
// these they have the mean and the cv that they have, within four standard errors of 2,000; taken
// for exact, the zeros left out, they are far too long. What is exact is fitted alike, if it is
// said to lie within a thousandth of a second.
func TestFitOfWholeMinutes(t *testing.T) {
	law, err := sim.NewLognormal(45, 0.8)
	require.NoError(t, err)
	s := seeded("rounded", 0)
	var exact, fine, without []Observation
	for range 2000 {
		exact = append(exact, Observation{Seconds: law.Draw(s)})
	}
	for _, o := range exact {
		fine = append(fine, Observation{Seconds: o.Seconds, Step: 0.001})
	}
	minutes := rounded(exact)
	for _, o := range minutes {
		if o.Seconds > 0 {
			without = append(without, Observation{Seconds: o.Seconds})
		}
	}
	for _, kind := range []Kind{Exponential, Lognormal, Gamma, Weibull} {
		whole, err := Fit(kind, exact)
		require.NoError(t, err)
		same, err := Fit(kind, fine)
		require.NoError(t, err, kind)
		assert.InEpsilon(t, float64(whole.Mean()), float64(same.Mean()), 1e-4, kind)
		assert.InEpsilon(t, whole.CV(), same.CV(), 1e-4, kind)
		assert.InEpsilon(t, float64(whole.MeanSE()), float64(same.MeanSE()), 1e-2, kind)
	}
	f, err := Fit(Lognormal, minutes)
	require.NoError(t, err)
	assert.InDelta(t, 45, float64(f.Mean()), 4*float64(f.MeanSE()))
	assert.InDelta(t, 0.8, f.CV(), 4*f.CVSE())
	assert.Less(t, float64(f.MeanSE()), 3.0)
	old, err := Fit(Lognormal, without)
	require.NoError(t, err)
	assert.Greater(t, float64(old.Mean()), 70.0, "the old answer")
	c, err := Compare(minutes, 99, 1)
	require.NoError(t, err)
	assert.Contains(t, c.Notes[len(c.Notes)-1], "as observations were rounded")
}

func TestRoundedRefuses(t *testing.T) {
	for _, o := range []Observation{{Step: -1}, {Seconds: 0}, {Seconds: 5, Step: sim.Seconds(math.NaN())}, {Seconds: 0, Step: 60, Censored: true}} {
		_, err := Fit(Exponential, []Observation{o})
		require.Error(t, err)
	}
}
