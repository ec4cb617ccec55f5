package model

import "netrate/sim"

// TrackGate takes condemned sets off the track, before insertion.
type TrackGate struct {
	Place
	Faultless
	Bin Stock
}

// ExitGate takes finished envelopes out, after insertion.
type ExitGate struct {
	Place
	Faultless
	Bin Stock
}

// Kind says that it is a track gate.
func (g *TrackGate) Kind() Kind { return Kind{Name: "track gate", Role: Diverts} }

// Kind says that it is an exit gate.
func (g *ExitGate) Kind() Kind { return Kind{Name: "exit gate", Role: Outsorts} }

// Clone returns a copy.
func (g *TrackGate) Clone() Station { c := *g; return &c }

// Clone returns a copy.
func (g *ExitGate) Clone() Station { c := *g; return &c }

// Check notes what is wrong with the gate.
func (g *TrackGate) Check(l *Line, c *Checks) {
	c.Before(l, "feeders and track gates")
	c.Stock(g.Bin, "bin", true)
}

// Check notes what is wrong with the gate.
func (g *ExitGate) Check(l *Line, c *Checks) {
	c.Behind(l, "exit gates")
	c.Stock(g.Bin, "bin", true)
}

// Parameters lists the emptying of the bin.
func (g *TrackGate) Parameters(all *Parameters) { all.Stock("bin.empty", &g.Bin) }

// Parameters lists the emptying of the bin.
func (g *ExitGate) Parameters(all *Parameters) { all.Stock("bin.empty", &g.Bin) }

// Stocked returns the bin.
func (g *TrackGate) Stocked() Stocked { return Stocked{&g.Bin, "bin full", false} }

// Stocked returns the bin.
func (g *ExitGate) Stocked() Stocked { return Stocked{&g.Bin, "bin full", false} }

// Handles says that a set to be outsorted goes through the gate like any other.
func (g *TrackGate) Handles(r Response) bool { return r == Outsort }

// Handles says that it takes a set to be outsorted.
func (g *ExitGate) Handles(r Response) bool { return r == Outsort }

// Install returns the gate in use.
func (g *TrackGate) Install(seat *Seat) Unit { return newGate(seat, g.Bin) }

// Install returns the gate in use.
func (g *ExitGate) Install(seat *Seat) Unit { return newGate(seat, g.Bin) }

// way is how a condemned set leaves the line.
type way struct {
	gate int    // the station at which it does; 0 if it cannot
	skip uint64 // the stations that it does not concern any more
}

// ways returns how a set condemned at station i would leave, for each response.
func (l *Line) ways(i int) [Ship]way {
	var w [Ship]way
	for k := i + 1; k < len(l.Stations); k++ {
		bit := uint64(1) << k
		for r, gate := range [...]Role{Divert: Diverts, Outsort: Outsorts} {
			switch {
			case Response(r) == Stop:
			case l.is(k, gate) && w[r].gate == 0:
				w[r].gate = k
			case !l.Stations[k].Handles(Response(r)):
				w[r].skip |= bit
			}
		}
	}
	if w[Divert].gate == 0 {
		w[Divert] = w[Outsort] // past the last track gate
	}
	return w
}

// condemn sends an odd set on its way to a gate, if there is one and it is not on its way to
// one already. by is the station that has it condemned.
func (s *Sim) condemn(o *odd, by int, w way) {
	if w.gate == 0 || s.track.condemned(o) {
		return
	}
	o.gate = w.gate
	s.track.skip(o, w.skip)
	if s.observer != nil {
		s.tellCondemned(o, by)
	}
	if g := s.gates[w.gate]; g != nil {
		g.expect(o.set)
	}
}

// gate is a gate in use, of either kind. The track knows which sets leave at it; the gate
// itself looks at them one by one only if its bin can fill up.
type gate struct {
	s      *Sim
	index  int
	at     sim.Cycles
	bin    stock
	next   *sim.Slot // when the next condemned set is here
	binned int64
}

func newGate(seat *Seat, bin Stock) *gate {
	s, index := seat.s, seat.index
	g := &gate{s: s, index: index, at: s.track.at[index]}
	g.next = s.clocks.Track.Timer(g.take)
	g.bin.install(s, index, bin, 1, g)
	g.bin.told = true
	s.gates[index] = g
	return g
}

func (g *gate) Begin() {
	g.binned = 0
	g.bin.begin()
}

// expect makes the gate ready for a condemned set.
func (g *gate) expect(set sim.Cycles) {
	if g.bin.spec.Capacity == 0 {
		return
	}
	if at, waiting := g.next.At(); !waiting || set+g.at < at {
		g.next.Set(set + g.at)
	}
}

// take puts the set that is at the gate into the bin, unless a jam has spoiled it on the
// way, and gets ready for the next.
func (g *gate) take() {
	set := g.s.clocks.Track.Now() - g.at
	for k := range g.s.track.odds {
		switch o := &g.s.track.odds[k]; {
		case o.gate != g.index || o.gone:
		case o.set == set:
			g.binned++
			g.bin.look()
		case o.set > set:
			g.expect(o.set)
		}
	}
}

// used returns the sets that were put into the bin.
func (g *gate) used(sim.Cycles) int64 { return g.binned }

func (g *gate) End(cycle sim.Cycles, out *StationOutcome) {
	g.bin.close(cycle)
	out.Removed = g.s.track.removed[g.index]
	out.Stock = g.bin.task.Account()
}
