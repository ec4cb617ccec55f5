package fit

import (
	"math"
	"sort"

	"netrate/sim/portable"
)

// dispersion returns the variance, with divisor n − 1, over the mean of the stops in n
// windows of equal length. The stops are given by their feed, from 1.
func dispersion(at []int64, feeds int64, n int) float64 {
	counts := make([]float64, n)
	for _, feed := range at {
		counts[int(float64(feed-1)/float64(feeds)*float64(n))]++
	}
	mean, variance := portable.Variance(counts)
	return variance / mean
}

// spread returns the standard deviation over the mean of the gaps up to each stop.
func spread(at []int64) float64 {
	var squares float64
	before := int64(0)
	for _, feed := range at {
		gap := float64(feed - before)
		squares += float64(gap * gap)
		before = feed
	}
	n, mean := float64(len(at)), float64(before)/float64(len(at))
	return math.Sqrt(max(0, squares-float64(n*mean*mean))/(n-1)) / mean
}

// ranks returns the rank of each value, from 1; equal ones share the mean of theirs.
func ranks(x []int64) []float64 {
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(i, j int) bool { return x[order[i]] < x[order[j]] })
	r := make([]float64, len(x))
	for from := 0; from < len(order); {
		end := from
		for end < len(order) && x[order[end]] == x[order[from]] {
			end++
		}
		for _, i := range order[from:end] {
			r[i] = float64(from+1+end) / 2
		}
		from = end
	}
	return r
}

// serial returns the correlation of each value with the next: the sum of products of
// their distances from the mean over the sum of squares, and 0 if all are equal.
func serial(x []float64) float64 {
	mean := portable.Mean(x)
	products, squares := 0.0, 0.0
	for i, v := range x {
		squares += float64((v - mean) * (v - mean))
		if i > 0 {
			products += float64((x[i-1] - mean) * (v - mean))
		}
	}
	if squares == 0 {
		return 0
	}
	return products / squares
}
