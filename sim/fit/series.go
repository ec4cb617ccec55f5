package fit

import (
	"math"
	"sort"

	"netrate/sim/portable"
)

// row is a stretch that is looked at.
type row struct {
	at      []int64   // the feed of each stop, from 1
	feeds   int64     // of all
	windows int       // each long enough for two stops on average
	ranks   []float64 // of the gaps
	times   []float64 // room for a draw
}

func newRow(s Stretch) *row {
	r := &row{at: make([]int64, len(s.Gaps)), windows: len(s.Gaps) / 2, ranks: ranks(s.Gaps), times: make([]float64, len(s.Gaps))}
	for i, g := range s.Gaps {
		r.feeds += g
		r.at[i] = r.feeds
	}
	r.feeds += s.Rest
	return r
}

// series is stretches that are looked at together: each counts by its degrees of freedom.
type series []*row

// dispersion returns the dispersion in the windows of each stretch; 1 if none has two of them.
func (all series) dispersion() float64 {
	sum, free := 0.0, 0.0
	for _, r := range all {
		if r.windows > 1 {
			df := float64(r.windows - 1)
			sum, free = sum+float64(df*dispersion(r.at, r.feeds, r.windows)), free+df
		}
	}
	if free == 0 {
		return 1
	}
	return sum / free
}

// spread returns the spread of the gaps of each stretch about their mean; 1 if none has two.
func (all series) spread() float64 {
	sum, free := 0.0, 0.0
	for _, r := range all {
		if len(r.at) > 1 {
			df, x := float64(len(r.at)-1), spread(r.at)
			sum, free = sum+float64(df*x*x), free+df
		}
	}
	if free == 0 {
		return 1
	}
	return math.Sqrt(sum / free)
}

// serial returns the correlation of each gap with the next of its stretch, by rank.
func (all series) serial() float64 {
	products, squares, most := 0.0, 0.0, 0
	for _, r := range all {
		most = max(most, len(r.ranks))
	}
	for _, r := range all {
		if n := len(r.ranks); n > 2 {
			p, q := moments(r.ranks)
			scale := float64(most) / float64(n) // ranks are as large as there are gaps
			products, squares = products+float64(p*scale*scale), squares+float64(q*scale*scale)
		}
	}
	if squares == 0 {
		return 0
	}
	return products / squares
}

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

// moments returns the sum of products of each value with the next, as distances from their mean,
// and the sum of squares.
func moments(x []float64) (products, squares float64) {
	mean, before := portable.Mean(x), 0.0
	for _, v := range x {
		off := v - mean
		squares += float64(off * off)
		products += float64(before * off)
		before = off
	}
	return products, squares
}
