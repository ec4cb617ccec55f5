package plots

import (
	"cmp"
	"math"
	"slices"
)

// CumulativeData compares the values of variants by the share of shifts below them.
type CumulativeData struct {
	Head
	Axis   string // what is measured, with its unit
	Share  string // what share of the runs; if empty "share of shifts at or below", or with Reach "that reach it"
	Of     Runs
	Curves []Values
	Reach  *Threshold // a value that is to be reached: the curves then fall, from all shifts that reach a value to none; nil otherwise
	Band   Band       // drawn behind the curves; none if it has no steps
}

// A Band is between which shares a curve may be expected to lie.
type Band struct {
	Name  string
	Steps []BandStep // From rises, and so do Low and High
}

// A BandStep is the band from a value on, up to the next step.
type BandStep struct {
	From, Low, High float64 // a value, and two shares from 0 to 1
}

// Values are a named sample.
type Values struct {
	Name   string
	Role   Role
	Values []float64 // of each shift, in any order
}

// Cumulative draws a curve for each sample: how large a share of the shifts stays
// at or below each value or, where one is to be reached, at or above it. Samples without values are left out.
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
	if len(curves) > 0 {
		all = append(all, d.Band.check(&c)...)
	}
	d.checkReach(&c)
	f, err := begin(d.Head, c, len(curves) > 0)
	if err != nil || f.done() {
		return f, err
	}
	drawn := curveRoles(curves)
	if banded := len(d.Band.Steps) > 0; len(curves) > 1 || banded {
		var keys []key
		for i, v := range curves {
			keys = append(keys, key{name: v.Name, pen: drawn[i].pen()})
		}
		keys = tagged(keys)
		if banded {
			keys = append(keys, key{name: d.Band.Name, fill: bandFill})
		}
		f.legend(keys...)
	}
	_, many := d.Of.words()
	share, words := func(x float64) float64 { return x }, "share of "+many+" at or below"
	if d.Reach != nil {
		all = append(all, d.Reach.At)
		share, words = func(x float64) float64 { return 1 - x }, "share of "+many+" that reach it"
	}
	low, high := spread(all...)
	p := f.field(scale{low: low, high: high}, nil, scale{low: 0, high: 1}, 220, d.Axis, cmp.Or(d.Share, words), percent)
	if outline := d.Band.outline(p, high); outline != nil {
		f.draw(area{corners: outline, fill: bandFill, tip: d.Band.Name})
	}
	for i, v := range curves {
		var line []point
		for _, s := range stairs(v.Values, low, high) {
			line = append(line, p.at(s.x, share(s.y)))
		}
		f.draw(stroke{points: line, pen: drawn[i].pen(), tip: v.Name})
	}
	for i, v := range curves {
		part := 0.1 + 0.8*float64(i%7)/6 // at seven heights, so that neighbours stand apart
		f.tag(p.at(below(v.Values, part), share(part)), i, len(curves), drawn[i])
	}
	if d.Reach != nil {
		f.crossings([]Crossing{{d.Reach.At, d.Reach.Name}}, p)
	}
	return f.end(), nil
}

// checkReach notes what is wrong with the value to be reached.
func (d CumulativeData) checkReach(c *check) {
	if d.Reach == nil {
		return
	}
	c.number(d.Reach.At, "%s", d.Reach.Name)
	if len(d.Band.Steps) > 0 {
		c.note("%s is to be reached, and %s is of what stays below", d.Reach.Name, d.Band.Name)
	}
}

func curveRoles(curves []Values) []Role {
	var given []Role
	for _, v := range curves {
		given = append(given, v.Role)
	}
	return roles(given)
}

// bandFill is behind the curves.
var bandFill = tint(night, 0.16)

// check also returns the values that must have room.
func (b Band) check(c *check) (from []float64) {
	var low, high []float64
	for _, s := range b.Steps {
		from, low, high = append(from, s.From), append(low, s.Low), append(high, s.High)
		if !(0 <= s.Low && s.Low <= s.High && s.High <= 1) {
			c.note("%s: at %v it is from %v to %v, want shares from 0 to 1", b.Name, s.From, s.Low, s.High)
		}
	}
	c.rising(from, "%s: a value", b.Name)
	c.rising(low, "%s: its lower edge", b.Name)
	c.rising(high, "%s: its upper edge", b.Name)
	return from
}

// outline returns the corners of the band up to a value: its upper edge forth and its lower
// edge back.
func (b Band) outline(p panel, end float64) []point {
	var upper, lower []point
	for i, s := range b.Steps {
		to := end
		if i+1 < len(b.Steps) {
			to = b.Steps[i+1].From
		}
		upper = append(upper, p.at(s.From, s.High), p.at(to, s.High))
		lower = append(lower, p.at(s.From, s.Low), p.at(to, s.Low))
	}
	slices.Reverse(lower)
	return append(upper, lower...)
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
