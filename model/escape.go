package model

import (
	"cmp"
	"slices"

	"netrate/sim/output"
)

// Escapes is how many envelopes a line delivers defective, and where they come from. A count
// of what is so rare says little, even of many shifts; but each attempt that the shifts
// counted has a known probability to let a fault go on unseen, which then has a known
// probability to reach the delivery. The sum of these is a mean without the random numbers of it.
//
// It is exact but for what takes two faults within one passage of the line, or one recovery:
// a share of the figure as large as the probability of another fault there. Where readers
// leave nothing to escape, the figure is 0, and what still does takes two such faults.
type Escapes struct {
	PerMillion float64  // defective in a million delivered, in the mean
	Unfound    bool     // some are found by nothing: see Escape.Unfound
	From       []Escape // where they come from, the most first
	Guarded    bool     // readers find some leaks: what escapes them all the same takes two faults at once, which PerMillion leaves out
	Misread    float64  // of PerMillion, what readers let through that misread
	Counted    int64    // what the shifts themselves delivered defective
	Delivered  int64    // good or defective
}

// Escape is what one kind of fault at one station delivers defective.
type Escape struct {
	Station    string
	Fault      Fault   // a misfeed or a double
	Shipped    bool    // it was noticed, and the answer is to ship it
	PerMillion float64 // of all envelopes delivered
	// Unfound says that the lane may stay out of step until the shift ends, since no reader
	// sees it. That is neither rare nor far from other faults: a count is then worth more
	// than this figure, which takes nothing but the lane's own faults in line to end it.
	Unfound bool
}

// Escapes returns how many envelopes are delivered defective in the mean, for the attempts
// counted in o, the sum of that many shifts or passes of jobs. Without any delivered there are
// none.
func (l *Line) Escapes(o *Outcome, passes int64) Escapes {
	e := Escapes{Counted: o.Sets.Defective, Delivered: o.Sets.Good + o.Sets.Defective}
	if e.Delivered == 0 {
		return e
	}
	terms := l.Analytic().Terms
	for i := range l.Stations {
		for _, k := range l.Stations[i].Leaks(l) {
			slip, leaks := l.slipIn(i, k, o, passes)
			e.Guarded = e.Guarded || len(slip.alarms) > 0
			sets := leaks * slip.delivered(k.Rate) * l.arrives(i, &slip, terms)
			if sets == 0 {
				continue
			}
			e.add(Escape{terms[i].Station, k.Fault, k.Shipped, 1e6 * sets / float64(e.Delivered), slip.endless && slip.unfound > 0})
		}
	}
	if sharp := l.sharp(); sharp != nil {
		e.Misread = max(0, e.PerMillion-sharp.Escapes(o, passes).PerMillion)
	}
	slices.SortStableFunc(e.From, func(a, b Escape) int { return cmp.Compare(b.PerMillion, a.PerMillion) })
	return e
}

// sharp returns the line with readers that never misread; nil if they never do.
func (l *Line) sharp() *Line {
	var sharp *Line
	for i, s := range l.Stations {
		if r, ok := s.(*Reader); ok && r.Misread > 0 {
			if sharp == nil {
				sharp = l.Clone()
			}
			sharp.Stations[i].(*Reader).Misread = 0
		}
	}
	return sharp
}

// slipIn returns what follows a leak of station i in the shifts or passes that an outcome is the sum
// of, and how many such leaks they had in the mean.
func (l *Line) slipIn(i int, k Leak, o *Outcome, passes int64) (s slip, leaks float64) {
	at := &o.Stations[i]
	if k.Fault != WrongStock {
		s = l.slip(i, k.looks())
		s.sets = float64(o.Sets.Started) / float64(passes) * l.ShareOf(l.Stations[i])
		return s, float64(at.Attempts) * k.Rate
	}
	refills := float64(at.Stock.Done)
	if refills == 0 {
		return s, 0
	}
	x := loadingOf(l.Stations[i])
	pieces := max(1, (float64(at.Attempts)-float64(float64(passes)*x.between(l)))/refills)
	return l.mixedUp(x, pieces, float64(o.Cycles)/float64(o.Time.Shift)), refills * x.Chance
}

// add adds what one kind of fault delivers defective, with what it delivers otherwise.
func (e *Escapes) add(one Escape) {
	e.PerMillion += one.PerMillion
	e.Unfound = e.Unfound || one.Unfound
	for n := range e.From {
		if x := &e.From[n]; x.Station == one.Station && x.Fault == one.Fault && x.Shipped == one.Shipped {
			x.PerMillion += one.PerMillion
			x.Unfound = x.Unfound || one.Unfound
			return
		}
	}
	e.From = append(e.From, one)
}

// Count returns the exact interval of defective in a million, from the count alone. It takes
// each envelope to go wrong by itself: where they come in runs it is too narrow.
func (e Escapes) Count(level float64) (low, high float64) {
	low, high = output.ExactInterval(e.Counted, e.Delivered, level)
	return 1e6 * low, 1e6 * high
}

// arrives returns the probability that a set which a leak of station i has made wrong is
// neither condemned nor spoiled for another reason: further on, or in the sets after the one
// of the leak, anywhere on the line. What the readers do that see the leak is in the slip.
func (l *Line) arrives(i int, s *slip, terms []AnalyticTerm) float64 {
	p := 1.0
	for k, t := range terms {
		sees := slices.ContainsFunc(s.alarms, func(a alarm) bool { return a.reader == k })
		if k > i && !sees || k < i && s.endless {
			p *= 1 - min(1, t.Lost)
		}
	}
	return p
}
