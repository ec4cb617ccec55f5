package portable

import "math"

// Sum returns the sum, added in the order given; 0 of none.
func Sum(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum
}

// Mean returns the mean; NaN of none.
func Mean(x []float64) float64 { return Sum(x) / float64(len(x)) }

// Variance returns the mean and the variance with divisor n − 1, which is NaN of fewer than
// two. What rounding leaves of the mean is taken out of the squares.
//
// Source: Chan, Golub and LeVeque, The American Statistician 37 (1983) 242–247, the corrected
// two-pass algorithm (from memory).
func Variance(x []float64) (mean, variance float64) {
	mean = Mean(x)
	squares, rest := 0.0, 0.0
	for _, v := range x {
		d := v - mean
		squares += float64(d * d)
		rest += d
	}
	n := float64(len(x))
	if n < 2 {
		return mean, math.NaN()
	}
	return mean, (squares - float64(rest*rest)/n) / (n - 1)
}
