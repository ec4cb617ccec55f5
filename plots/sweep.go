package plots

import (
	"fmt"
	"math"

	"netrate/sim"
)

// SweepData shows how a figure follows one parameter.
type SweepData struct {
	Head
	Parameter string // of the horizontal axis, with its unit
	Axis      string // what is measured, with its unit
	Curves    []SweepCurve
	Peak      *Peak // marked if not nil
}

// A SweepCurve is a figure at rising values of the parameter.
type SweepCurve struct {
	Name   string
	Points []SweepPoint
}

// A SweepPoint is a figure at one value of the parameter.
type SweepPoint struct {
	X float64
	Y sim.Estimate
}

// A Peak is the best value of the parameter, and the interval it lies in.
type Peak struct{ X, Low, High float64 }

// Sweep draws a line for each curve through its points, in a band of their
// confidence intervals; a point of unknown interval has none. Curves without points
// are left out.
func Sweep(d SweepData) (*Figure, error) {
	var c check
	var keys []key
	var xs, ys []float64
	for _, curve := range d.Curves {
		if len(curve.Points) == 0 {
			continue
		}
		keys = append(keys, key{name: curve.Name, pen: series(len(keys)), fill: pale(len(keys))})
		x, y := curve.extent(&c)
		xs, ys = append(xs, x...), append(ys, y...)
	}
	if d.Peak != nil {
		peak := []float64{d.Peak.Low, d.Peak.X, d.Peak.High}
		c.rising(peak, "the peak and its interval")
		xs = append(xs, peak...)
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
	n := 0
	for _, curve := range d.Curves {
		if len(curve.Points) > 0 {
			f.curve(curve, p, n)
			f.tag(p.at(curve.tagged(n)), n, len(keys))
			n++
		}
	}
	notes := []string{"Dots: the values computed. Band: confidence interval of the mean."}
	if d.Peak != nil {
		places := decimals(d.Peak.High-d.Peak.Low, 2)
		notes = append(notes, fmt.Sprintf("Dashed line: best at %s; shaded: from %s to %s.",
			number(d.Peak.X, places), number(d.Peak.Low, places), number(d.Peak.High, places)))
	}
	return f.end(notes...), nil
}

// extent returns the numbers that must have room.
func (s SweepCurve) extent(c *check) (xs, ys []float64) {
	for _, p := range s.Points {
		c.estimate(p.Y, "%s: at %v", s.Name, p.X)
		xs, ys = append(xs, p.X), append(ys, p.Y.Mean)
		if !math.IsInf(p.Y.Half, 1) {
			ys = append(ys, p.Y.Low(), p.Y.High())
		}
	}
	c.rising(xs, "%s: the parameter", s.Name)
	return xs, ys
}

// pale returns the fill of a band, through which other bands can be seen.
func pale(i int) colour {
	c := series(i).colour
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

// curve draws curve i.
func (f *Figure) curve(s SweepCurve, p panel, i int) {
	var upper, lower, line []point
	for _, q := range s.Points {
		half := q.Y.Half
		if math.IsInf(half, 1) {
			half = 0
		}
		line = append(line, p.at(q.X, q.Y.Mean))
		upper = append(upper, p.at(q.X, q.Y.Mean+half))
		lower = append([]point{p.at(q.X, q.Y.Mean-half)}, lower...)
	}
	f.draw(
		area{corners: append(upper, lower...), fill: pale(i)},
		stroke{points: line, pen: series(i), tip: s.Name})
	for k, at := range line {
		c := series(i).colour
		tip := fmt.Sprintf("%s at %v: %s", s.Name, s.Points[k].X, uncertainty(s.Points[k].Y, number))
		f.draw(dot{centre: at, radius: 1.6, fill: c, rim: c, tip: tip})
	}
}
