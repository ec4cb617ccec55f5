package plots

import (
	"cmp"
	"math"
	"slices"

	"netrate/sim"
)

// FrontierData weighs what strategies earn against what they risk.
type FrontierData struct {
	Head
	Across string  // what is risked, with its unit; the less the better
	Up     string  // what is earned, with its unit; the more the better
	Log    bool    // whether the axis across is one of logarithms
	Floor  float64 // of such an axis: what is below stands in a column of its own; at least 10⁻⁹
	Points []FrontierPoint
	Limit  *Limit // drawn if not nil
}

// A FrontierPoint is one strategy.
type FrontierPoint struct {
	Label    string // said beside its dot, such as "A"; no two alike
	Name     string // said below the chart
	X        Range
	Y        sim.Estimate
	Frontier bool // no other earns more at as little risk
	Best     bool // the one chosen, at most one, within the limit
}

// A Range is a value and its interval. Where Low and High are both 0 the interval is
// not known.
type Range struct{ Value, Low, High float64 }

// A Limit is the risk that is accepted.
type Limit struct {
	X     float64
	Label string // said at the line
}

// mostPoints is how many strategies have letters, and room.
const mostPoints = 26

// Frontier draws a dot for each strategy, with its intervals, and a line in steps
// through those on the frontier: the most that is earned at each risk. What lies
// right of the limit is pale. On an axis of logarithms the risk must not be negative;
// 0 has a column of its own.
func Frontier(d FrontierData) (*Figure, error) {
	c := d.check()
	f, err := begin(d.Head, c, len(d.Points) > 0)
	if err != nil || f.done() {
		return f, err
	}
	f.paragraph(d.Up, textFace, muted, 2)
	if d.Limit != nil {
		f.y += textFace.leading() // room for its label
	}
	xs, ys := d.extent()
	low, high := spread(ys...)
	y, left := f.rise(scale{low: low, high: high}, 250, number)
	g := plane{x: d.risk(xs, left, f.right()-4), y: y}
	if g.x.column > 0 {
		f.draw(area{corners: rect(left, y.to, g.x.column, y.from), fill: tint(grid, 0.6)})
	}
	f.strategies(d, g, left)
	f.foot(g.x.axis, y.from, d.Across)
	if g.x.column > 0 { // the axis is broken between the column and the rest
		f.bar(g.x.column, g.x.column+8, y.from, 2, paper, "")
	}
	f.roll(d)
	return f.end(d.note(g)), nil
}

// check notes what cannot be drawn.
func (d FrontierData) check() (c check) {
	if n := len(d.Points); n > mostPoints {
		c.note("%d points, want %d at most", n, mostPoints)
	}
	if !(d.Floor >= 0 && d.Floor <= largest) {
		c.note("the floor is %v, want a number from 0 to 10⁹", d.Floor)
	}
	if d.Limit != nil {
		c.number(d.Limit.X, "the limit")
		d.logged(&c, d.Limit.X, "the limit")
	}
	seen, best := map[string]bool{}, 0
	for i, p := range d.Points {
		name := cmp.Or(p.Label, p.Name)
		if p.Label != "" && seen[p.Label] {
			c.note("point %d has the label %q of another", i+1, p.Label)
		}
		seen[p.Label] = true
		c.rising(p.X.list(), "%s: the risk and its interval", name)
		for _, x := range p.X.list() {
			d.logged(&c, x, name)
		}
		c.estimate(p.Y, "%s", name)
		if p.Best {
			best++
			if d.refused(p) {
				c.note("%s is the best, and its risk of %v is over the limit of %v", name, p.X.Value, d.Limit.X)
			}
		}
	}
	if best > 1 {
		c.note("%d points are the best, want one at most", best)
	}
	return c
}

// logged notes a number that has no logarithm, where one is wanted.
func (d FrontierData) logged(c *check, x float64, name string) {
	if d.Log && x < 0 {
		c.note("%s: a risk of %v on an axis of logarithms, want 0 or more", name, x)
	}
}

// known tells whether the interval is known.
func (r Range) known() bool { return r.Low != 0 || r.High != 0 }

// list returns the numbers that must have room.
func (r Range) list() []float64 {
	if !r.known() {
		return []float64{r.Value}
	}
	return []float64{r.Low, r.Value, r.High}
}

// extent returns the numbers that must have room.
func (d FrontierData) extent() (xs, ys []float64) {
	for _, p := range d.Points {
		xs, ys = append(xs, p.X.list()...), append(ys, p.Y.Mean)
		if !math.IsInf(p.Y.Half, 1) {
			ys = append(ys, p.Y.Low(), p.Y.High())
		}
	}
	if d.Limit != nil {
		xs = append(xs, d.Limit.X)
	}
	return xs, ys
}

// risk returns the axis across. The floor of one of logarithms is never above the
// limit, so that each side of the limit is seen.
func (d FrontierData) risk(xs []float64, from, to float64) riskAxis {
	if !d.Log {
		return linear(xs, from, to)
	}
	floor := d.Floor
	if d.Limit != nil {
		floor = min(floor, d.Limit.X)
	}
	return logarithmic(xs, max(floor, smallest), from, to)
}

// refused tells whether the risk of a point is over the limit.
func (d FrontierData) refused(p FrontierPoint) bool { return d.Limit != nil && p.X.Value > d.Limit.X }

// edge returns the points of the frontier, in the order of their risk.
func (d FrontierData) edge() []FrontierPoint {
	edge := slices.DeleteFunc(slices.Clone(d.Points), func(p FrontierPoint) bool { return !p.Frontier })
	slices.SortStableFunc(edge, func(a, b FrontierPoint) int {
		return cmp.Or(cmp.Compare(a.X.Value, b.X.Value), cmp.Compare(a.Y.Mean, b.Y.Mean))
	})
	return edge
}

// note says how to read the chart.
func (d FrontierData) note(g plane) string {
	note := "Full dots, joined by steps: the frontier, the most that is earned at each risk. Hollow dots: the others. Bars: confidence intervals."
	if g.x.column > 0 {
		note += " The column at the left, before the break, stands outside the scale."
	}
	if d.Limit != nil {
		note += " Pale, right of the dashed line: over the limit."
	}
	return note
}
