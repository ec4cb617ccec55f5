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

// list is the plainest event list there is: entries in the order in which they were
// set. What an agenda and alarms do must equal what the list does.
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

// events is what can be done to an agenda and to alarms alike.
type events struct {
	timer func(do func()) timer
	now   func() Seconds
	next  func() (Seconds, bool)
	step  func()
	reset func()
}

type timer struct {
	set  func(at Seconds)
	stop func()
	at   func() (Seconds, bool)
}

func ofAlarms() events {
	a := &Alarms{}
	return events{
		timer: func(do func()) timer {
			t := a.Timer(do)
			return timer{t.Set, t.Stop, t.At}
		},
		now: a.Now, next: a.Next, step: a.Step, reset: a.Reset,
	}
}

// ofAgenda returns an agenda whose orders run out after some more settings.
func ofAgenda(left int64) events {
	a := &Agenda{order: lastOrder - left}
	inSeconds := func(at Cycles, ok bool) (Seconds, bool) {
		if !ok {
			return 0, false
		}
		return Seconds(at), true
	}
	return events{
		timer: func(do func()) timer {
			t := a.Timer(do)
			return timer{
				func(at Seconds) { t.Set(Cycles(at)) }, t.Stop,
				func() (Seconds, bool) { return inSeconds(t.At()) },
			}
		},
		now:   func() Seconds { return Seconds(a.Now()) },
		next:  func() (Seconds, bool) { return inSeconds(a.Next()) },
		step:  func() { a.take(a.least())() },
		reset: func() { a.Reset(); a.order = lastOrder - left },
	}
}

// pair is an event list and the plain one that must equal it.
type pair struct {
	events
	timers    []timer
	plain     list
	ran, want []plainEntry
	within    []func(t *rapid.T) // what the next timer does when it runs
	t         *rapid.T
}

func newPair(e events, timers int) *pair {
	p := &pair{events: e}
	for i := range timers {
		p.timers = append(p.timers, e.timer(func() {
			p.ran = append(p.ran, plainEntry{p.now(), i})
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
		ahead = rapid.IntRange(0, 99)
	}
	at := p.plain.now + Seconds(ahead.Draw(t, "ahead"))
	p.timers[i].set(at)
	p.plain.set(i, at)
}

func (p *pair) halt(t *rapid.T) {
	i := rapid.IntRange(0, len(p.timers)-1).Draw(t, "timer")
	p.timers[i].stop()
	p.plain.stop(i)
}

func (p *pair) startOver(t *rapid.T) {
	if rapid.IntRange(0, 9).Draw(t, "seldom") == 0 {
		p.reset()
		p.plain = list{}
	}
}

// run runs the soonest timer, which may itself set, move, stop and reset timers.
func (p *pair) run(t *rapid.T) {
	if len(p.plain.entries) == 0 {
		t.Skip("nothing is set")
	}
	do := rapid.SampledFrom([]func(*rapid.T){p.set, p.set, p.halt, p.startOver})
	p.t, p.within = t, rapid.SliceOfN(do, 0, 4).Draw(t, "within")
	first := p.plain.entries[0]
	p.plain.entries, p.plain.now = p.plain.entries[1:], first.at
	p.want = append(p.want, first)
	p.step()
}

// compare checks everything that can be seen against the list.
func (p *pair) compare(t *rapid.T) {
	require.Equal(t, p.plain.now, p.now())
	require.Equal(t, p.want, p.ran)
	at, ok := p.next()
	require.Equal(t, len(p.plain.entries) > 0, ok)
	if ok {
		require.Equal(t, p.plain.entries[0].at, at)
	}
	for i, timer := range p.timers {
		place := slices.IndexFunc(p.plain.entries, func(e plainEntry) bool { return e.name == i })
		at, ok := timer.at()
		require.Equal(t, place >= 0, ok, "timer %d", i)
		if ok {
			require.Equal(t, p.plain.entries[place].at, at, "timer %d", i)
		}
	}
}

func TestTimersAgainstList(t *testing.T) {
	for name, list := range map[string]func(t *rapid.T) events{
		"alarms": func(*rapid.T) events { return ofAlarms() },
		"agenda": func(*rapid.T) events { return ofAgenda(lastOrder) },
		"an agenda whose orders run out": func(t *rapid.T) events {
			return ofAgenda(int64(rapid.IntRange(0, 30).Draw(t, "left")))
		},
	} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				p := newPair(list(t), 12)
				for range 12 {
					p.set(t)
				}
				t.Repeat(map[string]func(*rapid.T){
					"set": p.set, "set another": p.set, "run": p.run, "run again": p.run,
					"stop": p.halt, "reset": p.startOver, "": p.compare,
				})
			})
		})
	}
}

// As many timers as there are numbers for, all of one cycle, run in the order in which they
// were set, though the orders run out in between; one more is refused.
func TestAgendaFull(t *testing.T) {
	a := &Agenda{order: lastOrder - mostSlots/2}
	var ran []int
	for i := range mostSlots {
		a.Timer(func() { ran = append(ran, i) }).Set(7)
	}
	assert.PanicsWithValue(t, "sim: more than 1024 timers", func() { a.Timer(func() {}).Set(7) })
	for key := a.least(); key < unset; key = a.least() {
		a.take(key)()
	}
	assert.Len(t, ran, mostSlots)
	assert.True(t, slices.IsSorted(ran))
}

// What is set for later than a key can say counts as never, and is still there.
func TestAgendaNever(t *testing.T) {
	var a Agenda
	never := a.Timer(func() {})
	never.Set(maxGap)
	at, ok := never.At()
	assert.True(t, ok)
	assert.Equal(t, Cycles(1<<31-1), at)
}

func TestTimersRefuse(t *testing.T) {
	nan := Seconds(math.NaN())
	for name, call := range map[string]func(a *Alarms, timer *Alarm){
		"a timer in the past":    func(_ *Alarms, timer *Alarm) { timer.Set(9.9) },
		"a timer at NaN":         func(_ *Alarms, timer *Alarm) { timer.Set(nan) },
		"moving back":            func(a *Alarms, _ *Alarm) { a.AdvanceTo(9.9) },
		"moving to NaN":          func(a *Alarms, _ *Alarm) { a.AdvanceTo(nan) },
		"moving past a timer":    func(a *Alarms, _ *Alarm) { a.AdvanceTo(20.5) },
		"stepping with none set": func(a *Alarms, timer *Alarm) { timer.Stop(); a.Step() },
	} {
		t.Run(name, func(t *testing.T) {
			var a Alarms
			timer := a.Timer(func() {})
			a.AdvanceTo(10)
			timer.Set(20)
			assert.Panics(t, func() { call(&a, timer) })
		})
	}
	t.Run("the bounds themselves are fine", func(t *testing.T) {
		var a Alarms
		timer := a.Timer(func() {})
		a.AdvanceTo(10)
		timer.Set(10)
		a.AdvanceTo(10)
		timer.Set(20)
		a.AdvanceTo(20)
	})
	var a Agenda
	first := a.Timer(func() {})
	first.Set(10)
	a.take(a.least())()
	assert.Panics(t, func() { first.Set(9) }, "a cycle that has passed")
}

// loaded returns an agenda with n timers that set themselves anew for ever.
func loaded(n int) *Agenda {
	var a Agenda
	s := NewStream("agenda", fmt.Sprint(n))
	s.Seed(1, 0)
	for range n {
		var timer *Slot
		timer = a.Timer(func() { timer.Set(a.Now() + 1 + Cycles(s.Uint64()%1000)) })
		timer.Set(Cycles(s.Uint64() % 1000))
	}
	return &a
}

func TestAgendaAllocatesNothing(t *testing.T) {
	a := loaded(100)
	spare := a.Timer(func() {})
	a.order = lastOrder - 5000 // they run out on the way
	assert.Zero(t, testing.AllocsPerRun(10, func() {
		for range 1000 {
			a.take(a.least())()
			spare.Stop()
			spare.Set(a.Now() + 1)
			spare.Set(a.Now() + 2)
		}
	}), "a run") // the first run, not counted, may grow the list by one
}

// A step of 16 timers takes some 20 ns where the compiler makes the search of conditional
// moves, and twice that where it does not.
func BenchmarkAgenda(b *testing.B) {
	for _, n := range []int{16, 32, 96} {
		b.Run(fmt.Sprintf("timers=%d", n), func(b *testing.B) {
			a := loaded(n)
			b.ReportAllocs()
			for b.Loop() {
				a.take(a.least())()
			}
		})
	}
}
