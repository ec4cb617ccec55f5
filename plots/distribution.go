package plots

import (
	"math"
	"slices"

	"netrate/sim"
)

// DistributionData compares how a figure, the net rate for one, spreads over shifts.
type DistributionData struct {
	Head
	Axis     string // what is measured, with its unit
	Of       Runs
	Variants []Variant
	Mark     *Threshold // marked in all rows if not nil
	Room     []float64  // values that the axis reaches to besides, such as those of an answer before; may be empty
}

// A Threshold is a value that is to be reached, such as a target, or zero of a sum of money.
type Threshold struct {
	At   float64
	Name string // such as "target"
}

// A Variant is one row of a comparison.
type Variant struct {
	Name   string
	Role   Role
	Values []float64    // of each shift, in any order
	Spread Percentiles  // of the values
	Mean   sim.Estimate // of the values
	Says   string       // the mean as it stands below the name; "" for the mean with its interval
	Beyond string       // said on the right, such as how many values reach the threshold; may be empty
}

// Percentiles are the values below which 5, 25, 50, 75 and 95 % lie.
type Percentiles struct{ P5, P25, P50, P75, P95 float64 }

func (p Percentiles) list() []float64 { return []float64{p.P5, p.P25, p.P50, p.P75, p.P95} }

// Distribution draws a histogram for each variant, one below the other, on one
// scale and in one unit of height, so that equal areas are equal numbers of shifts.
// Variants without values are left out.
func Distribution(d DistributionData) (*Figure, error) {
	var c check
	variants := slices.DeleteFunc(slices.Clone(d.Variants), func(v Variant) bool { return len(v.Values) == 0 })
	var all []float64
	for _, v := range variants {
		for _, x := range v.Values {
			c.number(x, "%s: a value", v.Name)
		}
		c.rising(v.Spread.list(), "%s: a percentile", v.Name)
		c.estimate(v.Mean, "%s: the mean", v.Name)
		all = append(append(all, v.Values...), v.Spread.list()...)
	}
	if d.Mark != nil {
		c.number(d.Mark.At, "what is marked")
		all = append(all, d.Mark.At)
	}
	for _, x := range d.Room {
		c.number(x, "what there is room for")
	}
	f, err := begin(d.Head, c, len(variants) > 0)
	if err != nil || f.done() {
		return f, err
	}
	var names, notes, beyond []string
	var parts []Role
	for _, v := range variants {
		names, notes, beyond, parts = append(names, v.Name), append(notes, v.mean()), append(beyond, v.Beyond), append(parts, v.Role)
	}
	if d.Mark != nil {
		f.y += smallFace.leading()
	}
	col := f.column(names, notes, nameFace, 52)
	aside := 4.0
	if w := smallFace.widest(beyond...); w > 0 {
		aside = w + gap
	}
	low, high := spread(append(all, d.Room...)...)
	bins := binsOf(variants)
	first, last, tallest := bins.extent(variants)
	a := across(scale{min(low, first), max(high, last), col.right + gap, f.right() - aside}, number)
	f.names(col)
	f.below(a, col.top(), col.bottom()+4, d.Axis)
	if d.Mark != nil {
		f.threshold(*d.Mark, a, col)
	}
	drawn := roles(parts)
	for i, v := range variants {
		f.ridge(v, a, bins, col.rows[i], 34/tallest, drawn[i].pen().colour)
		f.beside(f.right(), col.rows[i].middle()+8, 1, v.Beyond, smallFace)
		if v.Beyond != "" {
			f.told = append(f.told, v.Name+": "+v.Beyond)
		}
	}
	_, many := d.Of.words()
	spoken := ""
	if slices.ContainsFunc(variants, func(v Variant) bool { return v.Says == "" }) {
		spoken = ", ± half-width of its interval"
	}
	return f.end("Area: " + many + ", on one scale in all rows. Thick bar: the middle half; thin bar: 5th to 95th percentile; dot: median. " +
		"Below the name: the mean" + spoken + "."), nil
}

// mean returns the mean as people read it.
func (v Variant) mean() string {
	if v.Says != "" {
		return v.Says
	}
	return uncertainty(v.Mean, number)
}

// threshold draws a line through all rows, and its name above them.
func (f *Figure) threshold(t Threshold, a axis, col column) {
	f.upright(a.at(t.At), col.top(), col.bottom()+4, pen{colour: ink, width: 1, dashes: []float64{3, 2}})
	f.draw(f.centred(a.at(t.At), col.top()-3, t.Name, smallFace, ink))
}

// ridge draws one variant; unit is the height of a share of 1.
func (f *Figure) ridge(v Variant, a axis, b bins, r row, unit float64, c colour) {
	foot := r.middle() + 14
	line := []point{{a.at(b.edge(b.first(v.Values))), foot}}
	for k, share := range b.shares(v.Values) {
		i := b.first(v.Values) + k
		line = append(line, point{a.at(b.edge(i)), foot - share*unit}, point{a.at(b.edge(i + 1)), foot - share*unit})
	}
	line = append(line, point{line[len(line)-1].x, foot})
	tip := v.Name + ": " + v.mean()
	f.draw(area{corners: line, fill: tint(c, 0.3), tip: tip}, stroke{points: line, pen: pen{colour: c, width: 1.1}})
	f.whisker(v.Spread, a, foot+7, c)
}

// whisker draws percentiles as a thin and a thick bar and a dot.
func (f *Figure) whisker(p Percentiles, a axis, y float64, c colour) {
	f.bar(a.at(p.P5), a.at(p.P95), y, 1.2, c, "")
	f.bar(a.at(p.P25), a.at(p.P75), y, 4.5, c, "")
	f.draw(dot{centre: point{a.at(p.P50), y}, radius: 2.2, fill: paper, rim: c})
}

// Bins of one width side by side; bin i reaches from i to i + 1 widths.
type bins struct{ width float64 }

func (b bins) edge(i int) float64    { return float64(i) * b.width }
func (b bins) of(x float64) int      { return int(math.Floor(x/b.width + 1e-9)) }
func (b bins) first(x []float64) int { return b.of(slices.Min(x)) }

// shares returns the share of the values in each bin, from the first that has one
// to the last.
func (b bins) shares(x []float64) []float64 {
	first := b.first(x)
	shares := make([]float64, b.of(slices.Max(x))-first+1)
	for _, v := range x {
		shares[b.of(v)-first] += 1 / float64(len(x))
	}
	return shares
}

// extent returns the outer edges of the bins in use, and the largest share in one.
func (b bins) extent(variants []Variant) (low, high, tallest float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range variants {
		shares := b.shares(v.Values)
		low = min(low, b.edge(b.first(v.Values)))
		high = max(high, b.edge(b.first(v.Values)+len(shares)))
		tallest = max(tallest, slices.Max(shares))
	}
	return low, high, tallest
}

// binsOf returns bins of a round width: from 2n^⅓ to twice as many over the range of
// the variant in the middle, n being its values, and no more than 160 over all. Source: the Rice
// rule, as in Lane, Online Statistics Education, chapter 2 (from memory).
func binsOf(variants []Variant) bins {
	var widths, all []float64
	for _, v := range variants {
		span := slices.Max(v.Values) - slices.Min(v.Values)
		if span > 0 {
			widths = append(widths, span/(2*math.Cbrt(float64(len(v.Values)))))
		}
		all = append(all, slices.Min(v.Values), slices.Max(v.Values))
	}
	low, high := spread(all...)
	width := (high - low) / 20
	if len(widths) > 0 {
		slices.Sort(widths)
		width = widths[len(widths)/2]
	}
	width = max(width, (high-low)/80)
	at, _ := ticks(0, 10*width, 20)
	return bins{at[1]}
}
