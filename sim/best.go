package sim

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
)

// Lead is what a system's mean is ahead of the best of the other systems; negative
// if it is behind.
type Lead struct {
	Mean      float64 // as observed, in the unit of the observations
	Low, High float64 // interval of the true lead, Low ≤ 0 ≤ High
}

// Best reports whether no other system is better, as far as the interval shows.
func (l Lead) Best() bool { return l.Low == 0 }

// Beaten reports whether some other system is better, as far as the interval shows.
func (l Lead) Beaten() bool { return l.High == 0 && l.Low < 0 }

// Leads compares each system with the best of the others; larger is better, so
// negate what should be small. Observation j of every system must come from the same
// luck. The leads are in the order of the systems, and all their intervals are right
// at once with a probability of at least level.
//
// With xᵢ the mean of system i over n replications and x′ the best of the other
// means, the interval runs from min(0, xᵢ − x′ − w) to max(0, xᵢ − x′ + w). Here
// w = g·S/√n, S² is the variance of the difference of two systems, pooled over all
// pairs, and g is Dunnett's one-sided value for k − 1 comparisons and (k−1)(n−1)
// degrees of freedom.
//
// The observations must be near enough to normal, and the differences of all pairs
// must have much the same variance. If one of ten systems varies five times as much
// as the others by itself, 95 % are 82 % in truth: there [Pairwise] is the safe way.
//
// Leads panics for fewer than two systems or two replications, if the samples differ
// in length or an observation is not finite, and unless level is in (1/k, 1).
//
// Source: Nelson and Matejcik, Using common random numbers for indifference-zone
// selection and multiple comparisons in simulation, Management Science 41 (1995)
// 1935–1945, after Hsu, Annals of Statistics 12 (1984) 1136–1144 (from memory).
func Leads(systems []Sample, level float64) []Lead {
	k := len(systems)
	if !(k >= 2 && level > 1/float64(k) && level < 1) {
		panic(fmt.Sprintf("sim: the best of %d systems at level %v", k, level))
	}
	n := len(systems[0])
	g := dunnett(level, k-1, (k-1)*(n-1))
	return leads(systems, g*math.Sqrt(pooledVariance(systems)/float64(n)))
}

// leads returns the leads with intervals of the given half-width.
func leads(systems []Sample, half float64) []Lead {
	means := make([]float64, len(systems))
	for i, s := range systems {
		means[i] = s.Mean()
	}
	all := make([]Lead, len(systems))
	for i := range systems {
		others := math.Inf(-1)
		for l, mean := range means {
			if l != i {
				others = max(others, mean)
			}
		}
		lead := means[i] - others
		all[i] = Lead{Mean: lead, Low: min(0, lead-half), High: max(0, lead+half)}
	}
	return all
}

// pooledVariance returns the variance of the difference of two systems, the mean of
// all pairs. It is 2·Σ(xᵢⱼ − xᵢ − yⱼ + z)²/((k−1)(n−1)) with the means xᵢ of the
// systems, yⱼ of the replications and z of all.
func pooledVariance(systems []Sample) float64 {
	var sum float64
	pairs := AllPairs(len(systems))
	for _, p := range pairs {
		differences, _ := subtract(systems[p[0]], systems[p[1]])
		sum += stat.Variance(differences, nil)
	}
	return sum / float64(len(pairs))
}
