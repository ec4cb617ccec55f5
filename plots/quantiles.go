package plots

// QuantilesData sets what was seen against what a distribution says, quantile by quantile.
type QuantilesData struct {
	Head
	Seen     string // of the vertical axis: what was seen, with its unit
	Expected string // of the horizontal one: what the distribution says
	Points   []QuantilePoint
}

// A QuantilePoint is the value seen at some rank, and the one that is expected there.
type QuantilePoint struct{ Expected, Seen float64 }

// Quantiles draws a dot for each point, on axes of one scale, beside the line on which they lie
// where the distribution fits.
func Quantiles(d QuantilesData) (*Figure, error) {
	var c check
	var all []float64
	for _, p := range d.Points {
		c.number(p.Expected, "what is expected")
		c.number(p.Seen, "what was seen")
		all = append(all, p.Expected, p.Seen)
	}
	f, err := begin(d.Head, c, len(d.Points) > 0)
	if err != nil || f.done() {
		return f, err
	}
	low, high := spread(all...)
	both := scale{low: low, high: high}
	p := f.field(both, nil, both, 220, d.Expected, d.Seen, number)
	f.draw(stroke{points: []point{p.at(low, low), p.at(high, high)}, pen: pen{colour: neutral, width: 1.2, dashes: dashing[1]}})
	places := digits(high - low)
	for _, q := range d.Points {
		at := Recommended.mark(p.at(q.Expected, q.Seen), 2, true, number(q.Seen, places)+", expected "+number(q.Expected, places))
		f.draw(at...)
	}
	return f.end("Dots on the dashed line: as expected. Above it: longer than the distribution says; below it: shorter."), nil
}
