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
	sets uint64     // timers set so far: the tie-breaker
	heap []entry[T] // binary heap, soonest first
	// running says that the call of the timer on top of the heap is under way. The timer is
	// no longer set then, until it sets itself again.
	running bool
}

// entry is a timer in the heap, with what it is ordered by at hand.
type entry[T interface{ ~int64 | ~float64 }] struct {
	at    T
	order uint64
	timer *Timer[T]
}

// Timer is one entry of a calendar, made once, then set and stopped at will.
type Timer[T interface{ ~int64 | ~float64 }] struct {
	calendar *Calendar[T]
	do       func()
	at       T
	index    int // place in the heap plus one; 0 when not in it
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
	case !c.running:
		return c.heap[0].at, true
	}
	for _, e := range c.heap[1:min(3, len(c.heap))] {
		if !ok || e.at < at {
			at, ok = e.at, true
		}
	}
	return at, ok
}

// first is Next while no call of a timer is under way.
func (c *Calendar[T]) first() (at T, ok bool) {
	if len(c.heap) == 0 {
		return 0, false
	}
	return c.heap[0].at, true
}

// Step moves the calendar to its soonest timer, takes that timer off and calls
// what it was set for. It panics when no timer is set.
//
// Most timers set themselves again when they run. The timer therefore stays on top of
// the heap meanwhile and moves down once, rather than out and in. A call must not call
// Step itself.
func (c *Calendar[T]) Step() {
	t := c.heap[0].timer
	c.now = t.at
	c.running = true
	t.do()
	if t.runs() {
		c.running = false
		c.remove(t)
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
	for _, e := range c.heap {
		e.timer.index = 0
	}
	c.heap = c.heap[:0]
	c.now, c.sets, c.running = 0, 0, false
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
	if t.runs() {
		c.running = false
	}
	t.at = at
	e := entry[T]{at, c.sets, t}
	if t.index == 0 {
		c.heap = append(c.heap, e)
		c.up(len(c.heap)-1, e)
		return
	}
	c.place(t.index-1, e)
}

// Stop takes the timer off the calendar; it does nothing if the timer is not set.
func (t *Timer[T]) Stop() {
	if t.index != 0 {
		if t.runs() {
			t.calendar.running = false
		}
		t.calendar.remove(t)
	}
}

// At returns when the timer falls due; ok is false when it is not set.
func (t *Timer[T]) At() (at T, ok bool) { return t.at, t.index != 0 && !t.runs() }

// runs reports whether the call of the timer is under way and has not set it again. No
// other timer can be sooner meanwhile, so it is on top of the heap.
func (t *Timer[T]) runs() bool { return t.calendar.running && t.index == 1 }

func (e *entry[T]) before(f *entry[T]) bool {
	return e.at < f.at || (e.at == f.at && e.order < f.order)
}

func (c *Calendar[T]) remove(t *Timer[T]) {
	n := len(c.heap) - 1
	last := c.heap[n]
	c.heap = c.heap[:n]
	if last.timer != t {
		c.place(t.index-1, last)
	}
	t.index = 0
}

// place puts e where it belongs, the hole in the heap being at i.
func (c *Calendar[T]) place(i int, e entry[T]) {
	if i > 0 && e.before(&c.heap[(i-1)/2]) {
		c.up(i, e)
	} else {
		c.down(i, e)
	}
}

// up moves the hole at i towards the top of the heap until e can go there.
func (c *Calendar[T]) up(i int, e entry[T]) {
	h := c.heap
	for i > 0 {
		parent := (i - 1) / 2
		if !e.before(&h[parent]) {
			break
		}
		h[i] = h[parent]
		h[i].timer.index = i + 1
		i = parent
	}
	h[i] = e
	e.timer.index = i + 1
}

// down moves the hole at i away from the top of the heap until e can go there.
func (c *Calendar[T]) down(i int, e entry[T]) {
	h := c.heap
	for {
		child := 2*i + 1
		if child >= len(h) {
			break
		}
		if child+1 < len(h) && h[child+1].before(&h[child]) {
			child++
		}
		if !h[child].before(&e) {
			break
		}
		h[i] = h[child]
		h[i].timer.index = i + 1
		i = child
	}
	h[i] = e
	e.timer.index = i + 1
}
