package plots

import (
	"cmp"
	"fmt"
	"slices"
)

// ParetoData ranks causes by what they cost.
type ParetoData struct {
	Head
	Axis   string // what is measured, with its unit
	Causes []Cause
}

// A Cause is a bar of a Pareto chart.
type Cause struct {
	Name   string  // station and cause
	Amount float64 // what it costs, 0 or more
	Detail string  // said after the number, such as how many stops; may be empty
}

// mostCauses is how many causes have a row; the rest share one.
const mostCauses = 15

// Pareto draws the causes by size, and on the right the share of the whole that
// each has together with those above it. Those that first make up 80 % are dark.
// Causes beyond the 15 largest are drawn as one.
func Pareto(d ParetoData) (*Figure, error) {
	var c check
	var amounts []float64
	for _, cause := range d.Causes {
		c.number(cause.Amount, "cause %q", cause.Name)
		if cause.Amount < 0 {
			c.note("cause %q costs %v, want 0 or more", cause.Name, cause.Amount)
		}
		amounts = append(amounts, cause.Amount)
	}
	causes := ranked(d.Causes)
	shares := running(causes)
	f, err := begin(d.Head, c, len(shares) > 0)
	if err != nil || f.done() {
		return f, err
	}
	const side = 96.0 // width of the panel of shares
	var names, said []string
	places := digits(amounts...)
	for _, cause := range causes {
		s := number(cause.Amount, places)
		if cause.Detail != "" {
			s += " (" + cause.Detail + ")"
		}
		names, said = append(names, cause.Name), append(said, smallFace.shorten(s, 100))
	}
	col := f.column(names, nil, textFace, 18)
	end := f.right() - side - 24
	_, high := spread(append(amounts, 0)...)
	bars := across(scale{0, high, col.right + gap, end - smallFace.widest(said...) - 4}, number)
	part := axis{scale{0, 1, end + 12, f.right() - 12}, []float64{0, 0.5, 1}, []string{"0", "50", "100 %"}}
	f.names(col)
	f.below(part, col.top(), col.bottom(), "share, summed")
	low := f.y
	f.below(bars, col.top(), col.bottom(), d.Axis)
	f.y = max(f.y, low)
	for i, cause := range causes {
		fill := blue
		if i > 0 && shares[i-1] >= 0.8 {
			fill = faint
		}
		y := col.rows[i].middle()
		f.bar(bars.from, bars.at(cause.Amount), y, 11, fill, cause.Name+": "+said[i])
		f.beside(bars.at(cause.Amount)+4, y, 0, said[i], smallFace)
	}
	f.shares(shares, part, col)
	return f.end("Dark: the causes that together make up the first 80 %."), nil
}

// shares draws the line of shares.
func (f *Figure) shares(shares []float64, a axis, col column) {
	f.upright(a.at(0.8), col.top(), col.bottom(), pen{colour: muted, width: 0.8, dashes: dashing[2]})
	var line []point
	for i, share := range shares {
		line = append(line, point{a.at(share), col.rows[i].middle()})
	}
	f.draw(stroke{points: line, pen: pen{colour: ink, width: 1.1}})
	for i, p := range line {
		tip := fmt.Sprintf("%s: %s together with those above", col.rows[i].name, percent(shares[i], 2))
		f.draw(dot{centre: p, radius: 2, fill: ink, rim: ink, tip: tip})
	}
}

// ranked returns the causes from the largest to the smallest, in the order given
// where they are equal, those past the last row made one.
func ranked(causes []Cause) []Cause {
	causes = slices.Clone(causes)
	slices.SortStableFunc(causes, func(a, b Cause) int { return cmp.Compare(b.Amount, a.Amount) })
	if len(causes) <= mostCauses {
		return causes
	}
	rest := Cause{Name: fmt.Sprintf("%d others", len(causes)-mostCauses+1)}
	for _, c := range causes[mostCauses-1:] {
		rest.Amount += c.Amount
	}
	return append(causes[:mostCauses-1], rest)
}

// running returns the share of the whole up to each cause; nothing if there is no
// whole.
func running(causes []Cause) []float64 {
	whole, sum := 0.0, 0.0
	for _, c := range causes {
		whole += c.Amount
	}
	if whole <= 0 {
		return nil
	}
	shares := make([]float64, len(causes))
	for i, c := range causes {
		sum += c.Amount
		shares[i] = sum / whole
	}
	return shares
}
