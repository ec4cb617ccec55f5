package plots

// FanData shows how a figure spreads in the course of a shift.
type FanData struct {
	Head
	Time   string // of the horizontal axis, with its unit
	Axis   string // what is measured, with its unit
	Points []FanPoint
}

// A FanPoint is the spread over shifts at one time.
type FanPoint struct {
	Time   float64
	Spread Percentiles
}

// Fan draws the median as a line, in a band of the middle half, in a band from the
// 5th to the 95th percentile. Times must rise.
func Fan(d FanData) (*Figure, error) {
	var c check
	var times, all []float64
	for _, p := range d.Points {
		times = append(times, p.Time)
		c.rising(p.Spread.list(), "at %v: a percentile", p.Time)
		all = append(all, p.Spread.list()...)
	}
	c.rising(times, "the time")
	f, err := begin(d.Head, c, len(d.Points) > 0)
	if err != nil || f.done() {
		return f, err
	}
	outer, inner, line := tint(blue, 0.18), tint(blue, 0.5), pen{colour: night, width: 1.6}
	f.legend(
		key{name: "median shift", pen: line},
		key{name: "middle half of shifts", fill: inner},
		key{name: "5th to 95th percentile", fill: outer})
	low, high := spread(all...)
	p := f.field(scale{low: times[0], high: end(times)}, scale{low: low, high: high}, 210, d.Time, d.Axis, number)
	f.draw(
		area{corners: p.band(d.Points, func(s Percentiles) (a, b float64) { return s.P5, s.P95 }), fill: outer},
		area{corners: p.band(d.Points, func(s Percentiles) (a, b float64) { return s.P25, s.P75 }), fill: inner})
	var median []point
	for _, q := range d.Points {
		median = append(median, p.at(q.Time, q.Spread.P50))
	}
	f.draw(stroke{points: median, pen: line})
	if len(d.Points) == 1 {
		f.draw(dot{centre: median[0], radius: 2.5, fill: night, rim: night})
	}
	return f.end(), nil
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
