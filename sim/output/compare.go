package output

import (
	"fmt"
	"math"

	"netrate/sim"
	"netrate/sim/portable"
)

// Comparison sets configuration b against configuration a, both run on the same
// random numbers.
type Comparison struct {
	Difference    sim.Estimate // b − a, in the unit of the observations
	Wins          float64      // share of the replications in which b is the larger, a tie for half; ½ of none
	Narrowing     float64      // how many times wider the interval would be if the random numbers were not shared
	VarianceRatio float64      // variance of a plus that of b, over the variance of b − a
}

// Paired compares b with a by Student's t on the differences, replication by
// replication: a[i] and b[i] come from common random numbers, and the differences must be
// independent with a mean near enough to normal.
//
// Narrowing sets against it the interval that the same observations would give if
// they were independent ([welch]); below 1, sharing the random numbers did harm. Both ratios
// are +Inf if all differences are equal, and 1 if nothing is known of the spread or
// there is none.
//
// Paired panics if the samples differ in length, if a difference is not finite, and
// unless level is in (0, 1).
//
// Source: Law, Simulation Modeling and Analysis, ch. 10 (from memory).
func Paired(a, b sim.Sample, level float64) Comparison {
	differences, wins := subtract(a, b)
	c := Comparison{Difference: differences.Interval(level), Wins: 0.5, Narrowing: 1, VarianceRatio: 1}
	if len(a) > 0 {
		c.Wins = wins / float64(len(a))
	}
	if len(a) > 1 {
		c.Narrowing = ratio(welch(a, b, level), c.Difference.Half)
		c.VarianceRatio = ratio(a.Variance()+b.Variance(), differences.Variance())
	}
	return c
}

// Pairwise compares the pairs of systems given by their numbers, the second with the
// first, so that all intervals are right at once with a probability of at least
// level: each of m has the level 1 − (1 − level)/m, which its Estimate states. It
// panics where Paired does. The intervals are in the order of the pairs.
//
// Source: Bonferroni's inequality; Law, ch. 10 (from memory).
func Pairwise(systems []sim.Sample, pairs [][2]int, level float64) []Comparison {
	each := 1 - (1-level)/float64(len(pairs))
	comparisons := make([]Comparison, len(pairs))
	for i, p := range pairs {
		comparisons[i] = Paired(systems[p[0]], systems[p[1]], each)
	}
	return comparisons
}

// AllPairs returns the pairs of k systems: (0, 1), (0, 2), …, (1, 2), ….
func AllPairs(k int) [][2]int {
	var pairs [][2]int
	for i := range k {
		for l := i + 1; l < k; l++ {
			pairs = append(pairs, [2]int{i, l})
		}
	}
	return pairs
}

// subtract returns b − a and how often b is the larger, a tie for half.
func subtract(a, b sim.Sample) (differences sim.Sample, wins float64) {
	if len(a) != len(b) {
		panic(fmt.Sprintf("output: a comparison of %d replications with %d", len(b), len(a)))
	}
	differences = make(sim.Sample, len(a))
	for i := range a {
		d := b[i] - a[i]
		if !(math.Abs(d) <= math.MaxFloat64) {
			panic(fmt.Sprintf("output: a comparison of %v with %v", b[i], a[i]))
		}
		differences[i] = d
		switch {
		case d > 0:
			wins++
		case d == 0:
			wins += 0.5
		}
	}
	return differences, wins
}

// welch returns the half-width of the interval for the difference of the means of
// two independent samples of at least two: t·√v with v = s²a/na + s²b/nb, and
// v² / ((s²a/na)²/(na−1) + (s²b/nb)²/(nb−1)) degrees of freedom.
//
// Source: Welch, The significance of the difference between two means when the
// population variances are unequal, Biometrika 29 (1938) 350–362 (from memory).
func welch(a, b sim.Sample, level float64) float64 {
	na, nb := float64(len(a)), float64(len(b))
	va, vb := a.Variance()/na, b.Variance()/nb
	v := va + vb
	if v == 0 {
		return 0
	}
	pa, pb := va/v, vb/v // of v, so that no square of it overflows
	df := 1 / (pa*pa/(na-1) + pb*pb/(nb-1))
	return portable.StudentQuantile(df, (1+level)/2) * math.Sqrt(v)
}

// ratio returns x/y, and 1 for 0/0.
func ratio(x, y float64) float64 {
	if x == y {
		return 1
	}
	return x / y
}
