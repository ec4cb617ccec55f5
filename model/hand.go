package model

import "netrate/sim"

// Hand is the sum an engineer does on paper: it takes every stop for a fault at its mean,
// one after the other, with an operator who sets off at once. What it leaves out is what
// the simulation adds: waiting for an operator who is busy, stocks used up, stops that
// overlap, and the chance of it all.
//
// Source: the line without buffers, E = 1 / (1 + Σ MTTR/MTBF) with MTBF in running time;
// Buzacott, Int. J. Prod. Res. 5 (1967) 183–200; Groover, Automation, Production Systems,
// and Computer-Integrated Manufacturing, Example 16A.2 (both citations from memory).
type Hand struct {
	Speed      float64 // cycles an hour
	Efficiency float64 // running time over all time
	Good       float64 // share of the sets that are delivered good
	NetRate    float64 // good envelopes an hour: the product of the three
	Terms      []HandTerm
}

// HandTerm is one station's part in the sum.
type HandTerm struct {
	Station string
	Reach   float64     // share of the sets that it handles
	Stops   float64     // stops for a fault in each set it handles
	Down    sim.Seconds // mean length of one: walk, clearing and restart
	Lost    float64     // share of the sets it handles that it condemns or spoils
	Flawed  float64     // share of the sets it handles that go on, defective
}

// Hand returns the sum done on paper for the line, which must have passed Check.
func (l *Line) Hand() Hand {
	h := Hand{Speed: l.RunSpeed(), Good: 1}
	perCycle, reach := 0.0, 1.0 // seconds stopped in each cycle; share of the sets that come this far
	for _, s := range l.Stations {
		t := s.hand(l)
		t.Station, t.Reach = s.Where().Name, reach
		perCycle += reach * t.Stops * float64(t.Down)
		reach *= 1 - t.Lost
		h.Good *= 1 - t.Lost - t.Flawed
		h.Terms = append(h.Terms, t)
	}
	h.Efficiency = 1 / (1 + perCycle*h.Speed/3600)
	h.NetRate = h.Speed * h.Efficiency * h.Good
	return h
}

// down returns the mean length of a stop with the given clearing time.
func (l *Line) down(clear sim.Duration) sim.Seconds {
	return l.Crew.Walk.Mean() + clear.Mean() + l.Restart.Mean()
}

func (g *TrackGate) hand(*Line) HandTerm { return HandTerm{} }
func (g *ExitGate) hand(*Line) HandTerm  { return HandTerm{} }
func (d *Delivery) hand(*Line) HandTerm  { return HandTerm{} }

func (n *Inserter) hand(l *Line) HandTerm {
	p := n.odds(l)
	t := HandTerm{Stops: p[0] + p[2], Down: l.down(n.Clear), Lost: p[2]}
	if n.OnFlap == Stop {
		t.Stops += p[1]
	} else {
		t.Lost += p[1]
	}
	return t
}

func (f *Feeder) hand(l *Line) HandTerm {
	misfeeds, tooMany := f.misfeeds(l)
	plain := f.odds(l, false)
	// Doubles, jams and false calls are as likely after a misfeed as ever, but for the
	// misfeeds that take their place: a difference this sum leaves out.
	double, jam := plain[fedTwo]-plain[fedNothing], plain[fedJam]-plain[fedTwo]
	falseCall := plain[calledFalsely] - plain[fedJam]
	missed := double * (1 - f.Caught)
	t := HandTerm{Stops: tooMany + jam, Down: l.down(f.Clear), Lost: jam, Flawed: missed}
	answer := func(p float64, r Response, flawed bool) {
		switch {
		case r == Stop:
			t.Stops += p
		case r != Ship:
			t.Lost += p
		case flawed:
			t.Flawed += p
		}
	}
	answer(misfeeds-tooMany, f.OnMisfeed, true)
	answer(double-missed, f.OnDouble, true)
	answer(falseCall, f.OnDouble, false)
	t.Stops *= f.Share
	t.Lost *= f.Share
	t.Flawed *= f.Share
	return t
}

// misfeeds returns the long-run share of attempts that are misfeeds, and of those that are
// the last of too many in a row: a Markov chain on the misfeeds in a row up to now.
func (f *Feeder) misfeeds(l *Line) (all, tooMany float64) {
	first, again := f.odds(l, false)[fedNothing], f.odds(l, true)[fedNothing]
	limit := f.Streak.StopAfter
	switch {
	case limit == 1:
		return first, first
	case f.OnMisfeed == Stop: // which ends every streak at one
		return first, 0
	case limit == 0:
		return first / (1 - again + first), 0
	}
	// A streak starts with probability first and goes on with probability again, up to the
	// limit: it holds 1 + again + again² + … misfeeds in the mean.
	length, goesOn := 0.0, 1.0
	for range limit {
		length += goesOn
		tooMany = goesOn
		goesOn *= again
	}
	// Of the attempts, those that start from no misfeed are 1 / (1 + first·(length before
	// the limit)): the others come right after a misfeed.
	plain := 1 / (1 + first*(length-tooMany))
	return plain * first * length, plain * first * tooMany
}
