package money

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/sim"
)

func seeded() *sim.Stream {
	s := sim.NewStream("test", "money")
	s.Seed(1, 0)
	return s
}

// cdf is the share of a triangle below x. Source: Kotz and van Dorp, Beyond Beta (2004),
// chapter 1 (from memory).
func (v Value) cdf(x float64) float64 {
	switch {
	case x <= v.Low:
		return 0
	case x >= v.High:
		return 1
	case x < v.Likely:
		return (x - v.Low) * (x - v.Low) / ((v.High - v.Low) * (v.Likely - v.Low))
	}
	return 1 - (v.High-x)*(v.High-x)/((v.High-v.Low)*(v.High-v.Likely))
}

// Draws have the mean of the triangle and the share below three places. A mistake often
// made, likely taken for the mean, must be seen.
func TestValueDraws(t *testing.T) {
	const n, cases, checks = 20_000, 3, 12 // a mean and three shares of each
	for name, v := range map[string]Value{
		"skew":    {10, 20, 60},
		"falling": {-5, -5, 5},
		"rising":  {-5, 5, 5},
	} {
		t.Run(name, func(t *testing.T) {
			s := seeded()
			x := make(sim.Sample, n)
			for i := range x {
				x[i] = v.Draw(s)
				require.True(t, x[i] >= v.Low && x[i] <= v.High)
			}
			assert.True(t, agrees(x, v.Mean(), checks), "%v, want %v", x.Mean(), v.Mean())
			assert.False(t, agrees(x, v.Likely, checks), "the likely value taken for the mean goes unseen")
			for _, part := range []float64{0.25, 0.5, 0.75} {
				place := v.Low + part*(v.High-v.Low)
				below := make(sim.Sample, n)
				for i := range x {
					if x[i] < place {
						below[i] = 1
					}
				}
				assert.True(t, agrees(below, v.cdf(place), checks), "below %v: %v, want %v", place, below.Mean(), v.cdf(place))
				assert.False(t, agrees(below, part, checks), "an even spread goes unseen")
			}
		})
	}
	assert.Equal(t, checks, cases*4)
}

// A fixed value takes a number from the stream like any other: what is drawn after it does
// not depend on it.
func TestFixedTakesANumber(t *testing.T) {
	a, b := seeded(), seeded()
	assert.Equal(t, 7.0, Fixed(7).Draw(a))
	Value{1, 2, 3}.Draw(b)
	assert.Equal(t, a.Uint64(), b.Uint64())
	assert.Equal(t, Value{}, Fixed(0))
	assert.Equal(t, 7.0, Fixed(7).Mean())
}

// A range moved up draws more with common random numbers, never less.
func TestDrawsUseCommonRandomNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := rapid.Float64Range(0, 100)
		low, a, b, up := part.Draw(t, "low"), part.Draw(t, "a"), part.Draw(t, "b"), part.Draw(t, "up")
		s, again := seeded(), seeded()
		random := rapid.IntRange(0, 1000).Draw(t, "replication")
		s.Seed(1, random)
		again.Seed(1, random)
		x := Value{low, low + a, low + a + b}.Draw(s)
		y := Value{low, low + a + up, low + a + b + up}.Draw(again)
		require.LessOrEqual(t, x, y+1e-9)
	})
}

func TestValueRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, v := range []Value{
		{2, 1, 3}, {1, 4, 3}, {3, 2, 1}, {nan, 2, 3}, {1, nan, 3}, {1, 2, nan}, {1, 2, inf}, {-inf, 2, 3}, Fixed(nan),
	} {
		assert.ErrorContains(t, v.Check(), "want -1e+13 ≤ low ≤ likely ≤ high ≤ 1e+13", "%v", v)
		assert.Panics(t, func() { v.Draw(seeded()) }, "%v", v)
	}
	assert.Panics(t, func() { Value{1, 2, 3}.Draw(sim.NewStream("a", "b")) }, "a stream never seeded")
	assert.NoError(t, Value{1, 1, 1}.Check())
	assert.NoError(t, Value{-3, -3, 2}.Check())
}
