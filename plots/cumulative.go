package plots

import (
	"math"
	"slices"
)

// CumulativeData compares the values of variants by the share of shifts below them.
type CumulativeData struct {
	Head
	Axis   string // what is measured, with its unit
	Of     Runs
	Curves []Values
}

// Values are a named sample.
type Values struct {
	Name   string
	Values []float64 // of each shift, in any order
}

// Cumulative draws a curve for each sample: how large a share of the shifts stays
// at or below each value. Samples without values are left out.
func Cumulative(d CumulativeData) (*Figure, error) {
	var c check
	curves := slices.DeleteFunc(slices.Clone(d.Curves), func(v Values) bool { return len(v.Values) == 0 })
	var all []float64
	for _, v := range curves {
		for _, x := range v.Values {
			c.number(x, "%s: a value", v.Name)
		}
		all = append(all, v.Values...)
	}
	f, err := begin(d.Head, c, len(curves) > 0)
	if err != nil || f.done() {
		return f, err
	}
	if len(curves) > 1 {
		var keys []key
		for i, v := range curves {
			keys = append(keys, key{name: v.Name, pen: series(i)})
		}
		f.legend(tagged(keys)...)
	}
	low, high := spread(all...)
	_, many := d.Of.words()
	p := f.field(scale{low: low, high: high}, nil, scale{low: 0, high: 1}, 220, d.Axis, "share of "+many+" at or below", percent)
	for i, v := range curves {
		var line []point
		for _, s := range stairs(v.Values, low, high) {
			line = append(line, p.at(s.x, s.y))
		}
		f.draw(stroke{points: line, pen: series(i), tip: v.Name})
	}
	for i, v := range curves {
		share := 0.1 + 0.8*float64(i%7)/6 // at seven heights, so that neighbours stand apart
		f.tag(p.at(below(v.Values, share), share), i, len(curves))
	}
	return f.end(), nil
}

// below returns the value where the curve first reaches a share.
func below(values []float64, share float64) float64 {
	x := slices.Sorted(slices.Values(values))
	return x[max(0, int(math.Ceil(share*float64(len(x))))-1)]
}

// stairs returns the corners of the share of values at or below x, from low to
// high. At most 200 values are steps, evenly thinned; the least and the largest
// always are.
func stairs(values []float64, low, high float64) []point {
	const most = 200
	x := slices.Sorted(slices.Values(values))
	n := len(x)
	line := []point{{low, 0}}
	for k := 1; k <= min(n, most); k++ {
		rank := k * n / min(n, most)
		if k == 1 {
			rank = 1
		}
		share := float64(rank) / float64(n)
		line = append(line, point{x[rank-1], line[len(line)-1].y}, point{x[rank-1], share})
	}
	return append(line, point{high, 1})
}
