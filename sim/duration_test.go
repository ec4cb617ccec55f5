package sim

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// made returns the duration, which must have been possible.
func made(d Duration, err error) Duration {
	if err != nil {
		panic(err)
	}
	return d
}

// Mean 60 and cv 0.8, computed with R 4.2.2, no print found.
func TestDurationsByMeanAndCV(t *testing.T) {
	same := func(t *testing.T, want, got float64) {
		t.Helper()
		assert.True(t, near(got, want, 1e-9), "got %.11g, want %.11g", got, want)
	}
	t.Run("lognormal", func(t *testing.T) {
		d := made(NewLognormal(60, 0.8)).(lognormal)
		same(t, 3.8469964413, d.mu)
		same(t, 0.7033464593, d.sigma)
		q := distuv.LogNormal{Mu: d.mu, Sigma: d.sigma}
		same(t, 46.8521285666, q.Quantile(.5))
		same(t, 14.7330676388, q.Quantile(.05))
		same(t, 148.992864557, q.Quantile(.95))
		same(t, 0.6374583303, q.CDF(60))
	})
	t.Run("gamma", func(t *testing.T) {
		d := made(NewGamma(60, 0.8)).(gamma)
		same(t, 1.5625, d.shape)
		same(t, 1/38.4, d.rate)
		q := distuv.Gamma{Alpha: d.shape, Beta: d.rate}
		same(t, 47.7973459974, q.Quantile(.5))
		same(t, 154.182342652, q.Quantile(.95))
	})
	t.Run("weibull", func(t *testing.T) {
		d := made(NewWeibull(60, 0.8)).(weibull)
		same(t, 1.25824926271, d.shape)
		same(t, 64.5159862249, d.scale)
		q := distuv.Weibull{K: d.shape, Lambda: d.scale}
		same(t, 48.2128235349, q.Quantile(.5))
		same(t, 154.301632691, q.Quantile(.95))
	})
	t.Run("triangular", func(t *testing.T) {
		same(t, 30, float64(made(NewTriangular(10, 20, 60)).Mean()))
		q := distuv.NewTriangle(10, 60, 20, nil)
		same(t, 28.3772233983, q.Quantile(.5))
		same(t, 116.6666666667, q.Variance())
	})
}

// cv² + 1 = Γ(1+2/k)/Γ(1+1/k)² over the whole range; k = 1 is the exponential.
func TestWeibullShape(t *testing.T) {
	assert.InDelta(t, 1, weibullShape(1), 1e-12)
	for _, cv := range []float64{leastCV, 0.01, 0.1, 0.5, 2, 5, mostCV} {
		q := distuv.Weibull{K: weibullShape(cv), Lambda: 1}
		assert.True(t, near(q.Variance()/(q.Mean()*q.Mean()), cv*cv, 1e-7), "cv %v", cv)
	}
}

func TestSamplers(t *testing.T) {
	laws := map[string]struct {
		Duration
		cdf func(x float64) float64
	}{
		"exponential":         {made(NewExponential(60)), distuv.Exponential{Rate: 1. / 60}.CDF},
		"lognormal":           {made(NewLognormal(60, .8)), distuv.LogNormal{Mu: 3.8469964413, Sigma: 0.7033464593}.CDF},
		"gamma":               {made(NewGamma(60, .8)), distuv.Gamma{Alpha: 1.5625, Beta: 1 / 38.4}.CDF},
		"gamma, wide":         {made(NewGamma(60, 1.6)), distuv.Gamma{Alpha: 0.390625, Beta: 0.390625 / 60}.CDF},
		"gamma, very wide":    {made(NewGamma(60, 2.5)), distuv.Gamma{Alpha: 0.16, Beta: 0.16 / 60}.CDF},
		"gamma, narrow":       {made(NewGamma(60, .4)), distuv.Gamma{Alpha: 6.25, Beta: 6.25 / 60}.CDF},
		"weibull":             {made(NewWeibull(60, .8)), distuv.Weibull{K: 1.25824926271, Lambda: 64.5159862249}.CDF},
		"triangular":          {made(NewTriangular(10, 20, 60)), distuv.NewTriangle(10, 60, 20, nil).CDF},
		"triangular, rising":  {made(NewTriangular(0, 60, 60)), distuv.NewTriangle(0, 60, 60, nil).CDF},
		"triangular, falling": {made(NewTriangular(0, 0, 60)), distuv.NewTriangle(0, 60, 0, nil).CDF},
	}
	for name, law := range laws {
		t.Run(name, func(t *testing.T) {
			s := seeded(name)
			x := make([]float64, 50_000)
			for i := range x {
				x[i] = float64(law.Draw(s))
			}
			longer := func(x float64) float64 { return law.cdf(x / 1.1) }
			assert.Less(t, ks(x, law.cdf), kolmogorov)
			assert.Greater(t, ks(x, longer), kolmogorov, "durations 10 %% too short go unseen")
		})
	}
}

func TestEmpirical(t *testing.T) {
	values := []Seconds{3, 10, 3, 24}
	d := made(NewEmpirical(values))
	values[0] = 1000 // the values were copied
	assert.Equal(t, Seconds(10), d.Mean())
	counts := map[Seconds]int{}
	s := seeded("empirical")
	for range 10_000 {
		counts[d.Draw(s)]++
	}
	got := []int{counts[3], counts[10], counts[24]}
	assert.Len(t, counts, 3)
	assert.Greater(t, chiSquare(got, []float64{.5, .25, .25}), 0.001)
	assert.Less(t, chiSquare(got, []float64{1. / 3, 1. / 3, 1. / 3}), 1e-6, "a value listed once too few goes unseen")
}

func TestConstant(t *testing.T) {
	assert.Equal(t, Seconds(7), Constant(7).Draw(nil))
	assert.Equal(t, Seconds(7), Constant(7).Mean())
}

// Whatever the parameters allowed, a draw is finite and not negative.
func TestDrawsAtTheEnds(t *testing.T) {
	s := seeded("ends")
	for _, mean := range []Seconds{shortest, 60, longest} {
		for _, cv := range []float64{leastCV, 1, mostCV} {
			for _, d := range []Duration{
				made(NewLognormal(mean, cv)), made(NewGamma(mean, cv)),
				made(NewWeibull(mean, cv)), made(NewExponential(mean)),
			} {
				assert.Equal(t, mean, d.Mean())
				for range 1000 {
					x := float64(d.Draw(s))
					require.True(t, x >= 0 && !math.IsInf(x, 0), "%T mean %v cv %v: %v", d, mean, cv, x)
				}
			}
		}
	}
}

func TestDurationsRefuse(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, mean := range []float64{0, -1, nan, inf, 2e9, 1e-7} {
		_, err := NewExponential(Seconds(mean))
		assert.ErrorContains(t, err, "want from 1e-06 to 1e+09", "mean %v", mean)
	}
	for _, c := range []struct{ mean, cv float64 }{
		{0, 1}, {-1, 1}, {nan, 1}, {inf, 1}, {2e9, 1}, {60, 0}, {60, -1}, {60, nan}, {60, inf}, {60, 11}, {60, 1e-4},
	} {
		for _, law := range []func(Seconds, float64) (Duration, error){NewLognormal, NewGamma, NewWeibull} {
			d, err := law(Seconds(c.mean), c.cv)
			assert.Error(t, err, "mean %v, cv %v", c.mean, c.cv)
			assert.Nil(t, d)
		}
	}
	_, err := NewGamma(-1, 0)
	assert.EqualError(t, err, "mean is -1 s, want from 1e-06 to 1e+09\ncv is 0, want from 0.001 to 10")

	for _, c := range [][3]float64{
		{-1, 2, 3}, {2, 1, 3}, {1, 4, 3}, {3, 3, 3}, {nan, 2, 3}, {1, nan, 3}, {1, 2, nan}, {1, 2, inf}, {1, 2, 2e9},
	} {
		d, err := NewTriangular(Seconds(c[0]), Seconds(c[1]), Seconds(c[2]))
		assert.Error(t, err, "%v", c)
		assert.Nil(t, d)
	}
	for _, values := range [][]float64{nil, {}, {1, -1}, {nan}, {1, inf}, {2e9}} {
		x := make([]Seconds, len(values))
		for i, v := range values {
			x[i] = Seconds(v)
		}
		d, err := NewEmpirical(x)
		assert.Error(t, err, "%v", values)
		assert.Nil(t, d)
	}
	_, err = NewEmpirical([]Seconds{4, -2})
	assert.EqualError(t, err, "value 2 is -2 s, want from 0 to 1e+09")
}

func TestDurationsAllocateNothing(t *testing.T) {
	s := seeded("allocations")
	for _, d := range []Duration{
		Constant(1), made(NewExponential(60)), made(NewLognormal(60, .8)), made(NewGamma(60, .8)), made(NewGamma(60, 3)),
		made(NewWeibull(60, .8)), made(NewTriangular(1, 2, 3)), made(NewEmpirical([]Seconds{1, 2})),
	} {
		assert.Zero(t, testing.AllocsPerRun(1000, func() { d.Draw(s) }), "%T", d)
	}
}
