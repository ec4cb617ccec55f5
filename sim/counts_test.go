package sim

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// The gap between successes, and the number of successes.

func gaps(p float64, n int) []int64 {
	s, gap := seeded("gaps"), NewGap(p)
	x := make([]int64, n)
	for i := range x {
		x[i] = gap.Draw(s)
	}
	return x
}

// P(T > k) = (1−p)ᵏ and E[T] = 1/p; for p = 1/2500, P(T > 2500) = 0.367805853
// (computed with R, no print found).
func TestGapMeanAndTail(t *testing.T) {
	const p, n = 1.0 / 2500, 40_000
	mean, beyond := make(Sample, n), make(Sample, n)
	for i, x := range gaps(p, n) {
		mean[i] = float64(x)
		if x > 2500 {
			beyond[i] = 1
		}
	}
	sees(t, mean, 2500, 0.05, 2)
	sees(t, beyond, 0.367805853, 0.06, 2)
}

func TestGapShape(t *testing.T) {
	for _, p := range []float64{0.9, 0.3, 0.02} {
		length := int(12/p) + 2
		want, biased := make([]float64, length), make([]float64, length)
		for k := range length - 1 {
			want[k+1] = p * math.Pow(1-p, float64(k))
			biased[k+1] = 0.92 * p * math.Pow(1-0.92*p, float64(k))
		}
		counts := make([]int, length)
		for _, x := range gaps(p, 60_000) {
			counts[min(int(x), length-1)]++
		}
		assert.Greater(t, chiSquare(counts, want), 0.001/3, "p = %v", p)
		assert.Less(t, chiSquare(counts, biased), 1e-6, "p = %v: a bias of 8 %% goes unseen", p)
	}
}

// Two lines that differ in p alone share their random numbers: the smaller p never gives the
// smaller gap.
func TestGapIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(0, 1)
		a, b := p.Draw(t, "a"), p.Draw(t, "b")
		seed := rapid.Uint64().Draw(t, "seed")
		draw := func(p float64) int64 {
			s := NewStream("test", "monotone")
			s.Seed(seed, 0)
			return NewGap(p).Draw(s)
		}
		small, large := draw(min(a, b)), draw(max(a, b))
		assert.GreaterOrEqual(t, small, large)
		assert.GreaterOrEqual(t, large, int64(1))
		assert.LessOrEqual(t, small, int64(1<<53))
	})
}

func TestGapAtTheEnds(t *testing.T) {
	for _, x := range gaps(1, 1000) {
		assert.Equal(t, int64(1), x)
	}
	for _, p := range []float64{0, math.SmallestNonzeroFloat64, 1e-30} {
		for _, x := range gaps(p, 1000) {
			assert.Equal(t, int64(1<<53), x, "p = %v", p)
		}
	}
	for _, p := range []float64{-1e-9, 1 + 1e-9, math.NaN(), math.Inf(1)} {
		assert.Panics(t, func() { NewGap(p) }, "p = %v", p)
	}
}

// Binomial probabilities: 10 trials at .3 and the tail of 4000 at .25 computed with
// R, no print found; the others from gonum's CDF, which the first two check.
func TestBinomialShape(t *testing.T) {
	assert.InDelta(t, 0.2334744405, distuv.Binomial{N: 10, P: .3}.Prob(2), 1e-10)
	assert.InDelta(t, 0.0347932009, distuv.Binomial{N: 4000, P: .25}.CDF(950), 1e-10)
	cases := []struct {
		name string
		n    int64
		p    float64
	}{
		{"direct", 10, .3},
		{"direct, p over a half", 24, .8},
		{"Poisson proposal, smallest", 25, .039},
		{"Poisson proposal", 4000, .5 / 4000},
		{"Poisson proposal, rare", 10_000_000, 3e-8},
		{"Poisson proposal, p over a half", 100, .995},
		{"Cauchy proposal, smallest", 25, .041},
		{"Cauchy proposal, a half", 25, .5},
		{"Cauchy proposal", 4000, .25},
		{"Cauchy proposal, p over a half", 4000, .75},
		{"Cauchy proposal, many", 1_000_000, 1e-4},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			const draws = 60_000
			p, counts, first := binomialCounts(c.n, c.p, draws)
			biased := make([]float64, len(p))
			d := distuv.Binomial{N: float64(c.n), P: min(c.p*1.06, (1+c.p)/2)}
			for i := range biased {
				biased[i] = d.Prob(first + float64(i))
			}
			assert.Greater(t, chiSquare(counts, p), 0.001/float64(len(cases)))
			assert.Less(t, chiSquare(counts, biased), 1e-6, "a bias of p goes unseen")
		})
	}
}

// binomialCounts draws, and returns for the values from first on the probability
// and the count; the values beyond either end count in the last cell there.
func binomialCounts(n int64, p float64, draws int) (want []float64, counts []int, first float64) {
	d := distuv.Binomial{N: float64(n), P: p}
	first = max(0, math.Floor(d.Mean()-6*d.StdDev()))
	last := min(float64(n), math.Ceil(d.Mean()+6*d.StdDev()+6))
	want, counts = make([]float64, int(last-first)+1), make([]int, int(last-first)+1)
	for i := range want {
		want[i] = d.Prob(first + float64(i))
	}
	s := seeded("binomial")
	for range draws {
		x := float64(s.Binomial(n, p))
		counts[int(min(max(x, first), last)-first)]++
	}
	return want, counts, first
}

func TestBinomialTail(t *testing.T) {
	s := seeded("tail")
	low := make(Sample, 60_000)
	for i := range low {
		if s.Binomial(4000, .25) <= 950 {
			low[i] = 1
		}
	}
	sees(t, low, 0.0347932009, 0.15, 1)
}

func TestBinomialAtTheEnds(t *testing.T) {
	s := seeded("ends")
	assert.Equal(t, int64(0), s.Binomial(0, .5))
	assert.Equal(t, int64(0), s.Binomial(1000, 0))
	assert.Equal(t, int64(1000), s.Binomial(1000, 1))
	for _, p := range []float64{-1e-9, 1 + 1e-9, math.NaN()} {
		assert.Panics(t, func() { s.Binomial(10, p) }, "p = %v", p)
	}
	assert.Panics(t, func() { s.Binomial(-1, .5) })
}
