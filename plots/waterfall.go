package plots

import "math"

// WaterfallData leads from zero or from one total to another by what is lost and gained.
type WaterfallData struct {
	Head
	Axis  string    // what is measured, with its unit
	Steps []Step    // from top to bottom
	Costs bool      // less is better: what is added has the colour of a loss
	Also  []float64 // more numbers for which the axis has room, so that figures share a scale
}

// A Step is a bar of a waterfall.
type Step struct {
	Name   string
	Amount float64 // what the step adds; of a total, where the steps must have led, from zero
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
	var names, said []string
	ends := append([]float64{0}, d.Also...)
	for _, x := range d.Also {
		c.number(x, "a number that shall have room")
	}
	places := d.places()
	rooms := []string{}
	for _, x := range d.Also {
		rooms = append(rooms, number(x, places))
	}
	for i, s := range d.Steps {
		names = append(names, s.Name)
		said = append(said, s.says(places))
		ends = append(ends, bars[i].to, bars[i].from)
	}
	f, err := begin(d.Head, c, len(d.Steps) > 0)
	if err != nil || f.done() {
		return f, err
	}
	col := f.column(names, nil, textFace, 23)
	low, high := spread(ends...)
	write := number
	if low < 0 {
		write = signed
	}
	a := across(scale{low, high, col.right + gap, f.right() - textFace.widest(append(rooms, said...)...) - 4}, write)
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, s := range d.Steps {
		f.step(s, bars[i], a, col.rows[i], said[i], d.Costs)
		if i > 0 {
			f.upright(a.at(bars[i-1].to), col.rows[i-1].middle()+7, col.rows[i].middle()-7, pen{colour: muted, width: 0.6})
		}
	}
	f.upright(a.at(0), col.top(), col.bottom(), pen{colour: muted, width: 0.8})
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
		bars[i] = span{0, level}
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
func (f *Figure) step(s Step, b span, a axis, r row, says string, costs bool) {
	fill, face := sky, textFace
	switch {
	case s.Total:
		fill, face = blue, nameFace
	case (s.Amount < 0) != costs:
		fill = vermilion
	}
	f.bar(a.at(b.from), a.at(b.to), r.middle(), 14, fill, s.Name+": "+says)
	f.beside(a.at(max(b.from, b.to))+4, r.middle(), 0, says, face)
}
