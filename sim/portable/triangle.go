package portable

import "math"

// TriangleQuantile returns what a triangular number, which rises from low to its mode and falls
// to high, is below with the probability p. It wants low ≤ mode ≤ high and low < high.
func TriangleQuantile(low, mode, high, p float64) float64 {
	checkShare(p)
	if p*(high-low) < mode-low {
		return low + math.Sqrt(p*(high-low)*(mode-low))
	}
	return high - math.Sqrt((1-p)*(high-low)*(high-mode))
}
