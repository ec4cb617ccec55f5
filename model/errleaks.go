package model

import "netrate/sim"

// looks returns what a leak looks like to those who may find it: a misfeed, a double, or a lane
// that is out of step from the next set on.
func (k Leak) looks() Fault {
	if k.Fault == WrongRepair {
		return k.as
	}
	return k.Fault
}

// botched adds the sets that an operator is to put right and leaves as they are: of the given
// faults in each attempt, if the response to them is stop.
func (l *Line) botched(all []Leak, f Fault, faults float64, r Response) []Leak {
	if rate := faults * l.Crew.WrongRepair; r == Stop && rate > 0 {
		all = append(all, Leak{Fault: WrongRepair, Rate: rate, as: f})
	}
	return all
}

// withRealigning adds to the leaks of a lane those of people who realign it wrongly, at the alarms
// that the others lead to, and at those that these lead to in turn.
func (l *Line) withRealigning(i int, leaks []Leak) []Leak {
	if !(l.Crew.WrongRealign > 0) || !l.Matched(i) {
		return leaks
	}
	rate := 0.0
	for _, k := range leaks {
		s := l.slip(i, k.looks())
		rate += float64(k.Rate * s.stops() * l.Crew.WrongRealign)
	}
	again := l.slip(i, WrongRealign)
	if rate /= 1 - min(0.999, float64(l.Crew.WrongRealign*again.stops())); rate > 0 {
		leaks = append(leaks, Leak{Fault: WrongRealign, Rate: rate})
	}
	return leaks
}

// stops returns the probability that a leak ends with an alarm that stops the line.
func (s *slip) stops() float64 {
	sum := 0.0
	for _, a := range s.alarms {
		sum += a.stops
	}
	return sum
}

// slipOf returns what follows a leak of station i.
func (l *Line) slipOf(i int, k Leak) slip {
	if k.Fault == WrongStock {
		x := loadingOf(l.Stations[i])
		return l.mixedUp(x, x.between(l), l.RunSpeed()/3600)
	}
	return l.slip(i, k.looks())
}

// silence returns the probability that the reader raises no alarm at a wrong set, and that the set
// then goes on, where it sees so large a share of them.
func (e *eye) silence(l *Line, sight float64) (silent, onward float64) {
	silent, onward = e.looking(l)
	return 1 - float64(sight*(1-silent)), 1 - float64(sight*(1-onward))
}

// sees returns the share of the wrong sets of a number, from 0, that have what it takes for the reader to
// see them, if so large a share of them has another stream, and all but a share at first.
func (e *eye) sees(set int, paired, alone float64) float64 {
	switch {
	case e.missing && set == 0:
		return 1
	case e.sight < 1 && alone > 0 && alone < 1:
		return min(1, e.sight*paired/(1-alone))
	}
	return e.sight
}

// looking returns what silence does, of a set that has what it takes.
func (e *eye) looking(l *Line) (silent, onward float64) {
	misread := float64((1 - e.NoRead) * e.Misread)
	switch e.OnNoRead {
	case Stop:
		silent = misread + float64(e.NoRead*l.Crew.WrongRepair)
		return silent, silent
	case Ship:
		return misread + e.NoRead, misread + e.NoRead
	default:
		return misread + e.NoRead, misread
	}
}

// mixups returns the wrong stocks that are brought to a station, for each attempt.
func (x *loading) mixups(l *Line) []Leak {
	if !(x.Chance > 0) {
		return nil
	}
	return []Leak{{Fault: WrongStock, Rate: x.Chance / x.between(l)}}
}

// between returns the pieces fed between two refills in the mean: what the warning leaves of the
// hopper, and what is fed until an operator has filled it.
func (x *loading) between(l *Line) float64 {
	k := x.hopper
	while := float64(l.Crew.Walk.Mean()+k.Work.Mean()) * l.RunSpeed() / 3600 * l.ShareOf(x.station)
	return max(1, float64(k.Capacity-k.Warn)+min(float64(k.Warn), while))
}

// mixedUp returns what follows a wrong stock of a station of which so many pieces are fed until it
// is filled again, at a pace in sets a second.
func (l *Line) mixedUp(x *loading, pieces, pace float64) slip {
	i := l.index(x.station)
	share := l.ShareOf(x.station)
	s := slip{unfound: 1, sets: pieces / share}
	byHand := false
	if after := x.FoundAfter; after != nil {
		if sets := float64(after.Mean()) * pace; sets < s.sets {
			s.sets, byHand = sets, true
		}
	}
	wrong := wrongSets{window: l.recall(i, Stop), share: share}
	for n, r := range l.Stations {
		if reads, ok := r.(*Reader); ok && reads.Name == x.FoundBy && reads.Name != "" {
			e := eye{Reader: reads, station: n, lag: reads.At - x.station.Where().At, last: forEver, sight: l.having(i, l.onlyFor(reads))}
			wrong.window = max(wrong.window, e.lag)
			s.alarms = append(s.alarms, alarm{reader: n})
			s.look(l, i, e, &wrong)
		}
	}
	if s.many = float64(s.sets * share); byHand {
		s.byHand = float64(min(s.sets, float64(l.recall(i, Stop))) * share)
		s.many -= s.byHand
	}
	return s
}

// look has a reader look for a wrong stock, until it is found or filled up.
func (s *slip) look(l *Line, i int, e eye, wrong *wrongSets) {
	for cycle := 0; float64(cycle) < s.sets+float64(e.lag) && s.unfound > unlikely; cycle++ {
		wrong.cycle = cycle
		if float64(cycle) < s.sets {
			wrong.feed()
		}
		if set := cycle - e.lag; set >= 0 && set < wrong.fed {
			s.read(l, i, 0, e, wrong, set)
		}
	}
	if s.unfound <= unlikely {
		s.unfound = 0
	}
}

// finds reports whether the reader sooner or later raises an alarm.
func (e *eye) finds(l *Line) bool {
	silent, _ := e.silence(l, e.sight)
	return silent < 1
}

// changing returns the mean length of a stop at which a wrong stock is changed.
func (x *loading) changing(l *Line) sim.Seconds { return l.Down(x.own.Of(WrongStock, x.hopper.Work)) }
