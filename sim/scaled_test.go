package sim

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSpread(t *testing.T) {
	for _, made := range []func(Seconds, float64) (Duration, error){NewLognormal, NewGamma, NewWeibull} {
		from, _ := made(40, 0.5)
		want, _ := made(80, 0.9)
		got, err := Spread(Scaled(from, 2), 0.9)
		assert.NoError(t, err)
		assert.InEpsilon(t, float64(want.Mean()), float64(got.Mean()), 1e-12)
		s := NewStream("a", "b")
		s.Seed(1, 0)
		x := got.Draw(s)
		s.Seed(1, 0)
		assert.InEpsilon(t, float64(want.Draw(s)), float64(x), 1e-9)
	}
	_, err := Spread(Constant(3), 0.5)
	assert.Error(t, err)
	gamma, _ := NewGamma(3, 1)
	_, err = Spread(gamma, math.NaN())
	assert.Error(t, err)
	for cv, nearest := range map[float64]float64{0: leastCV, 1e9: mostCV} {
		want, _ := NewGamma(3, nearest)
		got, err := Spread(gamma, cv)
		assert.NoError(t, err)
		assert.Equal(t, want, got)
	}
}
