package sim

import (
	"fmt"
	"slices"
)

// A key says when a slot is due: the cycle, then the order in which keys were set, then the
// slot. The least of all is what is next; of one cycle, what was set first.
const (
	slotBits  = 10
	orderBits = 21
	cycleAt   = slotBits + orderBits
	mostSlots = 1 << slotBits
	lastOrder = 1<<orderBits - 1
	// lastCycle stands for never: a later one does not fit into a key. It is beyond any run,
	// a hundred thousand hours at 20,000 cycles an hour.
	lastCycle = 1<<(62-cycleAt) - 1
	// unset is the key of a timer that is not set, as is all beyond it. It is of no timer.
	unset = (lastCycle+1)<<cycleAt | (mostSlots - 1)
)

// Agenda is an event list of few timers, in cycles. It looks at all of them to find what is
// next, by the least of some integers, which takes no branches: for the few dozen timers of a
// line that is faster than any heap. The zero Agenda is empty and stands at cycle 0.
//
// It takes up to 1024 timers that are ever set, and panics at the next one.
type Agenda struct {
	now    Cycles
	order  int64       // of the key set last; it may start over within a run
	lately int64       // the least of the keys that were set since the last look at all of them
	keys   []*[8]int64 // of the slots, and of some more up to a multiple of eight
	slots  []*Slot     // that were ever set; nil where none stands
	sorted []int64     // to renumber in
	row    uint64      // the slots that are put off together, a bit each
	rows   []*[8]int64 // the keys of these, and of some more
}

// Slot is a timer of an agenda, made once, then set and stopped at will.
type Slot struct {
	agenda *Agenda
	do     func()
	number int64  // its place among the keys
	key    *int64 // there; nil until it is first set
}

// Timer returns a new timer, not yet set, that calls do whenever it falls due.
func (a *Agenda) Timer(do func()) *Slot {
	return &Slot{agenda: a, do: do}
}

// Now returns the cycle at which the agenda stands.
func (a *Agenda) Now() Cycles { return a.now }

// least returns the key of what is next, unset for nothing. The compiler must make it of
// conditional moves: TestLeastHasNoBranches shows if it no longer does. It would not where it
// knew that the key says where to look for a timer, hence the line below.
//
//go:noinline
func (a *Agenda) least() int64 {
	m := int64(unset)
	a.lately = m
	for _, k := range a.keys {
		m = min(m, min(min(min(k[0], k[1]), min(k[2], k[3])), min(min(k[4], k[5]), min(k[6], k[7]))))
	}
	return m
}

// Next returns the cycle of the soonest timer; ok is false when none is set.
func (a *Agenda) Next() (Cycles, bool) {
	m := a.least()
	return Cycles(m >> cycleAt), m < unset
}

// next returns what least does, where that returned key before some timers were set, stopped or put
// off: mostly by a look at two of them.
func (a *Agenda) next(key int64) int64 {
	key = min(key, a.lately)
	if slot := key & (mostSlots - 1); slot < int64(len(a.slots)) && *a.slots[slot].key == key {
		return key // nothing else was sooner, nor has become so
	}
	return a.least()
}

// take moves to the cycle of the key, takes its timer off and returns what it was set for.
func (a *Agenda) take(key int64) func() {
	s := a.slots[key&(mostSlots-1)]
	a.now = Cycles(key >> cycleAt)
	*s.key = unset
	return s.do
}

// follow returns the order of the next key.
func (a *Agenda) follow() int64 {
	if a.order == lastOrder {
		a.startOver()
	}
	a.order++
	return a.order
}

// startOver numbers the keys that are set anew where the numbers have run out, each as before
// behind those of its cycle that were set before it.
func (a *Agenda) startOver() {
	a.sorted = a.sorted[:0]
	for _, k := range a.keys {
		for _, key := range k {
			if key < unset {
				a.sorted = append(a.sorted, key)
			}
		}
	}
	slices.Sort(a.sorted)
	for i, key := range a.sorted {
		slot := key & (mostSlots - 1)
		*a.slots[slot].key = key>>cycleAt<<cycleAt | int64(i)<<slotBits | slot
	}
	a.order = int64(len(a.sorted)) - 1
	a.lately = -1 // less than any key: all are to be looked at
}

// Wrap lets each timer that was ever set call what wrap returns of what it called, for one who
// counts what is done.
func (a *Agenda) Wrap(wrap func(do func()) func()) {
	for _, s := range a.slots {
		if s != nil {
			s.do = wrap(s.do)
		}
	}
}

// Reset stops all timers and goes back to 0. The timers made stay good.
func (a *Agenda) Reset() {
	for _, k := range a.keys {
		*k = [8]int64{unset, unset, unset, unset, unset, unset, unset, unset}
	}
	a.now, a.order = 0, 0
}

// Set sets the timer to fall due at the end of a cycle, wherever it stood before; of the
// timers of one cycle it is then the last. It panics if the cycle has passed. A cycle from
// 2³¹ − 1 on counts as never.
func (s *Slot) Set(at Cycles) {
	a := s.agenda
	if at < a.now {
		panic(fmt.Sprintf("sim: timer set for %v at time %v", at, a.now))
	}
	if s.key == nil {
		s.enter()
	}
	key := int64(min(at, lastCycle))<<cycleAt | a.follow()<<slotBits | s.number
	*s.key, a.lately = key, min(a.lately, key)
}

// enter gives a timer that is set for the first time its place, the first that is free.
func (s *Slot) enter() {
	n := slices.Index(s.agenda.slots, nil)
	if n < 0 {
		n = len(s.agenda.slots)
	}
	s.enterAt(n)
}

func (s *Slot) enterAt(n int) {
	a := s.agenda
	if n >= mostSlots {
		panic(fmt.Sprintf("sim: more than %d timers", mostSlots))
	}
	for len(a.slots) <= n {
		if len(a.slots)%8 == 0 {
			a.keys = append(a.keys, &[8]int64{unset, unset, unset, unset, unset, unset, unset, unset})
			a.sorted = slices.Grow(a.sorted[:0], 8*len(a.keys)) // so that no run allocates
		}
		a.slots = append(a.slots, nil)
	}
	s.number, s.key, a.slots[n] = int64(n), &a.keys[n/8][n%8], s
}

// Stop takes the timer off; it does nothing if the timer is not set.
func (s *Slot) Stop() {
	if s.key != nil {
		*s.key = unset
	}
}

// At returns when the timer falls due; ok is false when it is not set.
func (s *Slot) At() (at Cycles, ok bool) {
	if s.key == nil {
		return 0, false
	}
	k := *s.key
	return Cycles(k >> cycleAt), k < unset
}
