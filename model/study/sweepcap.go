package study

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
		return min(asked, q.Lines[point].RunSpeed())
	}
	return asked
}

// allowed returns the most speed that the stations of a point allow.
func (q *Sweep) allowed(point int) float64 {
	l := *q.Lines[point]
	l.Speed = 0
	return l.RunSpeed()
}

// atCap reports whether a point asks for as much speed as the stations allow, or more.
func (q *Sweep) atCap(point int) bool {
	asked := q.asksFor(point)
	return asked > 0 && asked >= q.allowed(point)
}

// cap returns what the stations allow, if any point asks for as much.
func (q *Sweep) cap() *SweepCap {
	var found *SweepCap
	exceeded := false
	for i, l := range q.Lines {
		exceeded = exceeded || q.asksFor(i) > l.RunSpeed()
		if !q.atCap(i) {
			continue
		}
		found = &SweepCap{Speed: Number(q.allowed(i))}
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
