package sim

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// list is the plainest calendar there is: entries in the order in which they were
// set. What the heap does must equal what the list does.
type list struct {
	now     Seconds
	entries []plainEntry
}

type plainEntry struct {
	at   Seconds
	name int
}

func (l *list) set(name int, at Seconds) {
	l.stop(name)
	l.entries = append(l.entries, plainEntry{at, name})
	slices.SortStableFunc(l.entries, func(a, b plainEntry) int { return int(a.at - b.at) })
}

func (l *list) stop(name int) {
	l.entries = slices.DeleteFunc(l.entries, func(e plainEntry) bool { return e.name == name })
}

// pair is a calendar and the list that must equal it.
type pair struct {
	calendar  Calendar[Seconds]
	timers    []*Timer[Seconds]
	plain     list
	ran, want []plainEntry
	within    []func(t *rapid.T) // what the next timer does when it runs
	t         *rapid.T
}

func newPair(timers int) *pair {
	p := &pair{}
	for i := range timers {
		p.timers = append(p.timers, p.calendar.Timer(func() {
			p.ran = append(p.ran, plainEntry{p.calendar.Now(), i})
			p.compare(p.t)
			for _, do := range p.within {
				do(p.t)
				p.compare(p.t)
			}
		}))
	}
	return p
}

func (p *pair) set(t *rapid.T) {
	i := rapid.IntRange(0, len(p.timers)-1).Draw(t, "timer")
	ahead := rapid.IntRange(0, 4) // few, so that many fall due at once
	if rapid.Bool().Draw(t, "far") {
		ahead = rapid.IntRange(0, 99) // many, so that the heap is seldom sorted
	}
	at := p.plain.now + Seconds(ahead.Draw(t, "ahead"))
	p.timers[i].Set(at)
	p.plain.set(i, at)
}

func (p *pair) stop(t *rapid.T) {
	i := rapid.IntRange(0, len(p.timers)-1).Draw(t, "timer")
	p.timers[i].Stop()
	p.plain.stop(i)
}

func (p *pair) advance(t *rapid.T) {
	at := p.plain.now + Seconds(rapid.IntRange(0, 4).Draw(t, "ahead"))
	if len(p.plain.entries) > 0 {
		at = min(at, p.plain.entries[0].at)
	}
	p.calendar.AdvanceTo(at)
	p.plain.now = at
}

func (p *pair) reset(t *rapid.T) {
	if rapid.IntRange(0, 9).Draw(t, "seldom") == 0 {
		p.calendar.Reset()
		p.plain = list{}
	}
}

// step runs the soonest timer, which may itself set, move, stop and reset timers.
func (p *pair) step(t *rapid.T) {
	if len(p.plain.entries) == 0 {
		t.Skip("nothing is set")
	}
	do := rapid.SampledFrom([]func(*rapid.T){p.set, p.set, p.stop, p.advance, p.reset})
	p.t, p.within = t, rapid.SliceOfN(do, 0, 4).Draw(t, "within")
	first := p.plain.entries[0]
	p.plain.entries, p.plain.now = p.plain.entries[1:], first.at
	p.want = append(p.want, first)
	p.calendar.Step()
}

// compare checks everything that can be seen of the calendar against the list.
func (p *pair) compare(t *rapid.T) {
	require.Equal(t, p.plain.now, p.calendar.Now())
	require.Equal(t, p.want, p.ran)
	at, ok := p.calendar.Next()
	require.Equal(t, len(p.plain.entries) > 0, ok)
	if ok {
		require.Equal(t, p.plain.entries[0].at, at)
	}
	for i, timer := range p.timers {
		place := slices.IndexFunc(p.plain.entries, func(e plainEntry) bool { return e.name == i })
		at, ok := timer.At()
		require.Equal(t, place >= 0, ok, "timer %d", i)
		if ok {
			require.Equal(t, p.plain.entries[place].at, at, "timer %d", i)
		}
	}
}

func TestCalendarAgainstList(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := newPair(12)
		for range 12 {
			p.set(t)
		}
		t.Repeat(map[string]func(*rapid.T){
			"set": p.set, "set another": p.set, "step": p.step, "step again": p.step,
			"stop": p.stop, "advance": p.advance, "reset": p.reset, "": p.compare,
		})
	})
}

func TestTimersOfOneInstant(t *testing.T) {
	var c Calendar[Seconds]
	var history string
	a := c.Timer(func() { history += "a" })
	b := c.Timer(func() { history += "b" })
	d := c.Timer(func() { history += "d" })
	again := c.Timer(func() { history += "!"; d.Set(c.Now()) })
	a.Set(5)
	b.Set(5)
	again.Set(5)
	a.Set(5) // moved within its instant: now behind the others
	for _, ok := c.Next(); ok; _, ok = c.Next() {
		c.Step()
	}
	assert.Equal(t, "b!ad", history)
	assert.Equal(t, Seconds(5), c.Now())
}

func TestCalendarRefuses(t *testing.T) {
	nan := Seconds(math.NaN())
	for name, call := range map[string]func(c *Calendar[Seconds], timer *Timer[Seconds]){
		"a timer in the past": func(_ *Calendar[Seconds], timer *Timer[Seconds]) { timer.Set(9.9) },
		"a timer at NaN":      func(_ *Calendar[Seconds], timer *Timer[Seconds]) { timer.Set(nan) },
		"moving back":         func(c *Calendar[Seconds], _ *Timer[Seconds]) { c.AdvanceTo(9.9) },
		"moving to NaN":       func(c *Calendar[Seconds], _ *Timer[Seconds]) { c.AdvanceTo(nan) },
		"moving past a timer": func(c *Calendar[Seconds], _ *Timer[Seconds]) { c.AdvanceTo(20.5) },
		"stepping with none set": func(c *Calendar[Seconds], timer *Timer[Seconds]) {
			timer.Stop()
			c.Step()
		},
	} {
		t.Run(name, func(t *testing.T) {
			var c Calendar[Seconds]
			timer := c.Timer(func() {})
			c.AdvanceTo(10)
			timer.Set(20)
			assert.Panics(t, func() { call(&c, timer) })
		})
	}
	t.Run("the bounds themselves are fine", func(t *testing.T) {
		var c Calendar[Seconds]
		timer := c.Timer(func() {})
		c.AdvanceTo(10)
		timer.Set(10)
		c.AdvanceTo(10)
		timer.Set(20)
		c.AdvanceTo(20)
	})
}

// loaded returns a calendar with n timers that set themselves anew for ever.
func loaded(n int) (*Calendar[Seconds], *Stream) {
	var c Calendar[Seconds]
	s := NewStream("calendar", fmt.Sprint(n))
	s.Seed(1, 0)
	for range n {
		var timer *Timer[Seconds]
		timer = c.Timer(func() { timer.Set(c.Now() + Seconds(s.Uniform())) })
		timer.Set(Seconds(s.Uniform()))
	}
	return &c, s
}

func TestCalendarAllocatesNothing(t *testing.T) {
	c, _ := loaded(100)
	spare := c.Timer(func() {})
	assert.Zero(t, testing.AllocsPerRun(10, func() {
		for range 1000 {
			c.Step()
			spare.Stop()
			spare.Set(c.Now() + 1)
			spare.Set(c.Now() + 2)
		}
	}), "a run") // the first run, not counted, may grow the heap by one
}

func BenchmarkCalendar(b *testing.B) {
	for _, n := range []int{10, 100} {
		b.Run(fmt.Sprintf("timers=%d", n), func(b *testing.B) {
			c, _ := loaded(n)
			b.ReportAllocs()
			for b.Loop() {
				c.Step()
			}
		})
	}
}
