package output

import (
	"cmp"
	"math"
	"slices"

	"netrate/sim"
)

// AmongDrawn returns how often a figure that is drawn like all of drawn lies as far from their
// middle as x does, on either side: twice the smaller of the two shares of the figures, x
// among them, that are as high as x or higher, and as low or lower; 1 at most.
//
// Where x is drawn like the others, P is at or below α with a probability of α at most, for
// any number of draws and any distribution. It is never below 2 / (draws + 1), and NaN where
// x is.
//
// Source: Barnard's test, in Besag and Clifford, Generalized Monte Carlo significance tests,
// Biometrika 76 (1989) 633–642 (from memory); twice the smaller one: common practice.
func AmongDrawn(x float64, drawn sim.Sample) float64 {
	if math.IsNaN(x) {
		return x
	}
	higher, lower := 1, 1 // x itself
	for _, y := range drawn {
		if !(y < x) {
			higher++
		}
		if !(y > x) {
			lower++
		}
	}
	return min(1, 2*float64(min(higher, lower))/float64(len(drawn)+1))
}

// Holm returns which of several tests are significant, if the probability that any of them is
// so by chance is to be at most level: the smallest P is compared with level over the number
// of tests, the next with level over one less, and so on up to the first that is larger. A P
// of NaN is not significant.
//
// Source: Holm, A simple sequentially rejective multiple test procedure, Scandinavian Journal
// of Statistics 6 (1979) 65–70 (from memory).
func Holm(ps []float64, level float64) []bool {
	order := make([]int, len(ps))
	for i := range order {
		order[i] = i
	}
	largest := func(p float64) float64 {
		if math.IsNaN(p) {
			return math.Inf(1)
		}
		return p
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(largest(ps[a]), largest(ps[b])) })
	significant := make([]bool, len(ps))
	for k, i := range order {
		if !(ps[i] <= level/float64(len(ps)-k)) {
			break
		}
		significant[i] = true
	}
	return significant
}
