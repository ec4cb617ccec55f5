package sim

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// machine is a machine with cycles of 2 s that writes down what happens.
type machine struct {
	Clocks
	history []string
}

func newMachine() *machine {
	m := &machine{}
	m.Reset(2)
	return m
}

func (m *machine) say(what string) {
	m.history = append(m.history, fmt.Sprintf("%g s cycle %d: %s", float64(m.Shop.Now()), m.Cycle(), what))
}

func (m *machine) atShop(at Seconds, what string, do ...func()) {
	m.Shop.Timer(func() {
		m.say(what)
		for _, f := range do {
			f()
		}
	}).Set(at)
}

func (m *machine) atTrack(at Cycles, what string, do ...func()) {
	m.Track.Timer(func() {
		m.say(what)
		for _, f := range do {
			f()
		}
	}).Set(at)
}

func (m *machine) want(t *testing.T, history ...string) {
	t.Helper()
	assert.Equal(t, strings.Join(history, "\n"), strings.Join(m.history, "\n"))
}

func TestTrackFreezesAndCarriesOn(t *testing.T) {
	m := newMachine()
	m.atTrack(3, "fault")
	m.atShop(1, "started", m.Start)
	m.atShop(4.5, "halted in the second cycle", m.Halt) // one cycle done at 3 s
	m.atShop(10, "started", m.Start)                    // the second cycle is done over
	m.Run(100)
	m.want(t,
		"1 s cycle 0: started",
		"4.5 s cycle 1: halted in the second cycle",
		"10 s cycle 1: started",
		"14 s cycle 3: fault")
	assert.Equal(t, Seconds(100), m.Shop.Now())
	assert.Equal(t, Cycles(46), m.Track.Now(), "1 + 90 s / 2 s")
	assert.Equal(t, Seconds(93.5), m.Ran())
	assert.True(t, m.Running())
}

func TestTimersOfTheCycleThatHalts(t *testing.T) {
	m := newMachine()
	m.Start()
	m.atTrack(2, "first stops the machine", m.Halt)
	m.atTrack(2, "second still runs")
	m.atTrack(3, "next cycle waits")
	m.atShop(4, "shop at the same time")
	m.atShop(9, "started", m.Start)
	m.Run(20)
	m.want(t,
		"4 s cycle 2: first stops the machine",
		"4 s cycle 2: second still runs",
		"4 s cycle 2: shop at the same time",
		"9 s cycle 2: started",
		"11 s cycle 3: next cycle waits")
	assert.Equal(t, uint64(5), m.Events())
}

func TestCycleEndsBeforeShopTimer(t *testing.T) {
	m := newMachine()
	m.atShop(6, "shop halts", m.Halt)
	m.atTrack(3, "cycle is completed first")
	m.atTrack(4, "never")
	m.Start()
	m.Run(50)
	m.want(t, "6 s cycle 3: cycle is completed first", "6 s cycle 3: shop halts")
	assert.Equal(t, Cycles(3), m.Track.Now())
	assert.Equal(t, Seconds(6), m.Ran())
}

func TestTrackTimerSetForNow(t *testing.T) {
	m := newMachine()
	m.Start()
	m.atShop(5, "sets a timer for the cycle completed", func() {
		m.atTrack(m.Cycle(), "runs at once, machine on or off")
		m.Halt()
	})
	m.atShop(5, "after it")
	m.Run(5)
	m.want(t,
		"5 s cycle 2: sets a timer for the cycle completed",
		"5 s cycle 2: runs at once, machine on or off",
		"5 s cycle 2: after it")
}

func TestAfterCycle(t *testing.T) {
	m := newMachine()
	m.AfterCycle = func() { m.say("after the cycle") }
	m.atTrack(2, "a", func() { m.atTrack(2, "b, set by a") })
	m.atTrack(2, "c", m.Halt)
	m.atShop(4, "shop", func() { m.atTrack(2, "d, late") })
	m.Start()
	m.Run(10)
	m.want(t,
		"4 s cycle 2: a",
		"4 s cycle 2: c",
		"4 s cycle 2: b, set by a",
		"4 s cycle 2: after the cycle",
		"4 s cycle 2: shop",
		"4 s cycle 2: d, late",
		"4 s cycle 2: after the cycle")
}

func TestRunIncludesItsEnd(t *testing.T) {
	m := newMachine()
	m.Start()
	m.atTrack(2, "cycle")
	m.atShop(4, "shop")
	m.atShop(4.25, "later")
	m.Run(4)
	m.want(t, "4 s cycle 2: cycle", "4 s cycle 2: shop")
	m.Run(4)
	assert.Len(t, m.history, 2)
	m.Run(4.25)
	assert.Len(t, m.history, 3)
}

// However a run is cut into pieces, the same things happen at the same times.
func TestRunInPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tenths := rapid.IntRange(0, 400)
		faults := rapid.SliceOfN(rapid.IntRange(1, 180), 0, 8).Draw(t, "faults")
		cuts := rapid.SliceOfN(tenths, 0, 8).Draw(t, "cuts")
		build := func() *machine {
			m := newMachine()
			m.Reset(0.1) // not a binary fraction: the ends of cycles are rounded
			m.Start()
			for _, f := range faults {
				m.atTrack(Cycles(f), "fault", func() {
					if m.Running() {
						m.Halt()
						m.atShop(m.Shop.Now()+0.7, "restart", func() {
							if !m.Running() {
								m.Start()
							}
						})
					}
				})
			}
			return m
		}
		whole, pieces := build(), build()
		whole.Run(40)
		for _, cut := range cuts {
			pieces.Run(max(pieces.Shop.Now(), Seconds(cut)/10))
		}
		pieces.Run(40)
		assert.Equal(t, whole.history, pieces.history)
		assert.Equal(t, whole.Cycle(), pieces.Cycle())
		assert.InDelta(t, float64(whole.Ran()), float64(pieces.Ran()), 1e-9)
	})
}

// A cycle is completed at its very end and not a moment before, however the ends of
// cycles are rounded.
func TestCycleIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var c Clocks
		c.Reset(Seconds(rapid.IntRange(1, 999).Draw(t, "length")) / 1000)
		c.Run(Seconds(rapid.IntRange(0, 99).Draw(t, "start")) / 10)
		c.Start()
		k := Cycles(rapid.IntRange(1, 100_000).Draw(t, "cycle"))
		end := c.Ends(k)
		c.Run(Seconds(math.Nextafter(float64(end), 0)))
		assert.Equal(t, k-1, c.Cycle())
		c.Run(end)
		assert.Equal(t, k, c.Cycle())
	})
}

func TestClocksReset(t *testing.T) {
	m := newMachine()
	m.Start()
	m.atTrack(30, "forgotten")
	m.atShop(60, "forgotten")
	m.Run(11)
	m.Reset(5)
	assert.False(t, m.Running())
	assert.Zero(t, m.Ran())
	assert.Zero(t, m.Cycle())
	assert.Zero(t, m.Events())
	m.Start()
	m.Run(100)
	assert.Empty(t, m.history)
	assert.Equal(t, Cycles(20), m.Cycle())
}

func TestClocksRefuse(t *testing.T) {
	for _, cycle := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		assert.Panics(t, func() { new(Clocks).Reset(Seconds(cycle)) }, "a cycle of %v", cycle)
	}
	for _, until := range []float64{0.5, math.NaN(), math.Inf(1)} {
		m := newMachine()
		m.Start()
		m.Run(1)
		assert.Panics(t, func() { m.Run(Seconds(until)) }, "Run(%v) at 1 s", until)
	}
	m := newMachine()
	assert.Panics(t, m.Halt, "stopped already")
	m.Start()
	assert.Panics(t, m.Start, "running already")
}

func TestClocksAllocateNothing(t *testing.T) {
	var c Clocks
	fault := c.Track.Timer(func() {})
	var restart *Alarm
	c.Reset(0.2)
	restart = c.Shop.Timer(func() {
		if c.Running() {
			c.Halt()
		} else {
			c.Start()
			fault.Set(c.Cycle() + 3)
		}
		restart.Set(c.Shop.Now() + 1)
	})
	restart.Set(0)
	assert.Zero(t, testing.AllocsPerRun(10, func() { c.Run(c.Shop.Now() + 1000) }))
}
