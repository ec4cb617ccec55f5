package model

import "netrate/sim"

// TrackGate takes condemned sets off the track, before insertion.
type TrackGate struct {
	Place
	Bin Stock
}

// ExitGate takes finished envelopes out, after insertion.
type ExitGate struct {
	Place
	Bin Stock
}

func (g *TrackGate) levers(all *levers) { all.stock("bin.empty", &g.Bin) }
func (g *ExitGate) levers(all *levers)  { all.stock("bin.empty", &g.Bin) }

func (g *TrackGate) clone() Station { c := *g; return &c }
func (g *ExitGate) clone() Station  { c := *g; return &c }

func (g *TrackGate) check(_ *Line, c *checks) { c.stock(g.Bin, "bin", true) }
func (g *ExitGate) check(_ *Line, c *checks)  { c.stock(g.Bin, "bin", true) }

func (g *TrackGate) install(s *Sim, index int) unit { return newGate(s, index, g.Bin) }
func (g *ExitGate) install(s *Sim, index int) unit  { return newGate(s, index, g.Bin) }

// way is how a condemned set leaves the line.
type way struct {
	gate int    // the station at which it does; 0 if it cannot
	skip uint64 // the stations that it is no business of any more
}

// ways returns how a set condemned at station i would leave, for each response.
func (l *Line) ways(i int) [Ship]way {
	var w [Ship]way
	for k := i + 1; k < len(l.Stations); k++ {
		bit := uint64(1) << k
		if streamOf(l.Stations[k]).Name != "" {
			continue // a lane gives every set its piece
		}
		switch l.Stations[k].(type) {
		case *TrackGate:
			if w[Divert].gate == 0 {
				w[Divert].gate = k
				continue
			}
		case *ExitGate:
			if w[Outsort].gate == 0 {
				w[Outsort].gate = k
			}
		case *Feeder, *Reader, *Delivery:
			w[Outsort].skip |= bit
		}
		w[Divert].skip |= bit
	}
	if w[Divert].gate == 0 {
		w[Divert] = w[Outsort] // past the last track gate
	}
	return w
}

// condemn sends an odd set on its way to a gate, if there is one and it is not on its way to
// one already.
func (s *Sim) condemn(o *odd, w way) {
	if w.gate == 0 || s.track.condemned(o) {
		return
	}
	o.gate = w.gate
	s.track.skip(o, w.skip)
	s.units[w.gate].(*gate).expect(o.set)
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

func newGate(s *Sim, index int, bin Stock) *gate {
	g := &gate{s: s, index: index, at: s.track.at[index]}
	g.next = s.clocks.Track.Timer(g.take)
	g.bin.install(s, index, bin, 1, func(sim.Cycles) int64 { return g.binned })
	g.bin.told = true
	return g
}

func (g *gate) begin() {
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

func (g *gate) end(_ sim.Cycles, out *StationOutcome) {
	out.Removed = g.s.track.removed[g.index]
	out.Stock = g.bin.task.Account()
}
