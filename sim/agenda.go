package sim

import (
	"fmt"
	"math"
)

// A key says when a slot is due: the cycle, then the order in which keys were set, then the
// slot. The least of all is what is next; of one cycle, what was set first.
const (
	slotBits  = 8
	orderBits = 23
	cycleAt   = slotBits + orderBits
	lastCycle = 1<<(63-cycleAt) - 1
	unset     = math.MaxInt64
)

// Agenda is a calendar of few timers, in cycles. It looks at all of them to find what is
// next, which takes no branches.
type Agenda struct {
	now   Cycles
	order int64
	keys  [][8]int64
	slots []*Slot
}

// Slot is a timer of an agenda.
type Slot struct {
	agenda *Agenda
	do     func()
	number int
}

// Timer returns a new timer, not yet set.
func (a *Agenda) Timer(do func()) *Slot {
	return &Slot{a, do, -1}
}

// Now returns the cycle at which the agenda stands.
func (a *Agenda) Now() Cycles { return a.now }

func (a *Agenda) least() int64 {
	m := int64(unset)
	for i := range a.keys {
		k := &a.keys[i]
		m = min(m, min(min(min(k[0], k[1]), min(k[2], k[3])), min(min(k[4], k[5]), min(k[6], k[7]))))
	}
	return m
}

// Next returns the cycle of the soonest timer.
func (a *Agenda) Next() (Cycles, bool) {
	m := a.least()
	return Cycles(m >> cycleAt), m != unset
}

// step runs the timer of the key.
func (a *Agenda) step(key int64) {
	s := a.slots[key&(1<<slotBits-1)]
	a.now = Cycles(key >> cycleAt)
	a.keys[s.number>>3][s.number&7] = unset
	s.do()
}

// Reset stops all timers and goes back to 0.
func (a *Agenda) Reset() {
	for i := range a.keys {
		a.keys[i] = [8]int64{unset, unset, unset, unset, unset, unset, unset, unset}
	}
	a.now, a.order = 0, 0
}

// Set sets the timer, wherever it stood before.
func (s *Slot) Set(at Cycles) {
	a := s.agenda
	if at < a.now {
		panic(fmt.Sprintf("sim: timer set for %v at time %v", at, a.now))
	}
	if s.number < 0 { // first set
		s.number = len(a.slots)
		a.slots = append(a.slots, s)
		if s.number%8 == 0 {
			a.keys = append(a.keys, [8]int64{unset, unset, unset, unset, unset, unset, unset, unset})
		}
	}
	a.order++
	a.keys[s.number>>3][s.number&7] = int64(min(at, lastCycle))<<cycleAt | a.order<<slotBits | int64(s.number)
}

// Stop takes the timer off.
func (s *Slot) Stop() {
	if s.number >= 0 {
		s.agenda.order++
		s.agenda.keys[s.number>>3][s.number&7] = unset
	}
}

// At returns when the timer falls due; ok is false when it is not set.
func (s *Slot) At() (Cycles, bool) {
	if s.number < 0 {
		return 0, false
	}
	k := s.agenda.keys[s.number>>3][s.number&7]
	return Cycles(k >> cycleAt), k != unset
}
