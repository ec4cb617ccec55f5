package plots

import (
	"fmt"
	"math"
)

// WaterfallData leads from one total to another by what is lost and gained.
type WaterfallData struct {
	Head
	Axis  string  // what is measured, with its unit
	Steps []Step  // from top to bottom
	From  float64 // where the axis starts; the subtitle says so unless it is 0
}

// A Step is a bar of a waterfall.
type Step struct {
	Name   string
	Amount float64 // what the step adds; of a total, where the steps must have led
	Total  bool
	Says   string // its label; "" for the amount
}

// A span is a bar that reaches from one number to another.
type span struct{ from, to float64 }

// Waterfall draws a bar for each step, beginning where the one above ended. A total
// begins at zero; if the steps do not add up to it, to a millionth, that is an
// error.
func Waterfall(d WaterfallData) (*Figure, error) {
	var c check
	bars := d.bars(&c)
	if d.From != 0 {
		if !(d.From > 0) {
			c.note("the axis starts at %v, want 0 or more", d.From)
		}
		d.Subtitle += fmt.Sprintf(" (axis starts at %s)", number(d.From, digits(d.From)))
	}
	var names, said []string
	ends := []float64{d.From}
	places := d.places()
	for i, s := range d.Steps {
		names = append(names, s.Name)
		said = append(said, s.says(places))
		ends = append(ends, bars[i].to, bars[i].from)
		if low := min(bars[i].from, bars[i].to); low < d.From-d.slack() {
			c.note("step %q reaches down to %v, and the axis starts at %v", s.Name, low, d.From)
		}
	}
	f, err := begin(d.Head, c, len(d.Steps) > 0)
	if err != nil || f.done() {
		return f, err
	}
	col := f.column(names, nil, textFace, 23)
	_, high := spread(ends[1:]...)
	a := across(scale{d.From, high, col.right + gap, f.right() - textFace.widest(said...) - 4}, number)
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, s := range d.Steps {
		f.step(s, bars[i], a, col.rows[i], said[i])
		if i > 0 {
			f.upright(a.at(bars[i-1].to), col.rows[i-1].middle()+7, col.rows[i].middle()-7, pen{colour: muted, width: 0.6})
		}
	}
	f.upright(a.from, col.top(), col.bottom(), pen{colour: muted, width: 0.8})
	return f.end(), nil
}

// bars returns the bar of each step.
func (d WaterfallData) bars(c *check) []span {
	bars := make([]span, len(d.Steps))
	level := 0.0
	for i, s := range d.Steps {
		c.number(s.Amount, "step %q", s.Name)
		if !s.Total {
			bars[i] = span{level, level + s.Amount}
			level += s.Amount
			continue
		}
		if i > 0 && math.Abs(level-s.Amount) > d.slack() {
			c.note("the steps before %q add up to %v, not to %v", s.Name, level, s.Amount)
		}
		level = s.Amount
		bars[i] = span{d.From, level}
	}
	return bars
}

// slack returns how far sums may be off by rounding.
func (d WaterfallData) slack() float64 {
	size := 0.0
	for _, s := range d.Steps {
		size = max(size, math.Abs(s.Amount))
	}
	return 1e-6 * size
}

// places returns the decimals of the labels: those of the totals.
func (d WaterfallData) places() int {
	var xs []float64
	for _, s := range d.Steps {
		xs = append(xs, s.Amount)
	}
	return digits(xs...)
}

func (s Step) says(places int) string {
	switch {
	case s.Says != "":
		return s.Says
	case s.Total:
		return number(s.Amount, places)
	}
	return signed(s.Amount, places)
}

// step draws one bar and its number: after the bar, where the chart is empty.
func (f *Figure) step(s Step, b span, a axis, r row, says string) {
	fill, face := vermilion, textFace
	switch {
	case s.Total:
		fill, face = blue, nameFace
	case s.Amount > 0:
		fill = sky
	}
	f.bar(a.at(b.from), a.at(b.to), r.middle(), 14, fill, s.Name+": "+says)
	f.beside(a.at(max(b.from, b.to))+4, r.middle(), 0, says, face)
}
