package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/sim"
)

// anyBeginning has a line begin in one of the ways that it can.
func anyBeginning(t *rapid.T, l *Line) {
	way := rapid.IntRange(0, 2).Draw(t, "beginning")
	if way > 0 && l.Job.Sets > 0 {
		l.Begins.Kept = true
		return
	}
	if way == 0 {
		l.Begins.Level = rapid.Float64Range(1e-6, 1).Draw(t, "level")
		return
	}
	l.Begins = Begins{Before: sim.Seconds(rapid.Float64Range(1, 900).Draw(t, "before")), Track: way == 2}
	if len(l.Days.Drift) > 0 && l.Days.Hours == 0 {
		l.Begins.Track = false // the drift would go on
	}
}

// The events of a shift that begins with stocks that are not full tell the ledgers too.
func TestEventsTellTheLedgersOfAnyBeginning(t *testing.T) {
	lines := rapid.Custom(func(t *rapid.T) *Line {
		l := anyLine(t)
		anyBeginning(t, l)
		l.Begins.Track = false
		return l
	})
	for n := range 150 {
		l := lines.Example(n)
		events, out := observed(t, l, uint64(n), 1)
		require.Empty(t, unequal(out, rebuilt(l, events, out)), "line %d", n)
	}
}

// Whoever observes changes nothing, and hears of the time of the shift alone.
func TestObservedAfterTheHandover(t *testing.T) {
	lines := rapid.Custom(func(t *rapid.T) *Line {
		l := anyLine(t)
		l.Shift, l.Job = max(l.Shift, 60), Job{}
		l.Begins = Begins{Before: 200, Track: true}
		return l
	})
	for n := range 60 {
		l := lines.Example(n)
		events, out := observed(t, l, uint64(n), 1)
		s, err := New(l)
		require.NoError(t, err)
		var unseen Outcome
		require.NoError(t, s.Run(uint64(n), 1, &unseen))
		require.Equal(t, unseen.Time, out.Time)
		require.Equal(t, PassBegins, events[0].Kind)
		stood := sim.Seconds(0)
		for _, e := range events {
			require.GreaterOrEqual(t, e.At, sim.Seconds(0))
			if e.Kind == Stood {
				stood += e.Until - e.At
			}
		}
		require.InDelta(t, float64(out.Stopped().Total()), float64(stood), 1e-6)
	}
}

// The course of a shift is counted from the handover.
func TestCourseAfterTheHandover(t *testing.T) {
	l := referenceLine()
	l.Begins, l.Shift = Begins{Before: 1000, Track: true}, 1000
	s, err := New(l)
	require.NoError(t, err)
	var o, again Outcome
	good := make([]int64, 2)
	require.NoError(t, s.Course(1, 0, []sim.Seconds{500, 1000}, good, &o))
	require.NoError(t, s.Run(1, 0, &again))
	assert.Equal(t, again.Sets, o.Sets)
	assert.Equal(t, o.Sets.Good, good[1])
	assert.Less(t, good[0], good[1])
}

// Lines with one crew hand over together, and one line of a group does what it does alone.
func TestGroupHandsOver(t *testing.T) {
	for _, track := range []bool{false, true} {
		l := referenceLine()
		l.Begins, l.Shift = Begins{Before: 3000, Track: track}, 1000
		l.Crew.Order = AlongTheTrack // the most urgent of one line are ranked by cycles
		g, err := NewLineGroup(&LineGroup{Lines: []*Line{l}, Crew: l.Crew})
		require.NoError(t, err)
		l.Random = l.Name
		s, err := New(l)
		require.NoError(t, err)
		var alone Outcome
		shared := make([]Outcome, 1)
		for n := range 20 {
			require.NoError(t, g.Run(3, n, shared))
			require.NoError(t, s.Run(3, n, &alone))
			assert.Empty(t, unequal(&alone, &shared[0]))
		}
	}
}

func TestBeginningsThatCannotBe(t *testing.T) {
	job := func(l *Line) { l.Shift, l.Job.Sets = 0, 100 }
	for text, change := range map[string]func(l *Line){
		"hoppers begin at 1.5 of their capacity": func(l *Line) { l.Begins.Level = 1.5 },
		"hoppers begin at -1 of their capacity":  func(l *Line) { l.Begins.Level = -1 },
		"has worked -3 s before":                 func(l *Line) { l.Begins.Before = -3 },
		"want one of them":                       func(l *Line) { l.Begins = Begins{Level: 0.5, Before: 1} },
		"nothing came before":                    func(l *Line) { l.Begins.Track = true },
		"a job begins with an empty track":       func(l *Line) { job(l); l.Begins.Before = 1 },
		"the line works for a shift":             func(l *Line) { l.Begins.Kept = true },
		"at what was left in them: want one":     func(l *Line) { job(l); l.Begins = Begins{Level: 0.5, Kept: true} },
	} {
		l := referenceLine()
		change(l)
		found := l.Check()
		require.Len(t, found, 1, text)
		assert.Contains(t, found[0].Error(), text)
	}
}

// A replication allocates nothing, whatever came before it.
func TestAHandoverAllocatesNothing(t *testing.T) {
	for _, track := range []bool{false, true} {
		l := referenceLine()
		firstOf[*Feeder](l).Share = 0.4
		l.Begins, l.Shift = Begins{Before: 3000, Track: track}, 1000
		s, err := New(l)
		require.NoError(t, err)
		var o Outcome
		for n := range 30 {
			require.NoError(t, s.Run(1, n, &o))
		}
		assert.Zero(t, testing.AllocsPerRun(20, func() { _ = s.Run(1, 3, &o) }))
	}
}
