package output

import (
	"math"

	"netrate/sim"
	"netrate/sim/portable"
)

// Another returns an interval that holds another observation of the same kind with the probability
// level. It is from quantile to quantile: n observations divide the line into n + 1 parts, which are
// equally likely. Where they are too few for that, the ends are Student's for observations that are
// normal, and no nearer than the observations reach. It panics unless there are two or more, and
// level is in (0, 1).
//
// Source: Wilks, Annals of Mathematical Statistics 12 (1941) 91–96, for quantiles; Hahn, Journal of
// the American Statistical Association 64 (1969) 878–888, for Student's (both from memory).
func Another(s sim.Sample, level float64) (low, high float64) {
	n, p := float64(len(s)), float64((1-level)/2)
	sorted := s.Sorted()
	if from := (float64(p*(n+1)) - 1) / (n - 1); from > -1e-9 { // which is rounding
		from = max(0, from)
		return sorted.Quantile(from), sorted.Quantile(1 - from)
	}
	mean := s.Mean()
	half := float64(portable.StudentQuantile(n-1, 1-p) * s.SD() * math.Sqrt(1+1/n))
	return min(sorted.Quantile(0), mean-half), max(sorted.Quantile(1), mean+half)
}
