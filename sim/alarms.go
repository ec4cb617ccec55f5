package sim

import (
	"fmt"
	"math"
	"slices"
)

// Alarms is an event list of few timers, in seconds: those that are set stand in the order in
// which they were set. Setting and stopping one costs a look at all that are set, of which a
// line has a handful. The zero Alarms is empty and stands at time 0.
type Alarms struct {
	now  Seconds
	soon Seconds // of the soonest; +Inf for none
	set  []*Alarm
}

// Alarm is a timer of alarms, made once, then set and stopped at will.
type Alarm struct {
	all *Alarms
	do  func()
	at  Seconds
	on  bool
}

// Timer returns a new timer, not yet set, that calls do whenever it falls due.
func (a *Alarms) Timer(do func()) *Alarm {
	if len(a.set) == 0 {
		a.soon = Seconds(math.Inf(1)) // also of alarms never reset
	}
	return &Alarm{all: a, do: do}
}

// Now returns the time.
func (a *Alarms) Now() Seconds { return a.now }

// Next returns the time of the soonest timer; ok is false when none is set.
func (a *Alarms) Next() (at Seconds, ok bool) { return a.soon, len(a.set) > 0 }

// Reset stops all timers and goes back to 0.
func (a *Alarms) Reset() {
	for _, t := range a.set {
		t.on = false
	}
	a.set, a.now, a.soon = a.set[:0], 0, Seconds(math.Inf(1))
}

// Step moves to the soonest timer, takes it off and calls what it was set for; of one moment,
// the one that was set first. It panics when none is set.
func (a *Alarms) Step() {
	for i, t := range a.set {
		if t.at == a.soon {
			a.now = t.at
			a.takeOff(i)
			t.do()
			return
		}
	}
	panic("sim: a step with no timer set")
}

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
	if a.set = append(a.set, t); at < a.soon {
		a.soon = at
	}
}

// Stop takes the timer off; it does nothing if the timer is not set.
func (t *Alarm) Stop() {
	if t.on {
		t.all.takeOff(slices.Index(t.all.set, t))
	}
}

// takeOff takes off what was set as number i of those that are set.
func (a *Alarms) takeOff(i int) {
	a.set[i].on = false
	last := len(a.set) - 1
	for ; i < last; i++ {
		a.set[i] = a.set[i+1]
	}
	soon := Seconds(math.Inf(1))
	for _, t := range a.set[:last] {
		if t.at < soon {
			soon = t.at
		}
	}
	a.set, a.soon = a.set[:last], soon
}

// At returns when the timer falls due; ok is false when it is not set.
func (t *Alarm) At() (at Seconds, ok bool) { return t.at, t.on }

// AdvanceTo moves to time at without running anything. It panics if that has passed, if a
// timer is due before it, or if it is NaN.
func (a *Alarms) AdvanceTo(at Seconds) {
	if !(at >= a.now) || len(a.set) > 0 && a.soon < at {
		panic(fmt.Sprintf("sim: AdvanceTo(%v) at time %v with %d timers set", at, a.now, len(a.set)))
	}
	a.now = at
}
