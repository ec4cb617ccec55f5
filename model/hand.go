package model

import (
	"math"

	"netrate/sim"
)

// Hand is the sum an engineer does on paper: it takes every stop for a fault at its mean,
// one after the other, with an operator who sets off at once. What it leaves out is what
// the simulation adds: waiting for an operator who is busy, stocks used up, stops that
// overlap, a second fault within one recovery, and the chance of it all.
//
// Source: the line without buffers, E = 1 / (1 + Σ MTTR/MTBF) with MTBF in running time;
// Buzacott, Int. J. Prod. Res. 5 (1967) 183–200; Groover, Automation, Production Systems,
// and Computer-Integrated Manufacturing, Example 16A.2 (both citations from memory).
type Hand struct {
	Speed      float64 // cycles an hour
	Efficiency float64 // running time over all time
	Good       float64 // share of the sets that are delivered good
	NetRate    float64 // good envelopes an hour: the product of the three
	Defective  float64 // share of the sets delivered that are defective
	Remakes    float64 // remakes for each set; 0 without personalised pieces
	Terms      []HandTerm
}

// HandTerm is one station's part in the sum. What follows a misfeed or a double that its
// lane did not notice is in the term of the reader whose alarm ends it.
type HandTerm struct {
	Station string
	Reach   float64     // share of the sets that it handles
	Stops   float64     // stops for a fault in each set it handles
	Down    sim.Seconds // mean length of one: walk, clearing and restart
	Starved sim.Seconds // that the line waits in each cycle for a document, in the mean
	Lost    float64     // sets condemned or spoiled for each one it handles
	Flawed  float64     // sets that go on, defective, for each one it handles
	Remakes float64     // remakes for each set it handles
}

// Hand returns the sum done on paper for the line, which must have passed Check.
func (l *Line) Hand() Hand {
	h := Hand{Speed: l.RunSpeed(), Good: 1}
	perCycle, reach := 0.0, 1.0 // seconds stopped in each cycle; share of the sets that come this far
	// Of the shares of sets that are not defective, and not to be made again, the
	// logarithms: 1 less one in 10¹⁵ would be 1.
	right, kept := 0.0, 0.0
	for i := range l.Stations {
		t := l.term(i)
		t.Reach = reach
		perCycle += reach * t.Stops * float64(t.Down)
		reach *= max(0, 1-t.Lost)
		h.Good *= max(0, 1-t.Lost-t.Flawed)
		right += logLeft(t.Flawed, 1-t.Lost)
		kept += logLeft(t.Remakes, 1)
		h.Terms = append(h.Terms, t)
	}
	h.Efficiency = 1 / (1 + (perCycle+float64(l.starved(h.Terms)))*h.Speed/3600)
	h.NetRate = h.Speed * h.Efficiency * h.Good
	h.Defective, h.Remakes = 0-math.Expm1(right), 0-math.Expm1(kept) // 0, not -0
	return h
}

// term returns the term of station i, but for its reach.
func (l *Line) term(i int) HandTerm {
	t := l.Stations[i].hand(l)
	t.Station = l.Stations[i].Where().Name
	if l.Personalised() {
		t.Remakes += t.Lost + t.Flawed
	}
	return t
}

// logLeft returns the logarithm of what is left of a whole without a part of it, as a share.
func logLeft(part, whole float64) float64 {
	if part == 0 {
		return 0
	}
	return math.Log1p(-min(1, part/max(whole, part)))
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
	t := term{fault: l.down(n.Clear)}
	t.stop(p[0]+p[2], t.fault)
	t.Lost = p[2]
	t.answer(p[1], n.OnFlap, 1, 0)
	return t.HandTerm
}

func (f *Feeder) hand(l *Line) HandTerm {
	i := l.index(f)
	o := f.odds(l, false)
	// Doubles, jams and false calls are as likely after a misfeed as ever, but for the
	// misfeeds that take their place: a difference this sum leaves out.
	double, jam, falseCall := o[fedTwo]-o[fedNothing], o[fedJam]-o[fedTwo], o[calledFalsely]-o[fedJam]
	misfeeds, tooMany := f.misfeeds(l)
	t := term{fault: l.down(f.Stream.work(f.Clear))}
	t.stop(jam, l.down(f.Clear))
	t.Lost = jam
	t.stop(tooMany, t.fault)
	sets, stop := f.catchUps(l)
	t.answer(misfeeds*f.Noticed-tooMany, f.OnMisfeed, sets, l.besides(i, Misfeed))
	if f.OnMisfeed != Stop {
		t.stop(stop*(misfeeds*f.Noticed-tooMany), t.fault)
	}
	t.answer(double*f.Caught, f.OnDouble, l.catchUp(i), l.besides(i, Double))
	t.answer(falseCall, f.OnDouble, 1, 0)
	l.goOn(i, &t)
	t.scale(f.Share)
	return t.HandTerm
}

// misfeeds returns the long-run share of attempts that are misfeeds, and of those that are
// the last of too many in a row and stop the line for that: a Markov chain on the misfeeds in
// a row up to now. In a lane that can come out of step it counts a row as one fault.
func (f *Feeder) misfeeds(l *Line) (all, tooMany float64) {
	first, again := f.odds(l, false)[fedNothing], f.odds(l, true)[fedNothing]
	limit, stops := f.Streak.StopAfter, f.OnMisfeed == Stop
	switch {
	case l.matched(l.index(f)) && limit == 1:
		return first, first * f.Noticed
	case l.matched(l.index(f)) || first == 0:
		return first, 0
	}
	// A streak starts with probability first and goes on with probability again; from the
	// limit on, or from the first one if any misfeed stops the line, one that is noticed
	// ends it. For each attempt that is not right after a misfeed there are so many
	// misfeeds, and so many attempts right after one.
	misfeeds, after, next := 0.0, 0.0, first
	for k := 1; k < limit && !stops; k++ {
		misfeeds += next
		after += next
		next *= again
	}
	unseen := 1.0 // probability that a misfeed from here on does not end the streak
	if limit > 0 || stops {
		unseen = 1 - f.Noticed
	}
	if again*unseen == 1 {
		return 1, 0 // a streak that never ends
	}
	rest := next / (1 - again*unseen)
	plain := 1 / (1 + after + rest*unseen)
	if limit > 0 && !stops {
		tooMany = plain * rest * f.Noticed
	}
	return plain * (misfeeds + rest), tooMany
}
