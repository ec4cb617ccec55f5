package model

import (
	"math/bits"
	"slices"

	"netrate/sim"
)

// Each of these tells the observer, if there is one, of one kind of event. Where nobody
// observes an event costs a comparison: what is to be told is put together elsewhere, so that
// the engine's own functions have no room for it on their stacks.

// observe tells of something at a station.
func (s *Sim) observe(kind EventKind, station int) {
	if s.observer != nil {
		s.tellPlain(kind, station, 0)
	}
}

// observeNumber tells of something with a number.
func (s *Sim) observeNumber(kind EventKind, station int, n int64) {
	if s.observer != nil {
		s.tellPlain(kind, station, n)
	}
}

//go:noinline
func (s *Sim) tellPlain(kind EventKind, station int, n int64) {
	s.tell(Event{Kind: kind, Station: station, N: n})
}

// observeStop tells of a stop.
func (s *Sim) observeStop(kind EventKind, station int, cause Cause) {
	if s.observer != nil {
		s.tellStop(kind, station, cause)
	}
}

//go:noinline
func (s *Sim) tellStop(kind EventKind, station int, cause Cause) {
	s.tell(Event{Kind: kind, Station: station, Cause: cause})
}

// observeFault tells of a fault.
func (s *Sim) observeFault(station int, f Fault, set sim.Cycles, seen bool) {
	if s.observer != nil {
		s.tellFault(FaultOccurs, station, f, set, seen)
	}
}

// observeFalseCall tells of a false call.
func (s *Sim) observeFalseCall(station int, set sim.Cycles) {
	if s.observer != nil {
		s.tellFault(FalselyCalled, station, 0, set, false)
	}
}

//go:noinline
func (s *Sim) tellFault(kind EventKind, station int, f Fault, set sim.Cycles, seen bool) {
	s.tell(Event{Kind: kind, Station: station, Fault: f, Set: set, Seen: seen})
}

// tellBegins tells that a pass begins.
//
//go:noinline
func (s *Sim) tellBegins() {
	e := Event{Kind: PassBegins}
	if s.jobs != nil {
		e.N, e.Until = int64(s.track.last), s.jobs.setup
	}
	s.tell(e)
	s.tellLevels()
}

// tellLevels tells of stocks that do not begin full.
func (s *Sim) tellLevels() {
	for _, k := range s.stocks {
		if left := k.left(s.clocks.Cycle()); left != k.spec.Capacity && k.spec.Capacity > 0 {
			s.tellPlain(StockLevel, k.empty.station, left)
		}
	}
}

// tell completes an event that happens now, and tells of it.
func (s *Sim) tell(e Event) {
	e.At, e.Cycle = s.clocks.Shop.Now(), s.clocks.Cycle()
	s.observer(e)
}

// tellCondemned tells of a set that is sent to its gate.
//
//go:noinline
func (s *Sim) tellCondemned(o *odd, by int) {
	s.tell(Event{Kind: SetCondemned, Station: by, Set: o.set, Gate: o.gate, Fault: o.fault, Blamed: o.blame})
}

// observeStood tells of a stretch for which the line stood.
func (s *Sim) observeStood(p *stop, phase Phase, from, to sim.Seconds) {
	if s.observer != nil && to > from {
		s.tellStood(p, phase, from, to)
	}
}

//go:noinline
func (s *Sim) tellStood(p *stop, phase Phase, from, to sim.Seconds) {
	s.observer(Event{Kind: Stood, Station: p.station, Cause: p.cause, Phase: phase, At: from, Until: to, Cycle: s.clocks.Cycle()})
}

// observeBreak tells of a stretch for which the line stood for a break.
func (s *Sim) observeBreak(from, to sim.Seconds) {
	if s.observer != nil && to > from {
		s.observer(Event{Kind: StoodForBreak, At: from, Until: to, Cycle: s.clocks.Cycle()})
	}
}

// tellLeaves tells of a set that leaves at a station, or is still there at the end, with the
// stations of which it holds pieces, and of what is unusual in these.
func (s *Sim) tellLeaves(o *odd, f Fate, station int) {
	t := &s.track
	e := Event{
		Kind: SetLeaves, Station: station, At: s.clocks.Shop.Now(), Cycle: s.clocks.Cycle(), Set: o.set,
		Fate: f, Fault: o.fault, Blamed: o.blame, Holds: t.decide(o, upTo(station)),
	}
	switch f {
	case OnLine:
		e.Fault, e.Blamed = 0, -1
	case t.gates[station]: // else something was done with it just now
		e.Cycle = o.set + t.at[station]
		fallthrough
	default:
		e.N = t.lanes.remakes(o, station)
	}
	s.observer(e)
	for holds := e.Holds; holds != 0; holds &= holds - 1 {
		s.tellHeld(o, bits.TrailingZeros64(holds), e)
	}
}

// decide returns the stations of which a set that has passed the given ones holds pieces. It
// decides on those that feed only some sets, and notes it.
func (t *track) decide(o *odd, passed uint64) uint64 {
	fed := t.feeding & passed &^ (o.passedOver() &^ o.noted)
	for open := fed &^ t.every &^ o.noted; open != 0; open &= open - 1 {
		k := bits.TrailingZeros64(open)
		o.fed(k, t.hoppers[k].holdsSet(o.set))
	}
	for noted := fed & o.noted; noted != 0; noted &= noted - 1 {
		if k := bits.TrailingZeros64(noted); o.pieces[k] == 0 {
			fed &^= 1 << k
		}
	}
	return fed
}

// tellHeld tells of what a set holds of a station, if that is unusual.
func (s *Sim) tellHeld(o *odd, station int, left Event) {
	e := Event{Kind: SetHeld, Station: station, At: left.At, Cycle: left.Cycle, Set: o.set, N: 1}
	if o.noted>>station&1 != 0 {
		e.N = int64(o.pieces[station])
	}
	mixed := false
	if n := slices.Index(s.track.lanes.stations, station); n >= 0 {
		e.Ahead, mixed = int64(o.off[n]), o.mixed>>n&1 != 0
		if s.track.lanes.only != nil && s.track.lanes.only[n] != nil {
			e.Ahead = int64(s.track.lanes.person(o, n) - o.set)
		}
	}
	if e.N != 1 || e.Ahead != 0 || mixed {
		s.observer(e)
	}
}

// tellTaken tells of the piece of a set that had left, taken out of a lane.
func (s *Sim) tellTaken(o *odd, station int) {
	remakes := int64(0)
	if station == s.track.lanes.alone {
		remakes = 1
	}
	s.observer(Event{
		Kind: PieceTaken, Station: station, At: s.clocks.Shop.Now(), Cycle: o.set + s.track.at[station], Set: o.set,
		Fate: o.fate, Fault: o.fault, Blamed: o.blame, N: remakes,
	})
}
