package sim

import (
	"fmt"
	"math"
)

// Alarms is a calendar of few timers, in seconds: those that are set stand in the order in
// which they were set.
type Alarms struct {
	now  Seconds
	soon Seconds // of the soonest; +Inf for none
	set  []*Alarm
}

// Alarm is a timer of alarms.
type Alarm struct {
	all *Alarms
	do  func()
	at  Seconds
	on  bool
}

// Timer returns a new timer, not yet set.
func (a *Alarms) Timer(do func()) *Alarm {
	if len(a.set) == 0 {
		a.soon = Seconds(math.Inf(1)) // also of alarms never reset
	}
	return &Alarm{all: a, do: do}
}

// Now returns the time.
func (a *Alarms) Now() Seconds { return a.now }

// Next returns the time of the soonest timer.
func (a *Alarms) Next() (Seconds, bool) { return a.soon, len(a.set) > 0 }

// Reset stops all timers and goes back to 0.
func (a *Alarms) Reset() {
	for _, t := range a.set {
		t.on = false
	}
	a.set, a.now, a.soon = a.set[:0], 0, Seconds(math.Inf(1))
}

// Step runs the soonest timer; of one moment, the one that was set first.
func (a *Alarms) Step() {
	for _, t := range a.set {
		if t.at == a.soon {
			a.now = t.at
			t.Stop()
			t.do()
			return
		}
	}
}

// Set sets the timer, wherever it stood before.
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

// Stop takes the timer off.
func (t *Alarm) Stop() {
	if !t.on {
		return
	}
	t.on = false
	a, n := t.all, 0
	a.soon = Seconds(math.Inf(1))
	for _, u := range a.set {
		if u != t {
			a.set[n] = u
			n++
			a.soon = min(a.soon, u.at)
		}
	}
	a.set = a.set[:n]
}

// AdvanceTo moves to time at without running anything.
func (a *Alarms) AdvanceTo(at Seconds) {
	if !(at >= a.now) || len(a.set) > 0 && a.soon < at {
		panic(fmt.Sprintf("sim: AdvanceTo(%v) at time %v with %d timers set", at, a.now, len(a.set)))
	}
	a.now = at
}
