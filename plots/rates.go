package plots

import "math"

// RatesData sets rates side by side, each with its interval.
type RatesData struct {
	Head
	Axis string // the rate, with its unit
	Rows []RateRow
}

// A RateRow is a rate and its interval.
type RateRow struct {
	Name string
	Rate Range
	Says string // the rate as people read it
}

// Rates draws the interval of each rate on an axis of logarithms, as far as the rates lie apart by
// powers of ten. A rate of which only an upper bound is known ends in an arrow to the left.
func Rates(d RatesData) (*Figure, error) {
	var c check
	var names, said []string
	least, most := math.Inf(1), 0.0
	for _, r := range d.Rows {
		for _, x := range []float64{r.Rate.Low, r.Rate.Value, r.Rate.High} {
			c.number(x, "%s: its rate", r.Name)
			if x > 0 {
				least, most = min(least, x), max(most, x)
			}
		}
		names, said = append(names, r.Name), append(said, r.Says)
	}
	f, err := begin(d.Head, c, len(d.Rows) > 0)
	if err != nil || f.done() {
		return f, err
	}
	if most == 0 {
		f.nothing("no fault was counted")
		return f, nil
	}
	low, high := math.Floor(math.Log10(least)), math.Ceil(math.Log10(most))
	if high == low {
		high++
	}
	var ticks []float64
	var labels []string
	for k := low; k <= high; k++ {
		ticks = append(ticks, k)
		labels = append(labels, number(math.Pow(10, k), int(max(0, -k))))
	}
	col := f.column(names, nil, textFace, 20)
	a := axis{scale{low, high, col.right + gap + 6, f.right() - textFace.widest(said...) - gap}, ticks, labels}
	f.names(col)
	f.below(a, col.top(), col.bottom(), d.Axis)
	at := func(x float64) float64 {
		if !(x > 0) {
			return a.from
		}
		return a.at(math.Log10(x))
	}
	for i, r := range d.Rows {
		y := col.rows[i].middle()
		from, to := at(r.Rate.Low), at(r.Rate.High)
		f.bar(from, to, y, 1.6, blue, r.Name+": "+r.Says)
		f.upright(to, y-4, y+4, pen{colour: blue, width: 1.2})
		if r.Rate.Low > 0 {
			f.upright(from, y-4, y+4, pen{colour: blue, width: 1.2})
		} else {
			f.draw(area{corners: []point{{from - 5, y}, {from, y - 3.5}, {from, y + 3.5}}, fill: blue})
		}
		if r.Rate.Value > 0 {
			f.draw(Recommended.mark(point{at(r.Rate.Value), y}, 2.6, false, r.Name+": "+r.Says)...)
		}
		f.beside(f.right(), y, 1, r.Says, textFace)
	}
	return f.end("Bar: confidence interval. An arrow: none was counted, and the rate may be as small as can be."), nil
}
