package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// Source: NIST/SEMATECH e-Handbook 8.2.1.5: 20 units, 6 failures, units taken off at 50,
// 100, 125 and 150 hours, the rest at 200. R(10) = 19/20, R(32) = 19/20 × 18/19, and so on.
func TestKaplanMeier(t *testing.T) {
	obs := Complete(10, 32, 56, 98, 122, 181)
	for _, cut := range []sim.Seconds{50, 100, 125, 150, 200, 200, 200, 200, 200, 200, 200, 200, 200, 200} {
		obs = append(obs, Observation{cut, true})
	}
	c, err := KaplanMeier(obs)
	require.NoError(t, err)
	want, greenwood := 1.0, 0.0
	require.Len(t, c, 6)
	for i, atRisk := range []float64{20, 19, 17, 16, 14, 11} {
		want *= (atRisk - 1) / atRisk
		greenwood += 1 / (atRisk * (atRisk - 1))
		assert.Equal(t, int(atRisk), c[i].AtRisk)
		assert.InDelta(t, want, c[i].Survival, 1e-12)
		assert.InDelta(t, want*math.Sqrt(greenwood), c[i].SE, 1e-12)
	}
	assert.InDelta(t, 0.95, c[0].Survival, 1e-12)
	assert.InDelta(t, 1, c.At(9.99), 0)
	assert.InDelta(t, 0.95, c.At(10), 1e-12, "it ended at 10, so it lasted no longer")
	assert.InDelta(t, 0.90, c.At(32), 1e-12)
	assert.InDelta(t, c[5].Survival, c.At(1e6), 0)
}

// Remissions in weeks of a trial with one group cut short, ties included: Kaplan–Meier
// 0.857, 0.807, 0.753, 0.690, 0.627, 0.538, 0.448 with errors 0.0764, 0.0869, 0.0963,
// 0.1068, 0.1141, 0.1282, 0.1346. Source: Cox and Oakes, Analysis of Survival Data (1984),
// section 1.2 (from memory).
func TestKaplanMeierWithTies(t *testing.T) {
	obs := Complete(6, 6, 6, 7, 10, 13, 16, 22, 23)
	for _, cut := range []sim.Seconds{6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35} {
		obs = append(obs, Observation{cut, true})
	}
	c, err := KaplanMeier(obs)
	require.NoError(t, err)
	require.Len(t, c, 7)
	for i, want := range []struct{ survival, se float64 }{
		{0.857, 0.0764}, {0.807, 0.0869}, {0.753, 0.0963}, {0.690, 0.1068}, {0.627, 0.1141}, {0.538, 0.1282}, {0.448, 0.1346},
	} {
		assert.InDelta(t, want.survival, c[i].Survival, 0.0005)
		assert.InDelta(t, want.se, c[i].SE, 0.00005)
	}
	assert.Equal(t, 3, c[0].Events)
	assert.Equal(t, 21, c[0].AtRisk, "one cut short at 6 was at risk at 6")
}

// Without any cut short it is the share of the sample; at the end nobody is left.
func TestKaplanMeierComplete(t *testing.T) {
	c, err := KaplanMeier(Complete(4, 1, 3, 1))
	require.NoError(t, err)
	assert.Equal(t, Curve{
		{Seconds: 1, AtRisk: 4, Events: 2, Survival: 0.5, SE: 0.25},
		{Seconds: 3, AtRisk: 2, Events: 1, Survival: 0.25, SE: 0.25 * math.Sqrt(0.25+0.5)},
		{Seconds: 4, AtRisk: 1, Events: 1, Survival: 0, SE: 0},
	}, c)
	_, err = KaplanMeier([]Observation{{5, true}})
	assert.Error(t, err)
}
