package sim

import (
	"fmt"
	"math"
)

// Seconds is time on the shop clock.
type Seconds float64

// Cycles is time on a track clock: machine cycles completed. It moves only while
// the machine runs.
type Cycles int64

// Clocks couples two event lists: Shop, in seconds, always moves; Track, in machine
// cycles, moves only while the machine runs. A halt freezes the timers of Track as
// they stand, and a start carries on from there.
//
// Timers on Track fall due at the end of their cycle. Where a cycle ends at the
// very time of a timer on Shop, the cycle is completed first.
type Clocks struct {
	Shop  Alarms
	Track Agenda

	// AfterCycle, if there is one, is called when all timers due in one cycle have run.
	AfterCycle func()

	cycle   Seconds // length of one cycle
	rate    Seconds // cycles a second, rounded
	running bool
	since   Seconds // when the machine last started
	from    Cycles  // cycles completed by then
	ran     Seconds // running time before the last start
	events  uint64  // timers run since the last reset
	over    bool    // End was called
}

// Reset puts both calendars back to time 0, with the machine at rest and a cycle
// of the given length. It panics unless the length is positive and finite.
func (c *Clocks) Reset(cycle Seconds) {
	if !(cycle > 0) || math.IsInf(float64(cycle), 1) {
		panic(fmt.Sprintf("sim: a cycle of %v seconds", float64(cycle)))
	}
	c.Shop.Reset()
	c.Track.Reset()
	c.cycle, c.running, c.since, c.from, c.ran = cycle, false, 0, 0, 0
	c.events, c.over, c.rate = 0, false, 1/cycle
}

// End ends the run that is under way, now: Run returns when the timers of this cycle, or
// this timer of Shop, have run.
func (c *Clocks) End() { c.over = true }

// Events returns how many timers have run since the last reset.
func (c *Clocks) Events() uint64 { return c.events }

// Running reports whether the machine runs.
func (c *Clocks) Running() bool { return c.running }

// Ran returns how long the machine has run so far.
func (c *Clocks) Ran() Seconds {
	if !c.running {
		return c.ran
	}
	return c.ran + c.Shop.Now() - c.since
}

// Start lets the machine run from now on; it panics if it runs already. The first
// cycle ends one cycle length from now: a machine that was halted within a cycle
// does that cycle over.
func (c *Clocks) Start() {
	if c.running {
		panic("sim: the machine runs already")
	}
	c.running, c.since, c.from = true, c.Shop.Now(), c.Track.Now()
}

// Turn has cycles take another length from now on. A machine that runs must have completed a
// cycle just now. It panics unless the length is positive and finite.
func (c *Clocks) Turn(cycle Seconds) {
	if !(cycle > 0) || math.IsInf(float64(cycle), 1) {
		panic(fmt.Sprintf("sim: a cycle of %v seconds", float64(cycle)))
	}
	if c.running {
		c.ran = c.Ran()
		c.since, c.from = c.Shop.Now(), c.Track.Now()
	}
	c.cycle, c.rate = cycle, 1/cycle
}

// Halt stops the machine now; it panics if it is stopped already. Timers on Track
// that are due in this very cycle still run; later ones wait for the next start.
func (c *Clocks) Halt() {
	if !c.running {
		panic("sim: the machine is stopped already")
	}
	c.ran = c.Ran()
	c.running = false
}

// Cycle returns the number of cycles completed by now.
func (c *Clocks) Cycle() Cycles {
	if !c.running {
		return c.Track.Now()
	}
	done := c.from + Cycles((c.Shop.now-c.since)*c.rate)
	for c.Ends(done) > c.Shop.now { // a step or two: the product was rounded
		done--
	}
	for c.Ends(done+1) <= c.Shop.now {
		done++
	}
	return max(done, c.Track.Now())
}

// Ends returns when the given cycle is completed, if the machine runs on as it does or,
// while it is stopped, as it did.
func (c *Clocks) Ends(cycle Cycles) Seconds { return c.Pace().Ends(cycle) }

// Pace returns when cycles are completed, as [Clocks.Ends] does, for one who asks of many.
func (c *Clocks) Pace() Pace { return Pace{c.since, c.from, c.cycle} }

// Pace is when the cycles of a machine that runs on are completed.
type Pace struct {
	since Seconds
	from  Cycles
	cycle Seconds
}

// Ends returns when the given cycle is completed.
func (p Pace) Ends(cycle Cycles) Seconds {
	return p.since + Seconds(Seconds(cycle-p.from)*p.cycle)
}

// Run runs the timers of both calendars in order of time up to and including the
// shop time until, and leaves both there unless [Clocks.End] ends the run. It panics if until lies in the past, is
// infinite or is NaN.
func (c *Clocks) Run(until Seconds) {
	if !(until >= c.Shop.Now()) || math.IsInf(float64(until), 1) {
		panic(fmt.Sprintf("sim: Run to %v at time %v", float64(until), float64(c.Shop.Now())))
	}
	for key := c.Track.least(); !c.over; key = c.Track.next(key) {
		cycle := Cycles(key >> cycleAt)
		end := c.Ends(cycle)
		if c.running && end <= c.Shop.soon && end <= until || cycle <= c.Track.now {
			if c.Track.now = cycle; end > c.Shop.now {
				c.Shop.now = end
			}
			key = c.endCycle(key)
			continue
		}
		if c.Shop.soon > until {
			break
		}
		c.toShop(c.Shop.soon)
		c.events++
		c.Shop.Step()
	}
	if !c.over {
		c.toShop(until)
	}
}

// endCycle runs the timers that are due in the cycle just completed, and returns the least key there is
// when they have run.
func (c *Clocks) endCycle(key int64) int64 {
	for cycle := key >> cycleAt; key>>cycleAt == cycle; key = c.Track.least() {
		c.events++
		c.Track.take(key)()
	}
	if c.AfterCycle != nil {
		c.AfterCycle()
	}
	return key
}

// toShop moves both calendars to a shop time at which no cycle is due.
func (c *Clocks) toShop(at Seconds) {
	c.Shop.now = at
	if c.running {
		c.Track.now = c.Cycle()
	}
}
