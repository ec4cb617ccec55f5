package model

import (
	"math"

	"netrate/sim"
)

// Slow is when the line runs slower than its speed. The zero Slow is never.
type Slow struct {
	Starting Slowly   // after each start
	AfterJam Slowly   // after a standstill with a jam
	Repeated Repeated // after several stops in a short time
	Stopping Slowly   // before it stands: what these cycles take beyond others passes until it is at rest
}

// Slowly is some cycles at a share of the speed.
type Slowly struct {
	Cycles float64 // the first after a start, or the last before a stop, rounded, one at least; 0 for none
	Share  float64 // of the speed of the line
}

// Repeated is what the crew does about repeated stops: it lets the line run slower until it has
// run for some time without standing still.
type Repeated struct {
	Stops  int         // for faults; 0 if nobody does so
	Within sim.Seconds // in this time
	Share  float64     // of the speed of the line, to which it is lowered
	For    sim.Seconds // without standing still, after which the line runs at its speed again
	Refill bool        // or sooner: when the hopper is filled of the station that made the crew do so
}

// Given reports whether the line is ever slower than its speed.
func (s *Slow) Given() bool { return *s != Slow{} }

// cycles returns how many cycles are slow.
func (s Slowly) cycles() sim.Cycles {
	if s.Cycles == 0 {
		return 0
	}
	return max(1, sim.Cycles(math.Round(s.Cycles)))
}

// costs returns how much longer some slow cycles take than others.
func (s Slowly) costs(cycle sim.Seconds) sim.Seconds {
	if s.Cycles == 0 {
		return 0
	}
	return sim.Seconds(s.cycles()) * cycle * sim.Seconds(1/s.Share-1)
}

// Starts returns how much longer the cycles after a start take, in the mean, if the line runs
// through them.
func (l *Line) Starts() sim.Seconds { return l.Slow.Starting.costs(sim.Seconds(3600 / l.RunSpeed())) }

// LeastShare is the slowest that a line can be said to run, as a share of its speed.
const LeastShare = 0.01

// mostSlow is how many slow cycles there can be in a row.
const mostSlow = 1_000_000

// checkSlow notes what cannot be of slow cycles.
func (l *Line) checkSlow(c *Checks) {
	for _, x := range []struct {
		Slowly
		field string
	}{{l.Slow.Starting, "line.slow.starting"}, {l.Slow.AfterJam, "line.slow.after_jam"}, {l.Slow.Stopping, "line.slow.stopping"}} {
		if x.Slowly == (Slowly{}) {
			continue
		}
		c.Require(x.Cycles > 0 && x.Cycles <= mostSlow, x.field+".cycles", "%v cycles are slow, want more than 0, at most %d", x.Cycles, mostSlow)
		c.share(x.Share, x.field+".at")
	}
	if r := l.Slow.Repeated; r != (Repeated{}) {
		const field = "line.slow.repeated"
		c.Require(r.Stops >= 1 && r.Stops <= mostStops, field+".stops", "the line is slowed down after %d stops, want from 1 to %d", r.Stops, mostStops)
		c.Require(r.Within > 0 && !math.IsInf(float64(r.Within), 0), field+".within", "the stops come within %v s, want more than 0", float64(r.Within))
		c.Require(r.For > 0 && !math.IsInf(float64(r.For), 0), field+".for", "the line runs slower for %v s, want more than 0", float64(r.For))
		c.share(r.Share, field+".at")
	}
}

// slowNumbers lists the numbers of slow cycles.
func (v *Parameters) slowNumbers(s *Slow) {
	each := func(name string, x *Slowly) {
		if x.Cycles > 0 {
			v.Beside(name+".cycles", &x.Cycles, false)
			v.Beside(name+".at", &x.Share, true)
		}
	}
	each("line.slow.starting", &s.Starting)
	each("line.slow.after_jam", &s.AfterJam)
	each("line.slow.stopping", &s.Stopping)
	if r := &s.Repeated; r.Stops > 0 {
		v.Beside("line.slow.repeated.within", (*float64)(&r.Within), false)
		v.Beside("line.slow.repeated.at", &r.Share, true)
		v.Beside("line.slow.repeated.for", (*float64)(&r.For), false)
	}
}

// mostStops is how many stops a crew can be said to remember.
const mostStops = 100

func (c *Checks) share(x float64, field string) {
	c.Require(x >= LeastShare && x <= 1, field, "the line runs at %v of its speed, want a share from %v to 1", x, LeastShare)
}

// SlowTime is what slow cycles took beyond others, a part of the running time.
type SlowTime struct {
	Starting sim.Seconds
	AfterJam sim.Seconds
	Repeated sim.Seconds
}

// Total returns all of it.
func (t SlowTime) Total() sim.Seconds { return t.Starting + t.AfterJam + t.Repeated }

// Add adds that of another replication.
func (t *SlowTime) Add(b SlowTime) {
	t.Starting += b.Starting
	t.AfterJam += b.AfterJam
	t.Repeated += b.Repeated
}

func (t *SlowTime) since(a SlowTime) {
	t.Starting -= a.Starting
	t.AfterJam -= a.AfterJam
	t.Repeated -= a.Repeated
}
