package portable

import "math"

// NormalBelow returns the probability that a standard normal number is below x.
func NormalBelow(x float64) float64 { return float64(0.5 * Erfc(-x/math.Sqrt2)) }

// NormalDensity returns the density of the standard normal distribution.
func NormalDensity(x float64) float64 { return Exp(-x*x/2) / math.Sqrt(2*math.Pi) }

// NormalQuantile returns the x that a standard normal number is below with the probability p,
// −Inf for 0 and +Inf for 1. It panics for p outside [0, 1], NaN included.
func NormalQuantile(p float64) float64 {
	checkShare(p)
	switch {
	case p == 0 || p == 1:
		return math.Inf(int(2*p) - 1)
	case p > 0.5:
		return -NormalQuantile(1 - p)
	}
	// The logarithm of the probability is concave, so that from below Newton's steps rise to
	// the root; −√(−2 ln p) is below it.
	x := -math.Sqrt(-2 * Log(p))
	return climb(x, func(x float64) (log, slope float64) {
		below := NormalBelow(x)
		return Log(below / p), NormalDensity(x) / below
	})
}
