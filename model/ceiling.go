package model

import "slices"

// Ceiling returns a net rate, in good envelopes an hour, which the mean of the line is not above:
// so a line whose ceiling is below what another has been seen to deliver is not the better one.
// The line must have passed Check.
//
// It is the sum on paper (Analytic) with nothing in it but stops for faults and lost sets, each
// counted for less than it is:
//
//	ceiling = V · 1/(1 + V/3600 · Σ c·s·d) · Π (1 − c·(lost + flawed)),  c = 0.9
//
// with V cycles an hour, s stops in each set started and d the mean seconds of one without the
// walk, which somebody who stands beside it does not need. Stops for faults do not overlap, but for
// two faults of one cycle: a line that stands has no others. Refills, waiting, stocks used up and
// breaks only take more away. The tenth that is not counted is for two faults of one cycle, and for
// the stop that goes on at the end of a shift, of which that shift has a part.
//
// Where that may not be enough the ceiling is the line’s speed: where stops are longer than a
// twentieth of the shift, more than a fifth of the sets are lost, a job makes lost sets again, or
// there are good and bad lots and days, of which the good gain more than the bad lose, or slow
// cycles, of which a next stop may spare the rest.
func (l *Line) Ceiling() float64 {
	const counted, part, enough = 0.9, 20, 0.8
	speed, paper := l.RunSpeed(), l.Analytic()
	varies := slices.ContainsFunc(l.Stations, func(s Station) bool { x := LotsOf(s); return x != nil && x.Given() })
	if l.Job.Sets > 0 || l.Slow.Given() || l.Days.Given() || varies || paper.Good < enough {
		return speed
	}
	perCycle, good, reach := 0.0, 1.0, 1.0
	for _, t := range paper.Terms {
		down := max(0, t.Down-l.Crew.Walk.Mean())
		if down > l.Shift/part {
			return speed
		}
		lost := t.Lost + t.Flawed
		perCycle += float64(counted * reach * t.Stops * float64(down))
		good *= 1 - float64(counted*lost)
		reach *= 1 - lost
	}
	return speed * good / (1 + float64(perCycle*speed/3600))
}
