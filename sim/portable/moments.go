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
	return VarianceOf(len(x), func(i int) float64 { return x[i] })
}

// VarianceOf is [Variance] of n numbers that do not stand in one row: at returns each, from
// number 0 on, and is asked for it twice.
func VarianceOf(n int, at func(i int) float64) (mean, variance float64) {
	sum, many := 0.0, float64(n)
	for i := range n {
		sum += at(i)
	}
	mean = sum / many
	squares, rest := 0.0, 0.0
	for i := range n {
		d := at(i) - mean
		squares += float64(d * d)
		rest += d
	}
	if n < 2 {
		return mean, math.NaN()
	}
	return mean, (squares - float64(rest*rest)/many) / (many - 1)
}
