package model

import "netrate/sim"

// Inserter puts each set into an outer envelope. Its probabilities are those at its
// rated speed.
type Inserter struct {
	Place
	Hopper Stock       // envelopes
	Takes  Takes       // envelopes, and how thick a set may be
	Groups []SizeGroup // its own limits of speed, by the envelope's size, the smallest first; none for one speed

	EnvelopeMisfeed float64 // probability of each attempt
	Flap            float64
	Jam             float64
	Growth          float64 // exponent of the growth of these three with speed; 0 for none

	OnFlap Response
	Clear  sim.Duration // an operator's work at a stop for a fault, after the walk
}

func (n *Inserter) levers(all *levers) {
	all.rate("envelope_misfeed", &n.EnvelopeMisfeed)
	all.rate("flap", &n.Flap)
	all.rate("jam", &n.Jam)
	all.duration("clear", &n.Clear)
	all.stock("hopper.refill", &n.Hopper)
	all.beside("growth", &n.Growth, false)
}

func (n *Inserter) clone() Station { c := *n; return &c }

func (n *Inserter) check(l *Line, c *checks) {
	c.faults([3]string{"envelope_misfeed", "flap", "jam"}, [3]float64{n.EnvelopeMisfeed, n.Flap, n.Jam}, l.growth(n.Rated, n.Growth))
	c.exponent(n.Place, n.Growth)
	if e := l.envelopeFeeder(); e >= 0 {
		name := l.Stations[e].Where().Name
		c.require(n.Hopper == Stock{}, "hopper", "the envelopes come from %s: the inserter has no hopper then", name)
		c.require(n.EnvelopeMisfeed == 0, "envelope_misfeed", "the envelopes come from %s, whose misfeeds count", name)
	} else {
		c.stock(n.Hopper, "hopper", false)
	}
	c.clear(n.Clear)
	c.response(l, Flap, n.OnFlap)
}

// odds returns the probabilities of an envelope misfeed, a flap and a jam at the speed
// the line runs at.
func (n *Inserter) odds(l *Line) [3]float64 {
	factor := l.growth(n.Rated, n.Growth)
	return [3]float64{n.EnvelopeMisfeed * factor, n.Flap * factor, n.Jam * factor}
}

// inserter is an inserter in use.
type inserter struct {
	*Inserter
	s     *Sim
	index int
	at    sim.Cycles
	odds  [3]float64
	any   float64 // that one of them happens
	gap   sim.Gap
	next  *sim.Slot
	gaps  *sim.Stream
	kinds *sim.Stream
	stock stock
	fix   *stop
	way   way  // of a set condemned here
	plain bool // it takes the envelopes from its own hopper
	out   StationOutcome
}

func (n *Inserter) install(s *Sim, index int) unit {
	u := &inserter{Inserter: n, s: s, index: index, at: s.track.at[index], odds: n.odds(s.line)}
	u.any = u.odds[0] + u.odds[1] + u.odds[2]
	u.gap = sim.NewGap(min(1, u.any))
	u.next = s.clocks.Track.Timer(u.attempt)
	u.gaps, u.kinds = s.stream(n.Name, "gaps"), s.stream(n.Name, "kinds")
	u.fix = s.fixer(index, n.Clear) // before the stock: what the crew sees to first, of one cycle
	u.stock.install(s, index, n.Hopper, 1, func(cycle sim.Cycles) int64 { return s.track.handled(index, cycle) })
	u.stock.busy = func() bool { return s.due(u.next) }
	u.way = s.ways[index][Outsort]
	if u.plain = s.line.envelopeFeeder() < 0; u.plain {
		s.track.feeds(index, nil)
	}
	return u
}

func (n *inserter) begin() {
	n.out = StationOutcome{}
	n.stock.begin()
	n.await(n.at)
}

// await sets the timer for the next fault after the given cycle.
func (n *inserter) await(cycle sim.Cycles) {
	if n.any > 0 {
		n.next.Set(cycle + sim.Cycles(n.gap.Draw(n.gaps)))
	}
}

// attempt is what happens to the set in a cycle that was drawn for a fault: none, where
// the pocket is empty.
func (n *inserter) attempt() {
	cycle := n.s.clocks.Track.Now()
	set := cycle - n.at
	u := n.kinds.Uniform() * n.any
	if n.s.track.passes(set, n.index) {
		switch {
		case u < n.odds[0]:
			n.out.Faults[EnvelopeMisfeed]++
			n.s.standstill.arise(n.fix, CauseEnvelopeMisfeed)
		case u < n.odds[0]+n.odds[1]:
			n.flap(set, cycle)
		default:
			n.out.Faults[InsertionJam]++
			n.s.standstill.arise(n.fix, CauseInsertionJam)
			o := n.s.track.odd(set, cycle)
			o.fed(n.index, 1)
			o.blames(n.index, InsertionJam)
			n.s.track.spoil(o, n.index)
		}
	}
	n.await(cycle)
}

func (n *inserter) flap(set, cycle sim.Cycles) {
	n.out.Faults[Flap]++
	if n.OnFlap == Stop {
		n.s.standstill.arise(n.fix, CauseFlap)
		return
	}
	o := n.s.track.odd(set, cycle)
	o.blames(n.index, Flap)
	n.s.condemn(o, n.way)
}

func (n *inserter) end(cycle sim.Cycles, out *StationOutcome) {
	stops := out.Stops
	*out = n.out
	out.Name, out.Stops = n.Name, stops
	out.Attempts = n.s.track.handled(n.index, cycle)
	if n.plain {
		out.Pieces = n.s.pieces(n.index, &n.stock, cycle)
		out.Pieces.Good = n.s.out.Sets.Good
	}
	out.Stock, out.Clearing = n.stock.task.Account(), n.fix.task.Account()
}
