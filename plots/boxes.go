package plots

// BoxesData compares how variants spread, more densely than DistributionData.
type BoxesData struct {
	Head
	Axis string // what is measured, with its unit
	Of   Runs
	Rows []Box
}

// A Box is the spread of one variant.
type Box struct {
	Name     string
	Role     Role
	Spread   Percentiles
	Min, Max float64
}

// Boxes draws a box for each row: the middle half with the median, whiskers to the
// 5th and 95th percentile, dots for the least and the largest value.
func Boxes(d BoxesData) (*Figure, error) {
	var c check
	var all []float64
	var names []string
	var parts []Role
	for _, b := range d.Rows {
		c.rising(b.list(), "%s: a percentile", b.Name)
		all, names, parts = append(all, b.list()...), append(names, b.Name), append(parts, b.Role)
	}
	f, err := begin(d.Head, c, len(d.Rows) > 0)
	if err != nil || f.done() {
		return f, err
	}
	drawn := roles(parts)
	col := f.column(names, nil, nameFace, 26)
	low, high := spread(all...)
	a := across(scale{low, high, col.right + gap, f.right() - 4}, number)
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	for i, b := range d.Rows {
		f.box(b, a, col.rows[i].middle(), drawn[i].pen().colour)
	}
	return f.end(d.Of.boxed()), nil
}

// boxed says how to read a box.
func (r Runs) boxed() string {
	_, many := r.words()
	return "Box: the middle half of the " + many + ", its line the median. Whiskers: 5th to 95th percentile. Dots: least and largest."
}

// list returns the numbers of a box as they rise.
func (b Box) list() []float64 {
	return append(append([]float64{b.Min}, b.Spread.list()...), b.Max)
}

func (f *Figure) box(b Box, a axis, y float64, c colour) {
	const high = 12
	s := b.Spread
	thin := pen{colour: c, width: 1.1}
	f.bar(a.at(s.P5), a.at(s.P95), y, thin.width, c, "")
	for _, x := range []float64{s.P5, s.P95} {
		f.upright(a.at(x), y-high/4, y+high/4, thin)
	}
	outline := rect(a.at(s.P25), y-high/2, a.at(s.P75), y+high/2)
	f.draw(
		area{corners: outline, fill: tint(c, 0.3), tip: b.Name},
		stroke{points: append(outline, outline[0], outline[1]), pen: thin})
	f.upright(a.at(s.P50), y-high/2, y+high/2, pen{colour: c, width: 2.4})
	for _, x := range []float64{b.Min, b.Max} {
		if x < s.P5 || x > s.P95 {
			f.draw(dot{centre: point{a.at(x), y}, radius: 1.4, fill: paper, rim: c})
		}
	}
}
