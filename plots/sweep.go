package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"netrate/sim"
)

// SweepData shows how a figure follows one parameter.
type SweepData struct {
	Head
	Parameter string // of the horizontal axis, with its unit
	Axis      string // what is measured, with its unit
	Curves    []SweepCurve
	Peak      *Peak         // marked if not nil
	Zero      string        // what 0 means, such as "worth nothing"; the axis then reaches to it, and it has a line
	Marks     []Crossing    // values of the parameter that are marked
	Planned   *PlannedRange // shaded if not nil
	Interval  string        // what the intervals are; "" for those of confidence
}

// A Crossing is a value of the parameter with a name, such as where a curve crosses zero.
type Crossing struct {
	X    float64
	Name string
}

// PlannedRange is the range of the parameter that is planned for; of one value Low is High.
type PlannedRange struct {
	Low, High float64
	Name      string
}

// A SweepCurve is a figure at rising values of the parameter.
type SweepCurve struct {
	Name   string
	Role   Role
	Points []SweepPoint
	Steps  bool // level from a point to the next: nothing lies between them
}

// A SweepPoint is a figure at one value of the parameter.
type SweepPoint struct {
	X      float64
	Name   string // written above it; may be empty
	Y      sim.Estimate
	Within *Within // the interval, where it does not lie evenly about the mean; else nil
}

// Within is an interval.
type Within struct{ Low, High float64 }

// interval returns where the interval of a point begins and ends; its mean if none is known.
func (p SweepPoint) interval() (low, high float64) {
	switch {
	case p.Within != nil:
		return p.Within.Low, p.Within.High
	case math.IsInf(p.Y.Half, 1):
		return p.Y.Mean, p.Y.Mean
	}
	return p.Y.Low(), p.Y.High()
}

// A Peak is the best value of the parameter, and the interval it lies in.
type Peak struct{ X, Low, High float64 }

// Sweep draws a line for each curve through its points, in a band of their
// confidence intervals, or in steps with an interval at each; a point of unknown interval has none. Curves without points
// are left out.
func Sweep(d SweepData) (*Figure, error) {
	var c check
	var keys []key
	var xs, ys []float64
	curves := d.drawn()
	for _, curve := range curves {
		keys = append(keys, key{name: curve.Name, pen: curve.Role.pen(), fill: curve.Role.pale()})
		x, y := curve.extent(&c)
		xs, ys = append(xs, x...), append(ys, y...)
	}
	if d.Peak != nil {
		peak := []float64{d.Peak.Low, d.Peak.X, d.Peak.High}
		c.rising(peak, "the peak and its interval")
		xs = append(xs, peak...)
	}
	if d.Zero != "" {
		ys = append(ys, 0)
	}
	for _, m := range d.Marks {
		c.number(m.X, "%s", m.Name)
		xs = append(xs, m.X)
	}
	if p := d.Planned; p != nil {
		c.rising([]float64{p.Low, p.High}, "%s", p.Name)
		xs = append(xs, p.Low, p.High)
	}
	f, err := begin(d.Head, c, len(keys) > 0)
	if err != nil || f.done() {
		return f, err
	}
	if len(keys) > 1 {
		f.legend(tagged(keys)...)
	}
	low, high := spread(xs...)
	bottom, top := spread(ys...)
	p := f.field(scale{low: low, high: high}, nil, scale{low: bottom, high: top}, 210, d.Parameter, d.Axis, number)
	if d.Peak != nil {
		f.peak(*d.Peak, p)
	}
	d.marks(f, p)
	for i, curve := range curves {
		f.curve(curve, p)
		f.tag(p.at(curve.tagged(i)), i, len(curves), curve.Role)
	}
	notes := []string{"Marks: the values computed." + intervalNote(curves, p, cmp.Or(d.Interval, "confidence interval"))}
	if q := d.Planned; q != nil {
		notes = append(notes, "Shaded: "+q.Name+".")
	}
	if d.Peak != nil {
		places := decimals(d.Peak.High-d.Peak.Low, 2)
		notes = append(notes, fmt.Sprintf("Dashed line: best at %s; shaded: from %s to %s.",
			number(d.Peak.X, places), number(d.Peak.Low, places), number(d.Peak.High, places)))
	}
	return f.end(notes...), nil
}

// marks shades what is planned, draws the line at zero, and names the values that are marked.
func (d SweepData) marks(f *Figure, p panel) {
	top, bottom := p.y.to, p.y.from
	if q := d.Planned; q != nil {
		from, to := p.x.at(q.Low), p.x.at(q.High)
		if to-from < 2 {
			from, to = from-1, from+1
		}
		f.draw(area{corners: rect(from, top, to, bottom), fill: tint(grid, 0.8), tip: q.Name})
	}
	if d.Zero != "" {
		y := p.y.at(0)
		f.draw(
			stroke{points: []point{{p.x.from, y}, {p.x.to, y}}, pen: pen{colour: ink, width: 1}},
			label{at: point{p.x.to, y - 3}, align: 1, text: d.Zero, face: smallFace, colour: ink})
	}
	f.crossings(d.Marks, p)
}

// crossings marks values, each with its name above the field, clear of the curves; in it, where two
// names would lie on each other.
func (f *Figure) crossings(marks []Crossing, p panel) {
	var taken []box
	for _, m := range marks {
		x := p.x.at(m.X)
		f.upright(x, p.y.to, p.y.from, pen{colour: ink, width: 0.9, dashes: []float64{3, 2}})
		align := 0.0
		if x > (p.x.from+p.x.to)/2 {
			align = 1
		}
		l := label{at: point{x, p.y.to - 2}, align: align, text: m.Name, face: smallFace, colour: ink}
		for l.box().hits(taken) {
			if l.at.y += smallFace.leading(); l.at.x == x {
				l.at.x += 3 - 6*align
			}
		}
		taken = append(taken, l.box())
		f.draw(l)
		f.told = append(f.told, m.Name)
	}
}

// drawn returns the curves that have points, each with its role.
func (d SweepData) drawn() (curves []SweepCurve) {
	var given []Role
	for _, c := range d.Curves {
		if len(c.Points) > 0 {
			curves, given = append(curves, c), append(given, c.Role)
		}
	}
	for i, r := range roles(given) {
		curves[i].Role = r
	}
	return curves
}

// extent returns the numbers that must have room.
func (s SweepCurve) extent(c *check) (xs, ys []float64) {
	for _, p := range s.Points {
		c.estimate(p.Y, "%s: at %v", s.Name, p.X)
		low, high := p.interval()
		c.rising([]float64{low, p.Y.Mean, high}, "%s: at %v its interval", s.Name, p.X)
		xs, ys = append(xs, p.X), append(ys, low, p.Y.Mean, high)
	}
	c.rising(xs, "%s: the parameter", s.Name)
	return xs, ys
}

// intervalNote says how intervals are drawn; nothing where none can be seen.
func intervalNote(curves []SweepCurve, p panel, is string) string {
	switch {
	case !slices.ContainsFunc(curves, func(s SweepCurve) bool { return s.banded(p) }):
		return ""
	case slices.ContainsFunc(curves, func(s SweepCurve) bool { return s.Steps }):
		return " Upright line: " + is + "."
	}
	return " Band: " + is + "."
}

// banded tells whether an interval of the curve can be seen beside its pen.
func (s SweepCurve) banded(p panel) bool {
	return slices.ContainsFunc(s.Points, func(q SweepPoint) bool {
		low, high := q.interval()
		return p.y.at(low)-p.y.at(high) > s.Role.pen().width
	})
}

// pale returns the fill of a band, through which other bands can be seen.
func (r Role) pale() colour {
	c := r.pen().colour
	c.A = 45
	return c
}

// tagged returns the point of the curve that carries its number, a different one
// for neighbours.
func (s SweepCurve) tagged(i int) (x, y float64) {
	p := s.Points[i*5%7*(len(s.Points)-1)/6]
	return p.X, p.Y.Mean
}

// peak shades the interval of the peak and marks it.
func (f *Figure) peak(k Peak, p panel) {
	top, bottom := p.y.to, p.y.from
	f.draw(area{corners: rect(p.x.at(k.Low), top, p.x.at(k.High), bottom), fill: tint(grid, 0.7)})
	f.upright(p.x.at(k.X), top, bottom, pen{colour: ink, width: 0.9, dashes: []float64{3, 2}})
}

// curve draws one curve with its band and the mark of its role.
func (f *Figure) curve(s SweepCurve, p panel) {
	var upper, lower, line []point
	for _, q := range s.Points {
		low, high := q.interval()
		line = append(line, p.at(q.X, q.Y.Mean))
		upper = append(upper, p.at(q.X, high))
		lower = append([]point{p.at(q.X, low)}, lower...)
	}
	if s.Steps {
		f.stepped(s, line, upper, lower)
	} else {
		f.draw(
			area{corners: append(upper, lower...), fill: s.Role.pale()},
			stroke{points: line, pen: s.Role.pen(), tip: s.Name})
	}
	for k, at := range line {
		tip := fmt.Sprintf("%s at %v: %s", s.Name, s.Points[k].X, uncertainty(s.Points[k].Y, number))
		f.draw(s.Role.mark(at, 1.7, false, tip)...)
	}
	for _, l := range s.names(line, p) {
		f.draw(l)
	}
}

// names returns the names of the points, each to the upper left of its point, or to the upper right at the left-hand
// end of the field and where the curve steps down. Where two would lie on each other, or touch, the points share one.
func (s SweepCurve) names(line []point, p panel) (all []label) {
	for k, at := range line {
		name := s.Points[k].Name
		if name == "" {
			continue
		}
		l := label{at: point{at.x - 4, at.y - 4}, align: 1, text: name, face: bold(smallFace), colour: ink}
		down := s.Steps && k > 0 && at.y > line[k-1].y
		if down || l.at.x-smallFace.width(name) < p.x.from {
			l.align, l.at.x = 0, at.x+4
		}
		room := l.box()
		room.left -= 3
		if n := len(all); n > 0 && room.hits([]box{all[n-1].box()}) {
			all[n-1].text += ", " + name
			continue
		}
		all = append(all, l)
	}
	return all
}

// stepped draws a curve level from each point to the next, then up or down to it, with the interval
// of each point; lower has the points from the last to the first.
func (f *Figure) stepped(s SweepCurve, line, upper, lower []point) {
	var corners []point
	for i, at := range line {
		if i > 0 {
			corners = append(corners, point{at.x, line[i-1].y})
		}
		corners = append(corners, at)
	}
	f.draw(stroke{points: corners, pen: s.Role.pen(), tip: s.Name})
	for i, at := range upper {
		f.upright(at.x, at.y, lower[len(lower)-1-i].y, pen{colour: ink, width: 1})
	}
}
