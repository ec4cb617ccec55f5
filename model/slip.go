package model

import "netrate/sim/portable"

// slip is what follows a leak of a lane, for each one in the mean: wrong sets, one after the
// other, until the first alarm of a reader that sees them. It is summed cycle by cycle over
// all that the readers can come to, until what is left is less likely than one in 10¹⁵; it
// takes nothing else to go wrong at the same time.
type slip struct {
	alarms  []alarm // of each reader that sees the lane, along the track
	unfound float64 // probability that none of them ever raises an alarm
	endless bool    // the wrong sets do not end by themselves
	mends   float64 // probability in each set that the lane comes into step all the same
	sets    float64 // in a shift or job; of a wrong stock, until it is used up or an operator sees it
	alone   float64 // share of the wrong sets after the first that are good all the same: they hold nothing to be matched to
	many    float64 // sets delivered defective if it does not go on for ever and no reader finds it, but for 1; 0 for 1
	byHand  float64 // sets taken off then by an operator who finds it
}

// unlikely is a probability that is as good as none.
const unlikely = 1e-15

// alarm is what one reader does about a leak, in the mean of all such leaks.
type alarm struct {
	reader    int     // its station
	chance    float64 // that it is the one to raise the alarm
	stops     float64 // that it stops the line with it
	lost      float64 // sets condemned or taken off for it, the catch-up set included
	delivered float64 // sets delivered defective before it
}

// slip returns what follows a leak of station i.
func (l *Line) slip(i int, f Fault) slip {
	eyes := l.eyes(i, f)
	s := slip{unfound: 1, endless: l.Matched(i), mends: l.mends(i), sets: l.most() * l.ShareOf(l.Stations[i])}
	wrong := wrongSets{window: l.recall(i, Divert) + l.recall(i, Stop), some: l.ShareOf(l.Stations[i])}
	if s.endless {
		s.alone = l.alone(i)
		wrong.alone = s.alone
	}
	last := -1 // cycle in which the last reading is made that matters
	for _, e := range eyes {
		s.alarms = append(s.alarms, alarm{reader: e.station})
		wrong.window = max(wrong.window, e.lag)
		if e.last < forEver {
			last = max(last, e.lag+e.last)
		} else if e.finds(l) {
			last = max(last, e.lag+int(min(l.most(), 1e7)))
		}
	}
	for cycle := 0; cycle <= last && s.unfound > unlikely; cycle++ {
		wrong.cycle = cycle
		if s.endless || cycle == 0 {
			wrong.feed()
		}
		for n, e := range eyes {
			if set := cycle - e.lag; set >= 0 && set < wrong.fed {
				s.read(l, i, n, e, &wrong, set)
			}
		}
	}
	if s.unfound <= unlikely {
		s.unfound = 0 // it is found sooner or later
	}
	if !s.endless && wrong.fed > 0 {
		s.unfound *= *wrong.at(0) // or it was condemned for a no-read
	}
	return s
}

// read has a reader read a wrong set. What is known of the sets before and after is that
// none of them has raised an alarm.
func (s *slip) read(l *Line, lane, n int, e eye, wrong *wrongSets, set int) {
	there := wrong.at(set)
	sight := e.sees(set, *wrong.pair(set), s.alone)
	sees := set >= e.first && set <= e.last
	onward := 1.0 // probability that a set that is there goes on, without an alarm
	silent := 1.0 // that there is no alarm
	switch {
	case sees:
		silent, onward = e.silence(l, sight)
	case e.OnNoRead == Divert || e.OnNoRead == Outsort:
		onward = 1 - e.NoRead
	}
	if sees {
		before := s.unfound * *there * sight
		answer := e.OnMismatch
		if wrong.share > 0 {
			answer = Stop // a wrong stock stops the line
		}
		s.raise(l, lane, n, wrong, set, before*(1-e.NoRead)*(1-e.Misread), answer)
		if e.OnNoRead == Stop {
			s.raise(l, lane, n, wrong, set, before*e.NoRead*(1-l.Crew.WrongRepair), Stop)
		}
	}
	quiet := 1 - float64(*there*(1-silent))
	s.unfound *= quiet
	if quiet > 0 {
		*there *= onward / quiet
	}
	if sees && s.alone > 0 && sight < 1 { // those with another stream are seen, the others are not
		_, looked := e.looking(l)
		*wrong.pair(set) *= (1 - float64(e.sight/(1-s.alone)*(1-looked))) / onward
	}
}

// raise counts an alarm of the given chance.
func (s *slip) raise(l *Line, lane, n int, wrong *wrongSets, set int, chance float64, r Response) {
	caught, delivered := wrong.split(l.recall(lane, r), set)
	a := &s.alarms[n]
	a.chance += chance
	a.delivered += float64(chance * delivered)
	if r == Stop {
		a.stops += chance
	} else if s.endless {
		caught++ // the catch-up set
	}
	a.lost += float64(chance * caught)
}

// unseen returns how many sets are delivered defective for each leak of the given rate
// because no reader ever sees it. In a lane that is out of step those are all later sets,
// until it mends or the shift ends: of the sets of a shift that starts in step, a process of
// two states is wrong in the share u/(u+m)·(1 − (1 − e^(−y))/y), with y = (u+m)·sets, for
// leaks at rate u that mend at rate m.
func (s *slip) unseen(rate float64) float64 {
	u := float64(rate * s.unfound)
	if !s.endless && s.many > 0 {
		return s.unfound * s.many
	}
	if !s.endless || u == 0 {
		return s.unfound
	}
	y := (u + s.mends) * s.sets
	share := y / 2 // where it is small
	if y > 1e-6 {
		share = 1 + portable.Expm1(-y)/y
	}
	return u / (u + s.mends) * share / rate * (1 - s.alone)
}

// delivered returns how many sets are delivered defective for each leak of the given rate,
// if none of them is lost for another reason.
func (s *slip) delivered(rate float64) float64 {
	sum := s.unseen(rate)
	for _, a := range s.alarms {
		sum += a.delivered
	}
	return sum
}

// mends returns the probability in each set that a lane which is out of step, and which no
// reader sees, comes into step all the same: any fault that it notices and answers in line
// makes it catch up, and so does the alarm of a reader that sees a piece missing.
func (l *Line) mends(i int) float64 {
	if !l.Matched(i) {
		return 0
	}
	misfeed, double, falseCall := l.carrying(i).notices(l)
	p := 0.0
	if l.Answer(i, Misfeed) != Stop {
		p += misfeed
	}
	if l.Answer(i, Double) != Stop {
		p += double + falseCall
	}
	blind := 1.0 // probability that no reader sees a missing piece
	for _, e := range l.eyes(i, Misfeed) {
		silent, _ := e.silence(l, e.sees(0, 1-l.alone(i), l.alone(i)))
		blind *= silent
	}
	for _, k := range l.carrying(i).leaks(l) {
		if k.looks() == Misfeed {
			p += float64(k.Rate * (1 - blind))
		}
	}
	return p
}

// wrongSets are the sets that a leak has made wrong, of those that no alarm has stopped.
type wrongSets struct {
	cycle  int       // since the leak
	fed    int       // how many there are; set k came with cycle k
	there  []float64 // of the latest, the probability that no no-read has condemned it
	paired []float64 // likewise, that it then holds another stream, to which it is matched
	before float64   // the others: how many of them are not condemned, and defective
	window int       // pitches within which a set can still be read or caught
	share  float64   // of the sets that are wrong by a wrong stock; 0 if the leak is none
	some   float64   // of the sets, that the lane is for: only these are wrong, after the first
	alone  float64   // of the wrong sets after the first, that are good all the same
}

// feed adds one.
func (w *wrongSets) feed() {
	if len(w.there) > w.window {
		w.before += float64(w.there[0] * w.defective(w.fed-len(w.there)))
		w.there, w.paired = w.there[1:], w.paired[1:]
	}
	there := 1.0
	switch {
	case w.share > 0:
		there = w.share
	case w.fed > 0:
		there = w.some
	}
	w.there, w.paired = append(w.there, there), append(w.paired, 1-w.alone)
	w.fed++
}

// defective returns the share of a set that is defective if it is delivered.
func (w *wrongSets) defective(set int) float64 {
	if set == 0 || w.share > 0 {
		return 1
	}
	return *w.pair(set)
}

// at returns the probability that a set is not condemned.
func (w *wrongSets) at(set int) *float64 { return &w.there[set-w.fed+len(w.there)] }

// pair returns the probability that a set which is not condemned holds another stream.
func (w *wrongSets) pair(set int) *float64 { return &w.paired[set-w.fed+len(w.paired)] }

// split returns how many sets an alarm catches, and how many of those not condemned it does
// not because they have gone so far or further. It was raised for the given set, which
// therefore is not condemned.
func (w *wrongSets) split(reach, raised int) (caught, delivered float64) {
	delivered = w.before
	for n, there := range w.there {
		set := w.fed - len(w.there) + n
		defective := w.defective(set)
		if set == raised {
			there, defective = 1, 1
		}
		if w.cycle-set < reach {
			caught += there
		} else {
			delivered += float64(there * defective)
		}
	}
	return caught, delivered
}
