package sim

import (
	"errors"
	"flag"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"
)

// The checks that the tests share, and the tests of these checks.

// TestMain fixes the seed and the number of the property tests; the flags -rapid.seed
// and -rapid.checks on the command line still override them.
func TestMain(m *testing.M) {
	err := errors.Join(flag.Set("rapid.seed", "1"), flag.Set("rapid.checks", "400"))
	if err != nil {
		panic(err)
	}
	m.Run()
}

// near reports whether got is within a relative distance of want.
func near(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*math.Abs(want)
}

// agrees reports whether want lies in the 99.9 % interval of the mean of the
// sample, the 0.1 % split among the given number of checks.
func agrees(s Sample, want float64, checks int) bool {
	e := s.Interval(1 - 0.001/float64(checks))
	return len(s) > 1 && math.Abs(e.Mean-want) <= e.Half
}

// sees checks that the sample agrees with want, and that it would not agree with a
// value biased by the given share: a check that cannot fail shows nothing.
func sees(t *testing.T, s Sample, want, bias float64, checks int) {
	t.Helper()
	e := s.Interval(1 - 0.001/float64(checks))
	assert.True(t, agrees(s, want, checks), "got %.6g ± %.2g, want %.6g", e.Mean, e.Half, want)
	assert.False(t, agrees(s, want*(1+bias), checks), "a bias of %g goes unseen: %.6g ± %.2g", bias, e.Mean, e.Half)
	assert.False(t, agrees(s, want*(1-bias), checks), "a bias of %g goes unseen: %.6g ± %.2g", -bias, e.Mean, e.Half)
}

// kolmogorov is the 99.9 % point of Kolmogorov's distribution: the root of
// 2·Σ(−1)ᵏ⁻¹·exp(−2k²x²) = 0.001, computed.
const kolmogorov = 1.949475

// ks returns √n times the largest distance between the sample and a distribution.
func ks(x []float64, cdf func(float64) float64) float64 {
	sorted := slices.Sorted(slices.Values(x))
	n := float64(len(sorted))
	var largest float64
	for i, v := range sorted {
		p := cdf(v)
		if math.IsNaN(p) {
			return math.Inf(1)
		}
		largest = max(largest, p-float64(i)/n, float64(i+1)/n-p)
	}
	return math.Sqrt(n) * largest
}

// chiSquare returns the chance of counts as far off as these, when value i has
// probability p[i]; p may fall short of 1 by what lies beyond its end, which is
// counted in the last cell. Cells are joined until each expects at least 10.
func chiSquare(counts []int, p []float64) float64 {
	var total, sum, got, want, left float64
	for _, c := range counts {
		total += float64(c)
	}
	left = total
	cells := 0
	for i := range p {
		got += float64(counts[i])
		want += p[i] * total
		rest := left - want
		if want < 10 || (rest < 10 && i < len(p)-1) {
			continue
		}
		if i == len(p)-1 {
			want = left
		}
		sum += (got - want) * (got - want) / want
		left -= want
		cells++
		got, want = 0, 0
	}
	return distuv.ChiSquared{K: float64(cells - 1)}.Survival(sum)
}

func TestChecks(t *testing.T) {
	s := Sample{1, 2, 3, 4, 5} // 99.9 %: 3 ± 6.0; split among 10: 3 ± 10.9
	assert.True(t, agrees(s, 8.9, 1))
	assert.False(t, agrees(s, 9.2, 1))
	assert.True(t, agrees(s, 9.2, 10))
	assert.False(t, agrees(s, math.NaN(), 1))
	assert.False(t, agrees(Sample{1, math.NaN()}, 1, 1))
	assert.False(t, agrees(Sample{1}, 1, 1), "one observation shows nothing")
	assert.False(t, agrees(nil, 0, 1))

	assert.True(t, near(1.0009, 1, 1e-3))
	assert.False(t, near(1.0011, 1, 1e-3))
	assert.False(t, near(math.NaN(), 1, 1e-3))
	assert.False(t, near(math.Inf(1), 1, 1e-3))

	uniform := func(x float64) float64 { return x }
	assert.InDelta(t, 0.05, ks([]float64{.75, .25, .35, .85, .05, .15, .45, .55, .65, .95}, uniform)/math.Sqrt(10), 1e-12)
	assert.InDelta(t, 0.5, ks([]float64{.5}, uniform), 1e-12)
	assert.Equal(t, math.Inf(1), ks([]float64{math.NaN()}, uniform))
	var tail float64
	for k := 1.0; k < 10; k++ {
		tail -= 2 * math.Cos(math.Pi*k) * math.Exp(-2*k*k*kolmogorov*kolmogorov)
	}
	assert.InDelta(t, 0.001, tail, 1e-8)

	half := []float64{.5, .5}
	assert.InDelta(t, 0.04550026390, chiSquare([]int{60, 40}, half), 1e-9, "χ² = 4 at one degree: two sigma of a normal")
	assert.InDelta(t, 1, chiSquare([]int{50, 50}, half), 1e-12)
	assert.Less(t, chiSquare([]int{90, 10}, half), 1e-9)
}
