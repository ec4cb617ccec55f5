package model

import (
	"math"
	"slices"

	"netrate/sim"
	"netrate/sim/portable"
)

// Breakdowns are stops of a station that are not for an operator: it breaks down, and a technician
// has to come. The zero value is a station that does not.
type Breakdowns struct {
	Every  sim.Seconds  // mean running time of the line from one to the next; 0 for none
	Comes  sim.Duration // from when a technician is free to when he is there
	Repair sim.Duration
}

// Downtime returns where the breakdowns of the station are kept.
func (p *Place) Downtime() *Breakdowns { return &p.Breakdowns }

// check notes what is wrong with the breakdowns of the station being looked at.
func (b *Breakdowns) check(c *Checks) {
	if b.Every == 0 && b.Comes == nil && b.Repair == nil {
		return
	}
	c.Require(b.Every > 0 && !math.IsInf(float64(b.Every), 0), "breakdowns.every", "it breaks down every %v s, want more than 0", float64(b.Every))
	c.Require(b.Comes != nil, "breakdowns.comes", "its breakdowns have no time for a technician to come: give 0 s if he is there")
	c.Require(b.Repair != nil, "breakdowns.repair", "its breakdowns have no time of repair")
}

// chance returns the probability of a breakdown in each cycle, of so many an hour.
func (b *Breakdowns) chance(speed float64) float64 {
	return -portable.Expm1(-3600 / speed / float64(b.Every))
}

// breakdown is a station's breakdowns in use.
type breakdown struct {
	stop
	s    *Sim
	gap  sim.Gap
	next *sim.Slot
	gaps *sim.Stream
}

// installBreakdowns makes what the stations need that break down, and the technicians unless they
// are shared.
func (s *Sim) installBreakdowns() {
	for i, station := range s.line.Stations {
		b := station.Downtime()
		if b.Every == 0 {
			continue
		}
		if s.technicians == nil {
			s.technicians = newTechnicians(&s.clocks.Shop)
		}
		x := &breakdown{s: s, gaps: s.stream(station.Where().Name, "breakdowns")}
		x.gap = sim.NewGap(b.chance(s.line.RunSpeed()))
		x.next = s.clocks.Track.Timer(x.happens)
		x.station = i
		x.task = s.attended(s.technicians, i, Repair, b.Comes, b.Repair, func() { s.standstill.over(&x.stop) })
		s.breakdowns = append(s.breakdowns, x)
	}
}

// BreaksDown reports whether a station of the line may.
func (l *Line) BreaksDown() bool {
	return slices.ContainsFunc(l.Stations, func(s Station) bool { return s.Downtime().Every > 0 })
}

// newTechnicians returns the technicians of some lines.
func newTechnicians(shop *sim.Alarms) *sim.Pool {
	p := sim.NewPool(shop)
	p.Hold()
	return p
}

// technicians returns how many there are.
func (c *Crew) technicians() int {
	if c.Technicians == 0 {
		return math.MaxInt32 // as many as are needed
	}
	return c.Technicians
}

func (x *breakdown) begin() { x.next.Set(sim.Cycles(x.gap.Draw(x.gaps))) }

// happens stops the line at the end of this cycle.
func (x *breakdown) happens() {
	x.s.standstill.arise(&x.stop, CauseBreakdown)
	x.next.Set(x.s.clocks.Track.Now() + sim.Cycles(x.gap.Draw(x.gaps)))
}
