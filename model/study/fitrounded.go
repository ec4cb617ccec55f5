package study

import (
	"slices"

	"netrate/sim"
	"netrate/sim/portable"
)

// rounded says what of a log is written in whole minutes: between two stops that were some seconds
// apart there is no time then, as between those of a burst.
type rounded struct{ moments, lengths bool }

const minute = 60 // s

// roundedIn returns what of some stops is written in whole minutes.
func roundedIn(all []placedStop) rounded {
	r := rounded{moments: len(all) >= FewFaults}
	stops := make([]LogStop, len(all))
	for i, m := range all {
		stops[i] = m.LogStop
		r.moments = r.moments && m.When.Second() == 0 && m.When.Nanosecond() == 0
	}
	r.lengths = rounding(stops) > 0
	return r
}

// reach is by how much a gap between two stops may be off, either way, in seconds: by two moments, each
// by half a minute, and by a length.
func (r rounded) reach() (most float64) {
	if r.moments {
		most += minute
	}
	if r.lengths {
		most += minute / 2
	}
	return most
}

// sweeps is how often every moment and length is drawn anew: they forget their beginning in a few.
const sweeps = 30

// spread returns gaps before stops as they may have been, in seconds, before they were rounded. Where in
// its minute each moment lay, and each length, is drawn of what would be written so, with the
// probabilities that it has if stops of a work are independent, one given all others, in turns. If they
// are independent the gaps drawn are exponential, and tests find bursts as seldom as they say; and what
// the ends of a burst say of its time stays.
//
// Source: Geman and Geman, IEEE Transactions on Pattern Analysis 6 (1984) 721–741 (from memory).
func (r rounded) spread(all []placedStop, gaps []float64, seed uint64) []float64 {
	if r.reach() == 0 {
		return gaps
	}
	x := &spreading{gaps: gaps, tilt: tilts(all, gaps), moment: make([]float64, len(all)), length: make([]float64, len(all))}
	x.random = sim.NewStream("log", "rounded")
	x.random.Seed(seed, 0)
	for range sweeps {
		for i := range all {
			if r.moments {
				x.drawMoment(i)
			}
			if r.lengths {
				x.drawLength(i)
			}
		}
	}
	spread := slices.Clone(gaps) // the first and the last are usual ones, and stay
	for i := 1; i < len(all); i++ {
		if spread[i] = max(0, x.gap(i)); x.tilt[i] == 0 {
			spread[i] = 0
		}
	}
	return spread
}

// tilts returns for the gap before each stop one over the mean of those of its work, a second; 0 where
// by the log the line never ran.
func tilts(all []placedStop, gaps []float64) []float64 {
	type sum struct{ seconds, n float64 }
	works := map[logWork]sum{}
	for i, m := range all {
		w := works[logWork{m.Job, m.Speed}]
		works[logWork{m.Job, m.Speed}] = sum{w.seconds + gaps[i], w.n + 1}
	}
	tilt := make([]float64, len(all))
	for i, m := range all {
		if w := works[logWork{m.Job, m.Speed}]; w.seconds > 0 {
			tilt[i] = w.n / w.seconds
		}
	}
	return tilt
}

// spreading is where in their minutes the moments and lengths of stops lie.
type spreading struct {
	random         *sim.Stream
	gaps           []float64 // as they are written, before each stop and after the last
	tilt           []float64
	moment, length []float64 // of each stop, s from what is written
}

// gap returns the gap before stop i as it is.
func (x *spreading) gap(i int) float64 {
	gap := x.gaps[i]
	if i < len(x.moment) {
		gap += x.moment[i]
	}
	if i > 0 {
		gap -= x.moment[i-1] + x.length[i-1]
	}
	return gap
}

// drawMoment draws when stop i began: later makes the gap before it longer, and the one after it shorter.
func (x *spreading) drawMoment(i int) {
	was := x.moment[i]
	x.moment[i] = x.draw(was-x.gap(i), was+x.gap(i+1), x.tiltOf(i+1)-x.tiltOf(i))
}

// drawLength draws how long stop i was: longer makes the gap after it shorter.
func (x *spreading) drawLength(i int) {
	x.length[i] = x.draw(-minute/2, x.length[i]+x.gap(i+1), x.tiltOf(i+1))
}

// tiltOf returns the tilt of the gap before stop i; 0 of that after the last.
func (x *spreading) tiltOf(i int) float64 {
	if i < len(x.tilt) {
		return x.tilt[i]
	}
	return 0
}

// draw draws a value from low to high, and from half a minute before what is written to half a minute
// after it, of a density in proportion to exp(k·value).
func (x *spreading) draw(low, high, k float64) float64 {
	low, high = min(max(low, -minute/2), minute/2), max(min(high, minute/2), -minute/2)
	u, wide := x.random.Uniform(), high-low
	switch e := float64(k * wide); {
	case wide <= 0: // rows overlap
		return (low + high) / 2
	case e > -1e-6 && e < 1e-6:
		return low + float64(u*wide)
	default:
		return low + portable.Log1p(u*portable.Expm1(e))/k
	}
}

// WholeMinutes reports whether moments or lengths of the log are written in whole minutes.
func (a *FitAnswer) WholeMinutes() bool { return roundedIn(a.byTime()).reach() > 0 }
