package output

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/sim"
)

// Quantiles of the beta distribution with Seen + ⅓ and Of − Seen + ⅓, computed with mpmath 1.2,
// no print found.
func TestCountedQuantiles(t *testing.T) {
	for _, c := range []struct {
		Counted
		low, middle, high float64
	}{
		{Counted{Seen: 0, Of: 20}, 5.56259987027e-7, 0.00476390614817, 0.0957640319417},
		{Counted{Seen: 3, Of: 1000}, 0.000768104879362, 0.00300657196145, 0.0077299903711},
		{Counted{Seen: 10, Of: 20}, 0.291834051774, 0.5, 0.708165948226},
	} {
		for p, want := range map[float64]float64{0.025: c.low, 0.5: c.middle, 0.975: c.high} {
			assert.InEpsilon(t, want, c.Quantile(p), 1e-7, "%v at %g", c.Counted, p)
		}
	}
}

// The share seen is in the middle, as Kerman's prior is to have it (2011, section 3; from
// memory), and the middle 95 % lie within the exact interval, nearly as wide where many were
// seen.
func TestCountedWithinTheExactInterval(t *testing.T) {
	for _, c := range []Counted{{Seen: 0, Of: 20}, {Seen: 1, Of: 20}, {Seen: 10, Of: 20}, {Seen: 19, Of: 20}, {Seen: 20, Of: 20}, {Seen: 3, Of: 102_177}, {Seen: 214, Of: 520_311}} {
		low, high := ExactInterval(c.Seen, c.Of, 0.95)
		assert.Less(t, c.Quantile(0.975), high+1e-12, "%v", c)
		assert.Greater(t, c.Quantile(0.025), low-1e-12, "%v", c)
		if c.Seen > 0 && c.Seen < c.Of {
			assert.InEpsilon(t, c.Nominal(), c.Quantile(0.5), 0.03/float64(c.Seen), "%v", c)
		}
		if c.Seen > 100 {
			assert.InEpsilon(t, high-low, c.Quantile(0.975)-c.Quantile(0.025), 0.02)
		}
	}
}

func TestPrior(t *testing.T) {
	t.Run("about: mean and standard deviation", func(t *testing.T) {
		a := About{Mean: 40, Error: 4}
		var sum, squares float64
		const n = 200_000
		for i := range n {
			x := a.Quantile((float64(i) + 0.5) / n)
			sum += x
			squares += x * x
		}
		mean := sum / n
		assert.InEpsilon(t, 40, mean, 1e-4)
		assert.InEpsilon(t, 4, math.Sqrt(squares/n-mean*mean), 1e-2)
		assert.InEpsilon(t, 40/math.Sqrt(1.01), a.Quantile(0.5), 1e-12) // the median of a lognormal
	})
	// Of values of the lognormal distribution those up to the highest are left, each as likely as before.
	t.Run("about: cut off above", func(t *testing.T) {
		whole, cut := About{Mean: 5.55, Error: 3.6}, About{Mean: 5.55, Error: 3.6, Most: 12}
		const n = 200_000
		var below sim.Sample
		for i := range n {
			if x := whole.Quantile((float64(i) + 0.5) / n); x <= 12 {
				below = append(below, x)
			}
		}
		assert.Less(t, len(below), n*96/100, "something is cut off")
		for _, p := range []float64{0.025, 0.5, 0.9, 0.99} {
			assert.InEpsilon(t, below.Quantile(p), cut.Quantile(p), 1e-3, "%g", p)
		}
		assert.InEpsilon(t, cut.Expected(), below.Mean(), 1e-3)
		assert.InDelta(t, 12, cut.Quantile(1), 1e-12)
		assert.InDelta(t, 0, cut.Quantile(0), 0)
		assert.InDelta(t, 5.55, cut.Nominal(), 0)
	})
	t.Run("between", func(t *testing.T) {
		b := Between{1, 2, 5} // below the likeliest lies (2 − 1)/(5 − 1) of it
		assert.InDelta(t, 2, b.Quantile(0.25), 1e-12)
		assert.InDelta(t, 1.5, b.Quantile(0.25/4), 1e-12)
		assert.InDelta(t, 1, b.Quantile(0), 1e-12)
		assert.InDelta(t, 5, b.Quantile(1), 1e-12)
	})
	for _, c := range []struct {
		Prior
		nominal  float64
		fromData bool
	}{{Counted{Seen: 3, Of: 1000}, 0.003, true}, {About{Mean: 40, Error: 4}, 40, true}, {Between{1, 2, 5}, 2, false}} {
		assert.NoError(t, c.Check())
		assert.InDelta(t, c.nominal, c.Nominal(), 1e-15)
		assert.Equal(t, c.fromData, c.FromData())
	}
	nan := math.NaN()
	for _, bad := range []Prior{
		Counted{Seen: -1, Of: 10},
		Counted{Seen: 11, Of: 10},
		Counted{Seen: 0, Of: 0},
		Counted{Seen: 3, Of: 10, Made: 9},
		Counted{Seen: 3, Of: 10, Made: -10},
		About{Mean: 0, Error: 1},
		About{Mean: 10, Error: 0},
		About{Mean: 10, Error: 11},
		About{Mean: nan, Error: 1},
		About{Mean: 1, Error: nan},
		About{Mean: 20.5, Error: 1, Most: 20},
		About{Mean: 5, Error: 1, Most: -1},
		About{Mean: 5, Error: 1, Most: nan},
		Between{1, 3, 2},
		Between{2, 1, 3},
		Between{1, 1, 1},
		Between{nan, 1, 2},
		Between{0, 1, nan},
	} {
		assert.Error(t, bad.Check(), "%#v", bad)
	}
}

// Trials that were made and tell no more than fewer independent ones leave the prior as it is.
func TestTrialsMade(t *testing.T) {
	alone, many := Counted{Seen: 14, Of: 18_894}, Counted{Seen: 14, Of: 18_894, Made: 332_442}
	assert.NoError(t, many.Check())
	for _, p := range []float64{0.025, 0.5, 0.975} {
		assert.Equal(t, alone.Quantile(p), many.Quantile(p))
	}
	assert.Equal(t, [2]float64{alone.Nominal(), alone.Expected()}, [2]float64{many.Nominal(), many.Expected()})
	assert.Equal(t, 1.0, alone.Worth())
	assert.InDelta(t, 332_442.0/18_894, many.Worth(), 1e-12)
}
