package plots

import (
	"math"

	"netrate/sim"
)

// DifferencesData compares variants with one of them.
type DifferencesData struct {
	Head
	Axis string // what is measured, with its unit, and against which variant
	Rows []Difference
}

// A Difference is the mean of a paired difference.
type Difference struct {
	Name string
	Role Role
	Mean sim.Estimate
}

// shown tells whether the interval leaves out zero.
func (d Difference) shown() bool { return d.Mean.Low() > 0 || d.Mean.High() < 0 }

// Differences draws the interval of each difference beside a line at zero. An
// interval that holds zero shows no difference, and its mark is left hollow.
func Differences(d DifferencesData) (*Figure, error) {
	var c check
	var names, said []string
	all := []float64{0}
	for _, r := range d.Rows {
		c.estimate(r.Mean, "%s: the difference", r.Name)
		all = append(all, r.Mean.Mean)
		if !math.IsInf(r.Mean.Half, 1) {
			all = append(all, r.Mean.Low(), r.Mean.High())
		}
		names, said = append(names, r.Name), append(said, uncertainty(r.Mean, signed))
	}
	f, err := begin(d.Head, c, len(d.Rows) > 0)
	if err != nil || f.done() {
		return f, err
	}
	col := f.column(names, nil, nameFace, 26)
	low, high := spread(all...)
	if low == 0 { // room for the line at zero
		low = -0.02 * high
	}
	if high == 0 {
		high = -0.02 * low
	}
	numbers := textFace.widest(said...)
	a := across(scale{low, high, col.right + gap, f.right() - numbers - gap}, signed)
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	f.upright(a.at(0), col.top(), col.bottom(), pen{colour: ink, width: 1})
	for i, r := range d.Rows {
		f.interval(r, a, col.rows[i].middle())
		f.beside(f.right(), col.rows[i].middle(), 1, said[i], textFace)
	}
	return f.end("Bar: confidence interval of the mean difference. A full mark: the interval leaves out zero. A hollow one: no difference is shown."), nil
}

func (f *Figure) interval(d Difference, a axis, y float64) {
	c := d.Role.pen().colour
	if !math.IsInf(d.Mean.Half, 1) {
		from, to := a.at(d.Mean.Low()), a.at(d.Mean.High())
		f.bar(from, to, y, 1.6, c, d.Name)
		f.upright(from, y-4, y+4, pen{colour: c, width: 1.2})
		f.upright(to, y-4, y+4, pen{colour: c, width: 1.2})
	}
	f.draw(d.Role.mark(point{a.at(d.Mean.Mean), y}, 2.6, !d.shown(), d.Name+": "+uncertainty(d.Mean, signed))...)
}
