package portable

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"
)

// spread returns numbers of all sizes from low to high, both above 0.
func spread(low, high float64, n int) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = low * math.Pow(high/low, (float64(i)+0.37)/float64(n))
	}
	return x
}

// The functions are those of Go's own library but for the last bits.
func TestElementary(t *testing.T) {
	const units = 8 // in the last place
	near := func(name string, x, got, want float64) {
		t.Helper()
		if got == want || math.IsNaN(got) && math.IsNaN(want) {
			return
		}
		if !(math.Abs(got-want) <= units*(math.Nextafter(math.Abs(want), math.Inf(1))-math.Abs(want))) {
			t.Errorf("%s(%v) is %v, want %v", name, x, got, want)
		}
	}
	for _, x := range spread(1e-300, 700, 20_000) {
		near("exp", x, Exp(x), math.Exp(x))
		near("exp", -x, Exp(-x), math.Exp(-x))
		near("expm1", x, Expm1(x), math.Expm1(x))
		near("expm1", -x, Expm1(-x), math.Expm1(-x))
		near("log", x, Log(x), math.Log(x))
		near("log1p", x, Log1p(x), math.Log1p(x))
		near("log1p", -x/701, Log1p(-x/701), math.Log1p(-x/701))
		near("erfc", x, Erfc(x), math.Erfc(x))
		near("erfc", -x, Erfc(-x), math.Erfc(-x))
		lgamma, _ := math.Lgamma(x)
		near("lgamma", x, Lgamma(x), lgamma)
	}
	for _, x := range []float64{0, 1, -1, math.Inf(1), math.Inf(-1), math.NaN(), 710, -746, math.MaxFloat64} {
		near("exp", x, Exp(x), math.Exp(x))
		near("expm1", x, Expm1(x), math.Expm1(x))
		near("log", x, Log(x), math.Log(x))
		near("log1p", x, Log1p(x), math.Log1p(x))
		near("erfc", x, Erfc(x), math.Erfc(x))
	}
	for _, x := range spread(1e-3, 1e3, 50) {
		for _, y := range []float64{0, 1, 2, 7, 0.5, -0.5, 1.3, -2.9, 30, -30, 1e-9} {
			near(fmt.Sprint(y, " pow"), x, Pow(x, y), math.Pow(x, y))
		}
	}
	assert.Equal(t, 1.0, Pow(0, 0))
	assert.Equal(t, 0.0, Pow(0, 3))
	assert.Equal(t, math.Inf(1), Pow(0, -3))
	assert.Equal(t, math.Inf(1), Pow(2, 1e300))
	assert.Panics(t, func() { Pow(-1, 2) })
	assert.Panics(t, func() { Pow(math.NaN(), 2) })
	for _, x := range []float64{0, -1, math.NaN()} {
		assert.Panics(t, func() { Lgamma(x) })
	}
}

// relative is how far a value is from the one wanted, as a share of that.
func relative(got, want float64) float64 {
	if got == want {
		return 0
	}
	return math.Abs(got-want) / math.Abs(want)
}

var shares = []float64{1e-12, 1e-6, 0.001, 0.025, 0.3, 0.5, 0.7, 0.975, 0.999, 1 - 1e-9}

// Distributions and quantiles are those of gonum, and each quantile leads back to its share.
func TestDistributions(t *testing.T) {
	const far = 1e-9
	check := func(name string, got, want float64) {
		t.Helper()
		if !(relative(got, want) < far) {
			t.Errorf("%s is %v, want %v", name, got, want)
		}
	}
	for _, p := range shares {
		check(fmt.Sprint("normal ", p), NormalBelow(NormalQuantile(p)), p)
		if p != 0.5 {
			check(fmt.Sprint("normal quantile ", p), NormalQuantile(p), distuv.UnitNormal.Quantile(p))
		}
		for _, shape := range []float64{0.01, 0.3, 1, 2.5, 40, 1e4} {
			name := fmt.Sprint("gamma ", shape, " ", p)
			x := GammaQuantile(shape, p)
			if x == 0 {
				continue // too small for a number
			}
			check(name, GammaBelow(shape, x), p)
			g := distuv.Gamma{Alpha: shape, Beta: 1}
			check(name+" below", GammaBelow(shape, x), g.CDF(x))
			check(name+" above", GammaAbove(shape, x), g.Survival(x))
		}
		for _, b := range [][2]float64{{0.5, 0.5}, {1.0 / 3, 40}, {3.3, 4000}, {20, 1}, {1e5, 3e5}, {1, 1}} {
			name := fmt.Sprint("beta ", b, " ", p)
			x := BetaQuantile(b[0], b[1], p)
			if x < 1-1e-9 { // nearer to 1 it is the number that has not the digits
				check(name, BetaBelow(b[0], b[1], x), p)
				check(name+" below", BetaBelow(b[0], b[1], x), distuv.Beta{Alpha: b[0], Beta: b[1]}.CDF(x))
			}
		}
		for _, degrees := range []float64{1, 2, 7.5, 30, 500} {
			if p != 0.5 && p > 1e-9 { // further out gonum is wrong from the fifth digit on
				check(fmt.Sprint("t ", degrees, " ", p), StudentQuantile(degrees, p), distuv.StudentsT{Sigma: 1, Nu: degrees}.Quantile(p))
			}
			check(fmt.Sprint("F ", degrees, " ", p), FQuantile(degrees, 12, p), distuv.F{D1: degrees, D2: 12}.Quantile(p))
		}
	}
}

// Student's t and chi-square as they are printed in every table, here with more digits (R
// 4.2.2, qt and qchisq).
func TestTables(t *testing.T) {
	for degrees, want := range map[float64]float64{
		1: 12.7062047362, 4: 2.7764451052, 9: 2.2621571628, 19: 2.0930240544, 29: 2.0452296421, 99: 1.9842169516,
	} {
		assert.InDelta(t, want, StudentQuantile(degrees, 0.975), 1e-9)
	}
	for degrees, want := range map[float64]float64{1: 3.8414588207, 5: 11.0704976935, 10: 18.3070380533, 20: 31.4104328442, 50: 67.5048065495} {
		assert.InDelta(t, want, 2*GammaQuantile(degrees/2, 0.95), 1e-8)
	}
	// Far out: mpmath 1.3.0, the root of its regularised incomplete beta function.
	assert.InDelta(t, -7.2159305506489, StudentQuantile(500, 1e-12), 1e-9)
	assert.InDelta(t, -7.0353717423936, StudentQuantile(1e5, 1e-12), 1e-9)
	for p, want := range map[float64]float64{0.975: 1.9599639845, 0.995: 2.5758293035, 0.9995: 3.2905267315} {
		assert.InDelta(t, want, NormalQuantile(p), 1e-9)
	}
}

// The ends are what they are for every distribution, and nonsense is refused.
func TestEnds(t *testing.T) {
	assert.Equal(t, []float64{math.Inf(-1), math.Inf(1)}, []float64{NormalQuantile(0), NormalQuantile(1)})
	assert.Equal(t, []float64{math.Inf(-1), math.Inf(1)}, []float64{StudentQuantile(3, 0), StudentQuantile(3, 1)})
	assert.Equal(t, []float64{0, math.Inf(1)}, []float64{GammaQuantile(3, 0), GammaQuantile(3, 1)})
	assert.Equal(t, []float64{0, 1}, []float64{BetaQuantile(3, 4, 0), BetaQuantile(3, 4, 1)})
	assert.Equal(t, []float64{0, 1}, []float64{BetaBelow(3, 4, 0), BetaBelow(3, 4, 1)})
	for _, p := range []float64{-0.1, 1.1, math.NaN()} {
		assert.Panics(t, func() { NormalQuantile(p) })
		assert.Panics(t, func() { StudentQuantile(3, p) })
		assert.Panics(t, func() { GammaQuantile(3, p) })
		assert.Panics(t, func() { BetaQuantile(3, 4, p) })
	}
	for _, shape := range []float64{0, -1, math.NaN()} {
		assert.Panics(t, func() { GammaBelow(shape, 1) })
		assert.Panics(t, func() { BetaBelow(shape, 1, 0.5) })
	}
}

// Source: mpmath 1.3.0, psi(0, x) and psi(1, x).
func TestDigamma(t *testing.T) {
	for _, c := range [][3]float64{
		{0.001, -1000.5755719318103, 1000001.6425331959},
		{0.3, -3.502524222200133, 12.24536454610773},
		{1, -0.57721566490153286, 1.6449340668482264},
		{4.5, 1.3888709263595289, 0.24872510303901038},
		{12, 2.442661679975812, 0.086901872871768391},
		{1e6, 13.815510057964191, 1.0000005000001667e-6},
	} {
		assert.InEpsilon(t, c[1], Digamma(c[0]), 1e-14)
		assert.InEpsilon(t, c[2], Trigamma(c[0]), 1e-14)
	}
}

// Whoever rounds a decimal logarithm down must not lose a power of ten.
func TestLog10(t *testing.T) {
	for k := -20; k <= 20; k++ {
		assert.Equal(t, float64(k), Log10(math.Pow10(k)))
	}
	assert.InDelta(t, math.Log10(3.7e-5), Log10(3.7e-5), 1e-14)
}

func TestMoments(t *testing.T) {
	x := []float64{1e9 + 4, 1e9 + 7, 1e9 + 13, 1e9 + 16} // a textbook case: the variance is 30
	mean, variance := Variance(x)
	assert.Equal(t, 1e9+10, mean)
	assert.Equal(t, 30.0, variance)
	assert.Equal(t, 4e9+40, Sum(x))
	_, variance = Variance(x[:1])
	assert.True(t, math.IsNaN(variance))
	assert.True(t, math.IsNaN(Mean(nil)))
}

func BenchmarkQuantile(b *testing.B) {
	for name, quantile := range map[string]func(p float64) float64{
		"student": func(p float64) float64 { return StudentQuantile(63, p) },
		"beta":    func(p float64) float64 { return BetaQuantile(3.3, 4000, p) },
		"gamma":   func(p float64) float64 { return GammaQuantile(2.5, p) },
		"normal":  NormalQuantile,
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				quantile(0.975)
			}
		})
	}
}
