package plots

import "math"

// A riskAxis is a horizontal axis, of logarithms if log is set. What is below its
// floor has no logarithm worth drawing: it stands in a column at the left.
type riskAxis struct {
	axis
	log    bool
	floor  float64
	column float64 // where the column ends; 0 if there is none
}

// at returns where x stands.
func (a riskAxis) at(x float64) float64 {
	switch {
	case !a.log:
		return a.axis.at(x)
	case x < a.floor:
		return (a.from + a.column) / 2
	}
	return a.axis.at(math.Log10(x))
}

// end returns where x and all below it end.
func (a riskAxis) end(x float64) float64 {
	if a.log && x < a.floor {
		return a.column
	}
	return a.at(x)
}

// linear returns an axis for xs between from and to.
func linear(xs []float64, from, to float64) riskAxis {
	const room = 10 // for labels left of a dot at zero
	low, high := spread(xs...)
	return riskAxis{axis: across(scale{low, high, from + room, to}, number)}
}

// logarithmic returns an axis of logarithms for xs, none below zero, between from
// and to; with a column if any is below floor.
func logarithmic(xs []float64, floor, from, to float64) riskAxis {
	var logs []float64
	below := ""
	for _, x := range xs {
		switch {
		case x >= floor:
			logs = append(logs, math.Log10(x))
		case x >= smallest:
			below = "below " + number(floor, decimals(floor, 1))
		case below == "":
			below = "0"
		}
	}
	low, high := reach(logs, math.Log10(floor))
	a := riskAxis{axis: decades(scale{low, high, from, to}), log: true, floor: floor}
	if below == "" {
		return a
	}
	wide := max(30, textFace.width(below)+8)
	a = riskAxis{axis: decades(scale{low, high, from + wide + 16, to}), log: true, floor: floor, column: from + wide}
	perPoint := (high - low) / (a.to - a.from)
	a.low -= perPoint * (a.from - from)
	a.from = from
	a.ticks = append([]float64{a.low + perPoint*wide/2}, a.ticks...)
	a.labels = append([]string{below}, a.labels...)
	return a
}

// reach returns the range of logarithms with a little room, a decade at least, and
// not below floor on account of the room.
func reach(logs []float64, floor float64) (low, high float64) {
	if len(logs) == 0 {
		return max(floor, -1), max(floor, -1) + 1
	}
	low, high = math.Inf(1), math.Inf(-1)
	for _, x := range logs {
		low, high = min(low, x), max(high, x)
	}
	room := max(0.05*(high-low), (1-(high-low))/2)
	return max(low-room, floor), high + room
}

// decades returns an axis of logarithms with as many ticks as have room: at 1, 2 and
// 5 times each power of ten, at the powers, or at every second one, third one and so on.
func decades(s scale) (a axis) {
	for every := range 20 {
		next := axis{scale: s}
		digits, step := []float64{1}, max(1, every)
		if every == 0 {
			digits = []float64{1, 2, 5}
		}
		for k := int(math.Floor(s.low)); float64(k) <= s.high; k++ {
			for _, digit := range digits {
				x := float64(k) + math.Log10(digit)
				if k%step == 0 && x >= s.low-1e-9 && x <= s.high+1e-9 {
					next.ticks = append(next.ticks, x)
					next.labels = append(next.labels, number(digit*math.Pow(10, float64(k)), max(0, -k)))
				}
			}
		}
		if len(next.ticks) == 0 {
			break
		}
		if a = next; a.clear() {
			break
		}
	}
	return a
}

// clear tells whether each number stands clear of the next.
func (a axis) clear() bool {
	for i := 1; i < len(a.ticks); i++ {
		halves := (textFace.width(a.labels[i-1]) + textFace.width(a.labels[i])) / 2
		if a.at(a.ticks[i])-a.at(a.ticks[i-1]) < halves+8 {
			return false
		}
	}
	return true
}
