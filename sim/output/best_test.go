package output

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"

	"netrate/sim"
)

// Source: Dunnett, JASA 50 (1955) 1096–1121, one-sided 95 % (printed to two decimals,
// from memory; the third is computed, for 10 degrees also with R mvtnorm). A million
// degrees stand for infinitely many.
func TestDunnett(t *testing.T) {
	for df, want := range map[int][]float64{
		10:        {1.812, 2.151, 2.338, 2.466, 2.562, 2.640},
		20:        {1.725, 2.027, 2.192, 2.304, 2.389, 2.456},
		1_000_000: {1.645, 1.916, 2.062, 2.160, 2.234, 2.292},
	} {
		for i, g := range want {
			assert.InDelta(t, g, dunnett(0.95, i+1, df), 1e-3, "%d comparisons, %d degrees", i+1, df)
		}
	}
}

// One comparison is Student's t. And p normals of correlation ½ are below 0 with the
// chance 1/(p+1): the one they share is the largest of p+1 alike.
func TestDunnettExact(t *testing.T) {
	for _, df := range []int{1, 2, 5, 27, 500} {
		for _, level := range []float64{0.6, 0.95, 0.99} {
			student := distuv.StudentsT{Sigma: 1, Nu: float64(df)}.Quantile(level)
			assert.InEpsilon(t, student, dunnett(level, 1, df), 1e-7, "%d degrees, level %g", df, level)
		}
	}
	for _, p := range []int{1, 2, 9, 99} {
		assert.InDelta(t, 1/float64(p+1), normalsBelow(0, p), 1e-9)
		assert.InDelta(t, 1/float64(p+1), allBelow(0, p, 7), 1e-9)
	}
	for name, f := range map[string]func(){
		"no comparison": func() { dunnett(0.95, 0, 5) },
		"no degrees":    func() { dunnett(0.95, 2, 0) },
		"low level":     func() { dunnett(0.3, 2, 5) },
		"NaN":           func() { dunnett(math.NaN(), 2, 5) },
	} {
		t.Run(name, func(t *testing.T) { assert.Panics(t, f) })
	}
}

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

// The four designs of Banks et al. after Nelson and Matejcik 1995: computed, no print
// found.
func TestLeadsIfAlike(t *testing.T) {
	assert.InDelta(t, 10.051851, pooledVariance(fourDesigns), 1e-6)
	assert.InDelta(t, 2.1572, dunnett(0.95, 3, 27), 1e-4)

	// There, smaller is better: the intervals change sign and ends.
	got := LeadsIfAlike(negated(fourDesigns), 0.95)
	for i, want := range [][2]float64{{0, 7.8487}, {0, 7.0487}, {-6.5907, 0}, {0, 6.5907}} {
		assert.InDelta(t, want[0], -got[i].High, 1e-4, "design %d", i+1)
		assert.InDelta(t, want[1], -got[i].Low, 1e-4, "design %d", i+1)
		assert.Equal(t, i == 2, got[i].Best())
		assert.Equal(t, i != 2, got[i].Beaten())
	}
	assert.InDelta(t, 48.778-44.350, got[2].Mean, 1e-9)
}

// Source of the formula: Nelson and Matejcik 1995, as a sum of squares.
func TestPooledVariance(t *testing.T) {
	k, n := len(fourDesigns), len(fourDesigns[0])
	var all, squares float64
	rows := make([]float64, n)
	for _, s := range fourDesigns {
		all += s.Mean() / float64(k)
		for j, x := range s {
			rows[j] += x / float64(k)
		}
	}
	for _, s := range fourDesigns {
		for j, x := range s {
			squares += math.Pow(x-s.Mean()-rows[j]+all, 2)
		}
	}
	assert.InEpsilon(t, 2*squares/float64((k-1)*(n-1)), pooledVariance(fourDesigns), 1e-12)
}

func TestLeadsEdges(t *testing.T) {
	tie := Leads([]sim.Sample{{1, 2}, {1, 2}, {0, 1}}, 0.95)
	assert.Equal(t, []Lead{{}, {}, {Mean: -1, Low: -1}}, tie, "no spread, no doubt")
	assert.True(t, tie[0].Best())
	assert.True(t, tie[1].Best())
	assert.False(t, tie[0].Beaten())
	assert.True(t, tie[2].Beaten())

	open := Leads([]sim.Sample{{1, 2, 3}, {3, 2, 1}}, 0.95)
	assert.False(t, open[0].Best() || open[0].Beaten() || open[1].Best() || open[1].Beaten())

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

func always(w float64) func(i, l int) float64 { return func(int, int) float64 { return w } }

// Ten systems, one of them ahead of nine alike: there all intervals are right at once
// in exactly 95 of 100 sets; where the means are spread, in at least so many. With
// Student's t for one comparison in place of Dunnett's value they are right in some
// 80: this must be seen.
func TestLeadsIfAlikeCoverage(t *testing.T) {
	const sets, n = 500, 10
	right := func(truth []float64, got []Lead) bool {
		for i, l := range got {
			if !(l.Low <= truth[i] && truth[i] <= l.High) {
				return false
			}
		}
		return true
	}
	ahead := []float64{1, 0, 0, 0, 0, 0, 0, 0, 0, 0}
	aheadLeads := []float64{1, -1, -1, -1, -1, -1, -1, -1, -1, -1}
	spread := []float64{0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9}
	spreadLeads := []float64{-0.9, -0.8, -0.7, -0.6, -0.5, -0.4, -0.3, -0.2, -0.1, 0.1}
	g := dunnett(0.95, 9, 9*(n-1))
	student := distuv.StudentsT{Sigma: 1, Nu: 9 * (n - 1)}.Quantile(0.95)
	r := rand.New(rand.NewPCG(32, 1))
	covered, some, narrow := 0, 0, 0
	for range sets {
		s := samples(r, ahead, 0.6, n)
		se := math.Sqrt(pooledVariance(s) / n)
		if right(aheadLeads, leads(s, always(g*se))) {
			covered++
		}
		if right(aheadLeads, leads(s, always(student*se))) {
			narrow++
		}
		s = samples(r, spread, 0.6, n)
		if right(spreadLeads, leads(s, always(g*math.Sqrt(pooledVariance(s)/n)))) {
			some++
		}
	}
	assert.True(t, often(covered, sets, 0.95), "%d of %d", covered, sets)
	assert.True(t, enough(some, sets, 0.95), "%d of %d", some, sets)
	assert.False(t, enough(narrow, sets, 0.95), "too narrow intervals go unseen: %d of %d", narrow, sets)
}

// A known gap: the best of ten systems varies five times as much by itself as the
// others, and the intervals of LeadsIfAlike are right at once in 82 of 100 sets, where 95 are
// asked for (10 000 sets, measured here). Those of Leads and of Pairwise keep their level.
func TestLeadsUneven(t *testing.T) {
	const sets, n = 500, 10
	means := []float64{1, 0, 0, 0, 0, 0, 0, 0, 0, 0}
	var pairs [][2]int
	for i := 1; i < len(means); i++ {
		pairs = append(pairs, [2]int{i, 0})
	}
	g := dunnett(0.95, 9, 9*(n-1))
	r := rand.New(rand.NewPCG(32, 2))
	pooled, own, single := 0, 0, 0
	for range sets {
		s := samples(r, means, 0.5, n)
		for j := range s[0] {
			s[0][j] += math.Sqrt(0.5*24) * r.NormFloat64()
		}
		if best := leads(s, always(g*math.Sqrt(pooledVariance(s)/n)))[0]; best.High >= 1 {
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
	assert.True(t, often(pooled, sets, 0.82), "%d of %d", pooled, sets)
	assert.True(t, enough(own, sets, 0.95), "%d of %d", own, sets)
	assert.True(t, enough(single, sets, 0.95), "%d of %d", single, sets)
}
