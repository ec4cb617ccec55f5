package sim

import "math"

// Floor runs several machines by one shop clock, with something that they share, such as a
// pool of servers on the calendar Shop. Machines are run in the order of time; of one
// moment, cycles are completed first, machine by machine in their order, then the timers
// of their own calendars run, and those of Shop last.
type Floor struct {
	Shop     Alarms
	Machines []*Clocks
}

// Run runs all machines up to and including the shop time until, and leaves all calendars
// of seconds there. The machines must stand at the time of Shop.
func (f *Floor) Run(until Seconds) {
	for {
		at, m, cycle := f.next()
		if at > until {
			break
		}
		f.moveTo(at)
		switch {
		case m == nil:
			f.Shop.Step()
		case cycle:
			m.endCycle(m.Track.least())
		default:
			m.events++
			m.Shop.Step()
		}
	}
	f.moveTo(until)
}

// next returns what is next and when: a cycle of a machine in which something is due, a
// timer of its own calendar, or if there is no machine one of Shop.
func (f *Floor) next() (at Seconds, m *Clocks, cycle bool) {
	at = Seconds(math.Inf(1))
	for _, c := range f.Machines {
		if end, ok := c.nextEnd(); ok && end < at {
			at, m, cycle = end, c, true
		}
	}
	for _, c := range f.Machines {
		if timer, ok := c.Shop.Next(); ok && timer < at {
			at, m, cycle = timer, c, false
		}
	}
	if timer, ok := f.Shop.Next(); ok && timer < at {
		at, m, cycle = timer, nil, false
	}
	return at, m, cycle
}

// moveTo moves all calendars to a time before which nothing is due.
func (f *Floor) moveTo(at Seconds) {
	f.Shop.now = at
	for _, c := range f.Machines {
		c.toShop(at)
	}
}

// nextEnd returns when the next cycle ends in which something is due: now, if that is the
// present one.
func (c *Clocks) nextEnd() (at Seconds, ok bool) {
	cycle, due := c.Track.Next()
	switch {
	case !due:
		return 0, false
	case cycle <= c.Track.Now():
		return c.Shop.Now(), true
	case !c.running:
		return 0, false
	}
	return max(c.Ends(cycle), c.Shop.Now()), true
}
