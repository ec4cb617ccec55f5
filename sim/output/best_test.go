package output

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"

	"netrate/sim"
)

// negated turns figures of which the small are good.
func negated(systems []sim.Sample) []sim.Sample {
	turned := make([]sim.Sample, len(systems))
	for i, s := range systems {
		for _, x := range s {
			turned[i] = append(turned[i], -x)
		}
	}
	return turned
}

func TestLeadsEdges(t *testing.T) {
	tie := Leads([]sim.Sample{{1, 2}, {1, 2}, {0, 1}}, 0.95)
	assert.Equal(t, []Lead{{}, {}, {Mean: -1, Low: -1}}, tie, "no spread, no uncertainty")

	open := Leads([]sim.Sample{{1, 2, 3}, {3, 2, 1}}, 0.95)
	for _, l := range open {
		assert.Negative(t, l.Low, "neither is shown to be the best")
		assert.Positive(t, l.High, "nor to be beaten")
	}

	for name, f := range map[string]func(){
		"nobody":    func() { Leads(nil, 0.95) },
		"one":       func() { Leads([]sim.Sample{{1, 2}}, 0.95) },
		"once":      func() { Leads([]sim.Sample{{1}, {2}}, 0.95) },
		"lengths":   func() { Leads([]sim.Sample{{1, 2}, {1, 2, 3}}, 0.95) },
		"NaN":       func() { Leads([]sim.Sample{{1, math.NaN()}, {1, 2}}, 0.95) },
		"level":     func() { Leads([]sim.Sample{{1, 2}, {1, 3}}, 0.5) },
		"level NaN": func() { Leads([]sim.Sample{{1, 2}, {1, 3}}, math.NaN()) },
	} {
		t.Run(name, func(t *testing.T) { assert.Panics(t, f) })
	}
}

// The four designs once more, each pair with its own variance: computed from the printed
// variances of the paired differences (Banks et al., ch. 12), with t(1 − 0.05/3, 9) =
// 2.5096 (computed; 2.508 printed).
func TestLeads(t *testing.T) {
	got := Leads(negated(fourDesigns), 0.95)
	w := func(variance float64) float64 { return 2.5096 * math.Sqrt(variance/10) }
	for i, want := range []struct{ mean, low, high float64 }{
		{-5.686, -5.686 - w(28.498), 0},
		{-4.886, -4.886 - w(11.857), 0},
		{4.428, 0, 4.428 + w(9.849)}, // design 4 is the nearest, and the nearest bound
		{-4.428, -4.428 - w(9.849), 0},
	} {
		assert.InDelta(t, want.mean, got[i].Mean, 1e-9)
		assert.InDelta(t, want.low, got[i].Low, 1e-3, "design %d", i+1)
		assert.InDelta(t, want.high, got[i].High, 1e-3, "design %d", i+1)
	}
}

// The best of ten systems varies five times as much by itself as the others: the intervals of
// Leads and of Pairwise keep their level. With one variance pooled for all pairs those of the
// leads are too narrow, and this must be seen.
func TestLeadsUneven(t *testing.T) {
	const sets, n = 500, 10
	means := []float64{1, 0, 0, 0, 0, 0, 0, 0, 0, 0}
	var pairs [][2]int
	for i := 1; i < len(means); i++ {
		pairs = append(pairs, [2]int{i, 0})
	}
	student := distuv.StudentsT{Sigma: 1, Nu: n - 1}.Quantile(1 - 0.05/9)
	r := rand.New(rand.NewPCG(32, 2))
	pooled, own, single := 0, 0, 0
	for range sets {
		s := samples(r, means, 0.5, n)
		for j := range s[0] {
			s[0][j] += math.Sqrt(0.5*24) * r.NormFloat64()
		}
		one := student * math.Sqrt(meanVariance(s)/n)
		if best := leads(s, func(int, int) float64 { return one })[0]; best.High >= 1 {
			pooled++
		}
		if best := Leads(s, 0.95)[0]; best.High >= 1 {
			own++
		}
		all := true
		for _, c := range Pairwise(s, pairs, 0.95) {
			all = all && math.Abs(c.Difference.Mean-1) <= c.Difference.Half
		}
		if all {
			single++
		}
	}
	assert.False(t, enough(pooled, sets, 0.95), "one variance for all pairs goes unseen: %d of %d", pooled, sets)
	assert.True(t, enough(own, sets, 0.95), "%d of %d", own, sets)
	assert.True(t, enough(single, sets, 0.95), "%d of %d", single, sets)
}

// meanVariance returns the variance of the difference of two systems, the mean of all pairs.
func meanVariance(systems []sim.Sample) float64 {
	var sum float64
	pairs := AllPairs(len(systems))
	for _, p := range pairs {
		differences, _ := subtract(systems[p[0]], systems[p[1]])
		sum += differences.Variance()
	}
	return sum / float64(len(pairs))
}
