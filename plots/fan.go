package plots

// FanData shows how a figure spreads in the course of a shift, or of a season.
type FanData struct {
	Head
	Time   string // of the horizontal axis, with its unit
	Axis   string // what is measured, with its unit
	Of     Runs
	Zero   string // what 0 means, such as "all done"; the axis then reaches down to it
	Points []FanPoint
	Also   []float64 // more numbers for which the axis has room, so that figures share a scale
}

// A FanPoint is the spread at one time.
type FanPoint struct {
	Time   float64
	Name   string // of the time, such as "week 48"; of each point or of none
	Spread Percentiles
}

// Fan draws the median as a line, in a band of the middle half, in a band from the
// 5th to the 95th percentile. Times must rise. Named times stand on the axis under
// their names, and the median has a dot at each.
func Fan(d FanData) (*Figure, error) {
	c, times, all := d.check()
	f, err := begin(d.Head, c, len(d.Points) > 0)
	if err != nil || f.done() {
		return f, err
	}
	outer, inner, line := tint(blue, 0.18), tint(blue, 0.5), pen{colour: night, width: 1.6}
	one, many := d.Of.words()
	f.legend(
		key{name: "median", pen: line},
		key{name: "middle half of " + many, fill: inner},
		key{name: "5th to 95th percentile", fill: outer})
	low, high := spread(all...)
	p := f.field(scale{low: times[0], high: end(times)}, d.steps(), scale{low: low, high: high}, 130, d.Time, d.Axis, d.write)
	f.draw(
		area{corners: p.band(d.Points, func(s Percentiles) (a, b float64) { return s.P5, s.P95 }), fill: outer},
		area{corners: p.band(d.Points, func(s Percentiles) (a, b float64) { return s.P25, s.P75 }), fill: inner})
	if d.Zero != "" {
		f.draw(stroke{points: []point{{p.x.from, p.y.at(0)}, {p.x.to, p.y.at(0)}}, pen: pen{colour: ink, width: 1}})
	}
	f.median(d, p, line)
	return f.end("Each time is taken by itself: a single " + one + " need not follow the median, or an edge of a band."), nil
}

// check also returns the times, and the numbers that must have room.
func (d FanData) check() (c check, times, all []float64) {
	names := 0
	for _, x := range d.Also {
		c.number(x, "a number that shall have room")
		all = append(all, x)
	}
	for _, p := range d.Points {
		times = append(times, p.Time)
		c.rising(p.Spread.list(), "at %v: a percentile", p.Time)
		all = append(all, p.Spread.list()...)
		if p.Name != "" {
			names++
		}
	}
	c.rising(times, "the time")
	if n := len(d.Points); names != 0 && names != n {
		c.note("%d of %d times have a name, want all or none", names, n)
	}
	if d.Zero != "" {
		all = append(all, 0)
	}
	return c, times, all
}

// steps returns the named times, none if they have no names.
func (d FanData) steps() (ticks []Tick) {
	for _, p := range d.Points {
		if p.Name != "" {
			ticks = append(ticks, Tick{p.Time, p.Name})
		}
	}
	return ticks
}

// write writes a number of the vertical axis.
func (d FanData) write(x float64, decimals int) string {
	if x == 0 && d.Zero != "" {
		return textFace.shorten(d.Zero, 80)
	}
	return number(x, decimals)
}

// median draws the line of the medians, with dots where they stand for a named time
// and have room, and where there is no line.
func (f *Figure) median(d FanData, p panel, line pen) {
	var median []point
	for _, q := range d.Points {
		median = append(median, p.at(q.Time, q.Spread.P50))
	}
	f.draw(stroke{points: median, pen: line})
	n := len(median)
	if n == 1 || d.Points[0].Name != "" && (p.x.to-p.x.from)/float64(n) > 8 {
		for i, at := range median {
			q := d.Points[i]
			f.draw(dot{centre: at, radius: 2, fill: line.colour, rim: line.colour, tip: q.tip()})
		}
	}
}

// tip returns what is said of a point under the pointer.
func (p FanPoint) tip() string {
	places := digits(p.Spread.list()...)
	says := number(p.Spread.P50, places) + ", from " + number(p.Spread.P5, places) + " to " + number(p.Spread.P95, places)
	if p.Name == "" {
		return says
	}
	return p.Name + ": " + says
}

// end returns the last time, later than the first even if there is but one.
func end(times []float64) float64 {
	first, last := times[0], times[len(times)-1]
	if last-first > 1e-9*max(1, -first, last) {
		return last
	}
	return first + max(1, 0.1*first, -0.1*first)
}

// band returns the outline of a band: its upper edge forth and its lower edge back.
func (p panel) band(points []FanPoint, edges func(Percentiles) (low, high float64)) []point {
	n := len(points)
	outline := make([]point, 2*n)
	for i, q := range points {
		low, high := edges(q.Spread)
		outline[i], outline[2*n-1-i] = p.at(q.Time, high), p.at(q.Time, low)
	}
	return outline
}
