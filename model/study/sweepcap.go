package study

import "netrate/model"

// A sweep may ask for speeds that the stations of the line do not allow.

// asksFor returns the speed that a point asks for, in cycles an hour; 0 if none is varied.
func (q *Sweep) asksFor(point int) float64 {
	for i, v := range q.values(point) {
		if q.Vary[i].Speed {
			return float64(v.Number)
		}
	}
	return 0
}

// reached returns the value of the first parameter that a point comes to: not the one asked
// for where the stations allow less.
func (q *Sweep) reached(point int) float64 {
	asked := float64(q.values(point)[0].Number)
	if q.Vary[0].Speed {
		return min(asked, q.runSpeed(point))
	}
	return asked
}

// allowed returns the most speed that the stations of a point allow, at the fastest of its jobs, and
// the line at that one.
func (q *Sweep) allowed(point int) (most float64, at *model.Line) {
	for _, job := range q.work()[point].Lines() {
		l := *job
		l.Speed = 0
		if speed := l.RunSpeed(); speed > most {
			most, at = speed, job
		}
	}
	return most, at
}

// atCap reports whether a point asks for as much speed as the stations allow, or more.
func (q *Sweep) atCap(point int) bool {
	asked := q.asksFor(point)
	most, _ := q.allowed(point)
	return asked > 0 && asked >= most
}

// cap returns what the stations allow, if any point asks for as much.
func (q *Sweep) cap() *SweepCap {
	var found *SweepCap
	exceeded := false
	for i := range q.Lines {
		exceeded = exceeded || q.asksFor(i) > q.runSpeed(i)
		if !q.atCap(i) {
			continue
		}
		most, l := q.allowed(i)
		found = &SweepCap{Speed: Number(most)}
		for _, s := range l.Stations {
			if s.Where().Rated == float64(found.Speed) {
				found.Stations = append(found.Stations, s.Where().Name)
			}
		}
	}
	if found != nil {
		found.Exceeded = exceeded
	}
	return found
}
