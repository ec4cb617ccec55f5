package sim

import "fmt"

// Seconds is time on the shop clock.
type Seconds float64

// Cycles is time on a track clock: machine cycles completed. It moves only while
// the machine runs.
type Cycles int64

// Calendar holds timers and runs what they are set for, in order of time and,
// within one instant, in the order in which they were set. The zero Calendar is
// empty and stands at time 0.
//
// Setting and stopping a timer costs O(log n) for n timers set, and allocates
// nothing.
type Calendar[T interface{ ~int64 | ~float64 }] struct {
	now  T
	sets uint64      // timers set so far: the tie-breaker
	heap []*Timer[T] // binary heap, soonest first
}

// Timer is one entry of a calendar, made once, then set and stopped at will.
type Timer[T interface{ ~int64 | ~float64 }] struct {
	calendar *Calendar[T]
	do       func()
	at       T
	order    uint64
	index    int  // place in the heap plus one; 0 when not in it
	fired    bool // running now: still on top of the heap, but no longer set
}

// Timer returns a new timer of the calendar, not yet set, that calls do whenever
// it falls due.
func (c *Calendar[T]) Timer(do func()) *Timer[T] {
	return &Timer[T]{calendar: c, do: do}
}

// Now returns the time of the calendar.
func (c *Calendar[T]) Now() T { return c.now }

// Next returns the time of the soonest timer; ok is false when none is set.
func (c *Calendar[T]) Next() (at T, ok bool) {
	switch {
	case len(c.heap) == 0:
		return 0, false
	case !c.heap[0].fired:
		return c.heap[0].at, true
	}
	for _, t := range c.heap[1:min(3, len(c.heap))] {
		if !ok || t.at < at {
			at, ok = t.at, true
		}
	}
	return at, ok
}

// Step moves the calendar to its soonest timer, takes that timer off and calls
// what it was set for. It panics when no timer is set.
//
// Most timers set themselves again when they run. The timer therefore stays on top of
// the heap meanwhile and moves down once, rather than out and in.
func (c *Calendar[T]) Step() {
	t := c.heap[0]
	c.now = t.at
	t.fired = true
	t.do()
	if t.fired {
		t.Stop()
	}
}

// AdvanceTo moves the calendar to time at without running anything. It panics if
// at lies in the past, if a timer is due before at, or if at is NaN.
func (c *Calendar[T]) AdvanceTo(at T) {
	if due, ok := c.Next(); !(at >= c.now) || (ok && due < at) {
		panic(fmt.Sprintf("sim: AdvanceTo(%v) at time %v with %d timers set", at, c.now, len(c.heap)))
	}
	c.now = at
}

// Reset stops every timer and puts the calendar back to time 0. The timers made
// stay good.
func (c *Calendar[T]) Reset() {
	for _, t := range c.heap {
		t.index, t.fired = 0, false
	}
	c.heap = c.heap[:0]
	c.now, c.sets = 0, 0
}

// Set sets the timer to fall due at time at, wherever it stood before. Among the
// timers of one instant it is then the last. It panics if at lies in the past or
// is NaN.
func (t *Timer[T]) Set(at T) {
	c := t.calendar
	if !(at >= c.now) {
		panic(fmt.Sprintf("sim: timer set for %v at time %v", at, c.now))
	}
	c.sets++
	t.at, t.order, t.fired = at, c.sets, false
	if t.index == 0 {
		c.heap = append(c.heap, t)
		t.index = len(c.heap)
		c.up(t)
		return
	}
	c.up(t)
	c.down(t)
}

// Stop takes the timer off the calendar; it does nothing if the timer is not set.
func (t *Timer[T]) Stop() {
	if t.index != 0 {
		t.fired = false
		t.calendar.remove(t)
	}
}

// At returns when the timer falls due; ok is false when it is not set.
func (t *Timer[T]) At() (at T, ok bool) { return t.at, t.index != 0 && !t.fired }

func (t *Timer[T]) before(u *Timer[T]) bool {
	return t.at < u.at || (t.at == u.at && t.order < u.order)
}

func (c *Calendar[T]) remove(t *Timer[T]) {
	last := c.heap[len(c.heap)-1]
	c.heap = c.heap[:len(c.heap)-1]
	if last != t {
		last.index = t.index
		c.heap[last.index-1] = last
		c.up(last)
		c.down(last)
	}
	t.index = 0
}

// up moves t towards the top of the heap until its parent is sooner.
func (c *Calendar[T]) up(t *Timer[T]) {
	i := t.index - 1
	for i > 0 {
		parent := c.heap[(i-1)/2]
		if !t.before(parent) {
			break
		}
		c.heap[i] = parent
		parent.index = i + 1
		i = (i - 1) / 2
	}
	c.heap[i] = t
	t.index = i + 1
}

// down moves t away from the top of the heap until both its children are later.
func (c *Calendar[T]) down(t *Timer[T]) {
	i := t.index - 1
	for {
		child := 2*i + 1
		if child >= len(c.heap) {
			break
		}
		if child+1 < len(c.heap) && c.heap[child+1].before(c.heap[child]) {
			child++
		}
		if !c.heap[child].before(t) {
			break
		}
		c.heap[i] = c.heap[child]
		c.heap[i].index = i + 1
		i = child
	}
	c.heap[i] = t
	t.index = i + 1
}
