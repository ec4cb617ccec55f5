package model

import (
	"slices"

	"netrate/sim"
)

// Inserter puts each set into an outer envelope. Its probabilities are those at its
// rated speed.
type Inserter struct {
	Place
	Hopper     Stock       // envelopes
	Lots       Lots        // of envelopes
	WrongStock Mixup       // envelopes that are not those of the job
	Takes      Takes       // envelopes, and how thick a set may be
	Groups     []SizeGroup // its own limits of speed, by the envelope's size, the smallest first; none for one speed

	EnvelopeMisfeed float64 // probability of each attempt
	Flap            float64
	Jam             float64
	Growth          float64 // exponent of the growth of these three with speed; 0 for none

	OnFlap    Response
	Clear     sim.Duration // an operator's work at a stop for a fault, after the walk; nil if all faults have a time of their own
	Clearings Clearings    // of faults that have a time of their own
}

// Parameters lists its rates and times.
func (n *Inserter) Parameters(all *Parameters) {
	all.Fault(EnvelopeMisfeed, "envelope_misfeed", &n.EnvelopeMisfeed)
	all.Fault(Flap, "flap", &n.Flap)
	all.Fault(InsertionJam, "jam", &n.Jam)
	all.Clear(&n.Clear, &n.Clearings, insertingClears)
	all.Stock("hopper.refill", &n.Hopper)
	all.WrongStock(&n.WrongStock, &n.Clearings)
	all.Beside("growth", &n.Growth, false)
}

// Clone returns a copy.
func (n *Inserter) Clone() Station {
	c := *n
	c.Lots.Factors = slices.Clone(n.Lots.Factors)
	return &c
}

// Check notes what cannot be of the inserter.
func (n *Inserter) Check(l *Line, c *Checks) {
	at := l.First(Inserts)
	c.Require(at == c.At(), "kind", "%s is a second inserter: a line has one", n.Name)
	c.Faults([]string{"envelope_misfeed", "flap", "jam"}, []float64{n.EnvelopeMisfeed, n.Flap, n.Jam}, l.Growth(n.Rated, n.Growth))
	c.Growth(n.Place, n.Growth)
	if e := l.envelopeFeeder(); e >= 0 {
		name := l.Stations[e].Where().Name
		c.Require(n.Hopper == Stock{}, "hopper", "the envelopes come from %s: the inserter has no hopper then", name)
		c.Require(!n.Lots.Given(), "lots", "the envelopes come from %s: their lots are its own", name)
		c.Require(n.WrongStock.Chance == 0, "wrong_stock", "the envelopes come from %s, each for its set: nobody loads the inserter", name)
		c.Require(n.EnvelopeMisfeed == 0, "envelope_misfeed", "the envelopes come from %s, whose misfeeds count", name)
	} else {
		c.Stock(n.Hopper, "hopper", false)
	}
	n.loading().check(l, c)
	c.lots(&n.Lots)
	c.Clearings(n.Clear, &n.Clearings, stoppers(l, n, insertingClears))
	c.Response(l, Flap, n.OnFlap)
}

// odds returns the probabilities of an envelope misfeed, a flap and a jam at the speed
// the line runs at.
func (n *Inserter) odds(l *Line) [3]float64 {
	factor := l.Growth(n.Rated, n.Growth)
	return [3]float64{n.EnvelopeMisfeed * factor, n.Flap * factor, n.Jam * factor}
}

// Kind says that it is an inserter.
func (n *Inserter) Kind() Kind { return Kind{Name: "inserter", Role: Inserts} }

// Faults returns what can go wrong with an insertion. With a feeder of envelopes there is no
// envelope misfeed.
func (n *Inserter) Faults(l *Line) []Fault {
	if l.envelopeFeeder() >= 0 {
		return []Fault{Flap, InsertionJam}
	}
	return n.Counts()
}

// Counts returns what can go wrong with an insertion.
func (n *Inserter) Counts() []Fault { return []Fault{EnvelopeMisfeed, Flap, InsertionJam} }

// Answer returns where it keeps its response to a flap.
func (n *Inserter) Answer(f Fault) *Response {
	if f == Flap {
		return &n.OnFlap
	}
	return nil
}

// Refusal returns why a flap cannot have the response.
func (n *Inserter) Refusal(l *Line, i int, _ Fault, r Response) string {
	switch r {
	case Divert:
		return "the set is past the track gate when its envelope turns out to be shut"
	case Ship:
		return "the set is not in its envelope"
	default:
		return l.NoWay(i, r)
	}
}

// Leaks returns the wrong envelopes that are brought. Else nothing goes on: whoever put a set into no
// envelope, or into a shut one, sees it.
func (n *Inserter) Leaks(l *Line) []Leak { return n.loading().mixups(l) }

// Handles says that it puts a set that is to be outsorted into an envelope like any other.
func (n *Inserter) Handles(r Response) bool { return r == Outsort }

// Estimate takes a flap to be known.
func (n *Inserter) Estimate(l *Line) AnalyticTerm {
	p := n.odds(l)
	down := func(f Fault) sim.Seconds { return l.Down(n.Clearings.Of(f, usually(n.Clear))) }
	t := term{fault: down(Flap)}
	t.Stop(p[0], down(EnvelopeMisfeed))
	t.Stop(p[2], down(InsertionJam))
	t.Lost = p[2]
	t.answer(p[1], n.OnFlap, 1, 0)
	l.goOn(l.index(n), &t)
	return t.AnalyticTerm
}

// Stocked returns its hopper.
func (n *Inserter) Stocked() Stocked { return Stocked{&n.Hopper, "hopper empty", true} }

// Piece says that a piece is an envelope.
func (n *Inserter) Piece() Piece { return Piece{true, "envelope"} }

// Carries says that envelopes from its own hopper are all alike.
func (n *Inserter) Carries() *Stream { return nil }

// Usual returns the growth of its faults with speed, and how often its envelopes are the wrong ones.
func (n *Inserter) Usual() []Usual {
	return []Usual{{"growth", n.Growth, false}, {"wrong_stock", n.WrongStock.Chance, true}}
}

// Setting returns what goes into it.
func (n *Inserter) Setting() Setting {
	return Setting{Takes: &n.Takes, Groups: n.Groups, Feeds: &Feeds{Hopper: &n.Hopper, Misfeed: &n.EnvelopeMisfeed, Growth: n.Growth}}
}

// inserter is an inserter in use.
type inserter struct {
	*Inserter
	*Seat
	fix   Stoppage
	mixup *mixup    // of its envelopes; nil if they are always right
	each  *sim.Slot // every set gets a wrong envelope; nil if none ever does
}

// Install returns the inserter in use. Only where no station feeds personalised envelopes does
// it take them from its own hopper.
func (n *Inserter) Install(seat *Seat) Unit {
	u := &inserter{Inserter: n, Seat: seat, fix: seat.stoppage(n.Clear, &n.Clearings)}
	odds := n.odds(seat.Line())
	seat.Trials(u.happens, odds[:]...)
	seat.Grows(n.Growth)
	if seat.Line().envelopeFeeder() < 0 {
		seat.Hopper(n.Hopper)
		if u.mixup = newMixup(seat.s, seat.index, seat.hopper, seat.trials.rate, u); u.mixup != nil {
			u.each = seat.Timer(u.looks)
			seat.fixes = append(seat.fixes, u.mixup.stop)
		}
	}
	return u
}

// Begin puts it at the start of a replication.
func (n *inserter) Begin() {
	n.mixup.begin()
	n.Seat.Begin()
}

// turns has the timer look at each set from now on, or at none any more.
func (n *inserter) turns() {
	if n.each.Stop(); n.mixup.wrong {
		n.each.Set(max(n.s.clocks.Cycle(), n.at) + 1)
	}
}

func (n *inserter) discards(int64) {}
func (n *inserter) halts()         {}

// looks puts the set that is here, if it is one, into a wrong envelope.
func (n *inserter) looks() {
	if set := n.Set(); n.Seat.Handles(set) {
		n.wrongly(set)
	}
	n.each.Set(n.Cycle() + 1)
}

// wrongly has a set that it handles hold a wrong envelope.
func (n *inserter) wrongly(set sim.Cycles) {
	o := n.mark(set, WrongStock, 1)
	o.flawed = true
	o.alien |= 1 << n.index
	n.s.suspect(set)
}

// happens is an insertion out of the ordinary.
func (n *inserter) happens(outcome int, set sim.Cycles) {
	fault := EnvelopeMisfeed + Fault(outcome)
	if n.mixup.is() { // whatever befalls it here
		n.wrongly(set)
	}
	n.Count(fault, set, true)
	if fault != Flap || n.OnFlap == Stop {
		n.fix.Arise(fault)
	}
	switch {
	case fault == InsertionJam:
		n.Spoil(set, fault, 1)
	case fault == Flap && n.OnFlap != Stop:
		n.Condemn(set, fault, Outsort, 1)
	}
}
