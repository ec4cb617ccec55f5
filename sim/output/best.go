package output

import (
	"fmt"
	"math"

	"netrate/sim"
	"netrate/sim/portable"
)

// Lead is what a system's mean is ahead of the best of the other systems; negative
// if it is behind.
type Lead struct {
	Mean      float64 // as observed, in the unit of the observations
	Low, High float64 // interval of the true lead, Low ≤ 0 ≤ High
}

// Leads compares each system with the best of the others; larger is better, so negate
// what should be small. Observation j of every system must come from common random numbers. The
// leads are in the order of the systems, and all their intervals are right at once with
// a probability of at least level, however much each pair varies: that is how systems
// on shared random numbers are, for some pairs share more of it than others.
//
// With xᵢ the mean of system i over n replications, the interval runs from
// min(0, minₗ xᵢ − xₗ − wᵢₗ) to max(0, minₗ xᵢ − xₗ + wᵢₗ) over the others l. Here
// wᵢₗ = t·Sᵢₗ/√n, S²ᵢₗ is the variance of the difference of the two, and t is Student's
// for n − 1 degrees of freedom and the level 1 − (1 − level)/(k − 1). They hold whenever
// the k − 1 differences from the true best are no further off than their w: that is
// Bonferroni's inequality. The observations must be near enough to normal.
//
// Leads panics for fewer than two systems or two replications, if the samples differ
// in length or an observation is not finite, and unless level is in (1/k, 1).
//
// Source: Hsu, Annals of Statistics 12 (1984) 1136–1144, with the pairs' own variances
// after Nelson and Matejcik, Management Science 41 (1995) 1935–1945 (from memory).
func Leads(systems []sim.Sample, level float64) []Lead {
	checkLeads(systems, level)
	k, n := len(systems), len(systems[0])
	t := portable.StudentQuantile(float64(n-1), 1-(1-level)/float64(k-1))
	return leads(systems, func(i, l int) float64 {
		differences, _ := subtract(systems[i], systems[l])
		return t * differences.SD() / math.Sqrt(float64(n))
	})
}

func checkLeads(systems []sim.Sample, level float64) {
	if k := len(systems); !(k >= 2 && level > 1/float64(k) && level < 1) {
		panic(fmt.Sprintf("output: the best of %d systems at level %v", k, level))
	}
	for _, s := range systems {
		if len(s) < 2 {
			panic(fmt.Sprintf("output: the lead of a sample of %d", len(s)))
		}
	}
}

// leads returns the leads, with w the half-width of the interval of each difference.
func leads(systems []sim.Sample, w func(i, l int) float64) []Lead {
	all := make([]Lead, len(systems))
	for i, s := range systems {
		mean, low, high := math.Inf(1), 0.0, math.Inf(1)
		for l, other := range systems {
			if l != i {
				ahead, half := s.Mean()-other.Mean(), w(i, l)
				mean, low, high = min(mean, ahead), min(low, ahead-half), min(high, ahead+half)
			}
		}
		all[i] = Lead{Mean: mean, Low: low, High: max(0, high)}
	}
	return all
}
