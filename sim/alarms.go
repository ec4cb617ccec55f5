package sim

import (
	"fmt"
	"math"
	"slices"
)

// Alarms is an event list of few timers, in seconds: those that are set stand in order, the soonest
// last, so that it is taken off without a search. Setting one costs a look at those that are sooner,
// of which a line has a handful. The zero Alarms is empty and stands at time 0.
type Alarms struct {
	made int // timers there are
	now  Seconds
	soon Seconds  // of the soonest; +Inf for none
	set  []*Alarm // of one moment, what was set first stands last; below all stands never
}

// never is a timer that does not fall due, and is changed by nothing.
var never = &Alarm{at: Seconds(math.Inf(1))}

// Alarm is a timer of alarms, made once, then set and stopped at will.
type Alarm struct {
	all *Alarms
	do  func()
	at  Seconds
	on  bool
}

// Timer returns a new timer, not yet set, that calls do whenever it falls due.
func (a *Alarms) Timer(do func()) *Alarm {
	if a.set == nil {
		a.Reset()
	}
	a.made++
	a.set = slices.Grow(a.set, a.made) // so that no run allocates
	return &Alarm{all: a, do: do}
}

// Now returns the time.
func (a *Alarms) Now() Seconds { return a.now }

// Next returns the time of the soonest timer; ok is false when none is set.
func (a *Alarms) Next() (at Seconds, ok bool) { return a.soon, len(a.set) > 1 }

// Reset stops all timers and goes back to 0.
func (a *Alarms) Reset() {
	for i := 1; i < len(a.set); i++ {
		a.set[i].on = false
	}
	a.set, a.now, a.soon = append(a.set[:0], never), 0, never.at
}

// Step moves to the soonest timer, takes it off and calls what it was set for; of one moment,
// the one that was set first. It panics when none is set.
func (a *Alarms) Step() {
	last := len(a.set) - 1
	if last < 1 {
		panic("sim: a step with no timer set")
	}
	t := a.set[last]
	a.now, t.on = t.at, false
	a.shorten(last)
	t.do()
}

// shorten leaves the first n of those that are set.
func (a *Alarms) shorten(n int) { a.set, a.soon = a.set[:n], a.set[n-1].at }

// Set sets the timer to fall due at a time, wherever it stood before; of the timers of one
// moment it is then the last. It panics if the time has passed or is NaN.
func (t *Alarm) Set(at Seconds) {
	a := t.all
	if !(at >= a.now) {
		panic(fmt.Sprintf("sim: timer set for %v at time %v", at, a.now))
	}
	if t.on {
		t.Stop()
	}
	t.at, t.on = at, true
	i := len(a.set)
	a.set, a.soon = a.set[:i+1], min(a.soon, at)
	for ; i > 1 && a.set[i-1].at <= at; i-- {
		a.set[i] = a.set[i-1]
	}
	a.set[i] = t
}

// Stop takes the timer off; it does nothing if the timer is not set.
func (t *Alarm) Stop() {
	if t.on {
		a, i := t.all, slices.Index(t.all.set, t)
		copy(a.set[i:], a.set[i+1:])
		t.on = false
		a.shorten(len(a.set) - 1)
	}
}

// At returns when the timer falls due; ok is false when it is not set.
func (t *Alarm) At() (at Seconds, ok bool) { return t.at, t.on }

// AdvanceTo moves to time at without running anything. It panics if that has passed, if a
// timer is due before it, or if it is NaN.
func (a *Alarms) AdvanceTo(at Seconds) {
	if !(at >= a.now) || len(a.set) > 1 && a.soon < at {
		panic(fmt.Sprintf("sim: AdvanceTo(%v) at time %v with %d timers set", at, a.now, len(a.set)-1))
	}
	a.now = at
}
