package model

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/sim"
)

// observed runs a replication with an observer, and returns its events.
func observed(t *testing.T, l *Line, seed uint64, replication int) ([]Event, *Outcome) {
	t.Helper()
	s, err := New(l)
	require.NoError(t, err)
	var events []Event
	s.Observe(func(e Event) { events = append(events, e) })
	out := &Outcome{}
	require.NoError(t, s.Run(seed, replication, out))
	return events, out
}

// rebuilt returns what the events tell of the outcome; attempts and what a job takes beside
// its passes are taken from it.
func rebuilt(l *Line, events []Event, out *Outcome) *Outcome {
	g := newLedgers(l)
	for _, e := range events {
		g.hear(e)
	}
	o := g.outcome()
	for i := range o.Stations {
		o.Stations[i].Attempts = out.Stations[i].Attempts
	}
	o.Job, o.LeftOver = out.Job, out.LeftOver
	return o
}

// From the events alone every ledger is rebuilt: sets by fate and by what they were lost to,
// remakes, runs of defective sets, pieces, stops with their seconds, faults, refills, and what
// the crew did. The random lines have shares, streams, channels, readers and jobs.
func TestEventsTellTheLedgers(t *testing.T) {
	lines, erring := rapid.Custom(anyPeopledLine), rapid.Custom(anyErringLine)
	told := map[EventKind]int{}
	for n := range 800 {
		l := lines.Example(n)
		if n >= 500 {
			l = erring.Example(n)
		}
		events, out := observed(t, l, uint64(n), 1)
		require.Empty(t, unequal(out, rebuilt(l, events, out)), "line %d", n)
		for _, e := range events {
			told[e.Kind]++
		}
	}
	for k := range eventNames {
		if EventKind(k) != CycleTakes { // TestEventsTellTheLedgersOfSlowLines
			assert.Positive(t, told[EventKind(k)], "no line told of: %s", EventKind(k))
		}
	}
}

// The events are the fewest: without any one kind the ledgers are wrong, but for those
// that the audit trail, the stop list, the lanes of the crew and the cycles need besides.
func TestEventsAreNeeded(t *testing.T) {
	lines := rapid.Custom(anyPeopledLine)
	needed := map[EventKind]bool{}
	for n := range 60 {
		l := lines.Example(n)
		events, out := observed(t, l, uint64(n), 1)
		for k := range eventNames {
			kind := EventKind(k)
			if needed[kind] || kind == PassBegins {
				continue
			}
			without := slices.DeleteFunc(slices.Clone(events), func(e Event) bool { return e.Kind == kind })
			needed[kind] = len(unequal(out, rebuilt(l, without, out))) > 0
		}
	}
	for k := range eventNames {
		kind := EventKind(k)
		beside := kind == PassBegins || kind == StopEnds || kind == SetCondemned || kind == CrewIs || kind == CycleTakes
		assert.Equal(t, !beside, needed[kind], "%s", kind)
	}
}

// The outcome is the same to the last bit with an observer and without. (A level that is asked
// for where nobody else would ask settles what a feeder with a share has fed: it draws.)
func TestObservingChangesNothing(t *testing.T) {
	lines := rapid.Custom(anyPeopledLine)
	shares := 0
	for n := range 300 {
		l := lines.Example(n)
		_, with := observed(t, l, 7, n)
		s, err := New(l)
		require.NoError(t, err)
		var without Outcome
		require.NoError(t, s.Run(7, n, &without))
		require.Equal(t, without, *with, "line %d", n)
		if slices.ContainsFunc(stationsOf[*Feeder](l), func(f *Feeder) bool { return f.Share < 1 }) {
			shares++
		}
	}
	assert.Greater(t, shares, 50, "lines with a share are rare: this test shows little")
}

// Where nobody observes, and where somebody does who keeps nothing, a shift allocates nothing:
// events are values.
func TestObservingAllocatesNothing(t *testing.T) {
	lotted := referenceLine()
	lotsOf(lotted, 200)
	lotted.Days = Days{CV: 0.5, Hours: 0.1, Drift: []DriftStep{{0.05, 2}}}
	some := referenceLine()
	onlyFor(some)
	cards := lettersLine(3)
	cards.Attributes = []Attribute{{"card", 0.3}}
	stationsOf[*Feeder](cards)[1].Only = "card"
	for name, l := range map[string]*Line{"inserts": referenceLine(), "streams": lettersLine(3), "lots and days": lotted, "attributes": some, "cards": cards} {
		l.Shift = 3600
		s, err := New(l)
		require.NoError(t, err)
		var out Outcome
		for observer, o := range map[string]Observer{"nobody": nil, "somebody": func(Event) {}} {
			s.Observe(o)
			run := func() { require.NoError(t, s.Run(1, 0, &out)) }
			run()
			assert.Zero(t, testing.AllocsPerRun(3, run), "%s, %s", name, observer)
		}
	}
}

// What left at a gate or at the delivery may be told late, but its cycle is that in which it
// came there; and a listener that puts the events in the order of their cycles has them in the
// order in which they happened.
func TestLeavingIsToldWithItsCycle(t *testing.T) {
	l := referenceLine()
	l.Shift = 7200
	events, _ := observed(t, l, 3, 0)
	late := 0
	first := l.Stations[0].Where().At
	for _, e := range events {
		if e.Kind != SetLeaves || e.Fate == Spoiled || e.Fate == OnLine {
			continue
		}
		at := sim.Cycles(l.Stations[e.Station].Where().At - first)
		require.Equal(t, e.Set+at, e.Cycle, "%+v", e)
		s := cycleAt(events, e.At, sim.Seconds(3600/l.RunSpeed()))
		require.LessOrEqual(t, e.Cycle, s)
		if e.Cycle < s {
			late++
		}
	}
	assert.Positive(t, late, "none was told late: this test cannot fail")
}

// cycleAt returns how many cycles were completed by a time, from the starts and halts.
func cycleAt(events []Event, at, cycle sim.Seconds) sim.Cycles {
	done := sim.Cycles(0)
	for _, e := range events {
		switch {
		case e.Kind == Stood || e.At > at:
		case e.Kind == LineHalts:
			done = e.Cycle
		case e.Kind == LineStarts:
			done = e.Cycle + sim.Cycles((at-e.At)/cycle+1e-9)
		}
	}
	return done
}

// Every event that happens in a cycle is reported at the very second at which the engine's own
// formula has that cycle end, in 64 bits: a time rounded to a thousandth would be one set off
// now and then.
func TestEventsKeepTheirSecond(t *testing.T) {
	l := referenceLine()
	l.Shift = 7200
	cycle := sim.Seconds(3600 / l.RunSpeed())
	events, _ := observed(t, l, 3, 0)
	var start Event
	off, seen := 0, 0
	for _, e := range events {
		if e.Kind == LineStarts {
			start = e
		}
		if e.Kind != FaultOccurs {
			continue
		}
		seen++
		end := start.At + sim.Seconds(float64(e.Cycle-start.Cycle)*float64(cycle))
		require.Equal(t, end, e.At)
		rounded := sim.Seconds(math.Round(float64(e.At*1000)) / 1000)
		if start.Cycle+sim.Cycles((rounded-start.At)/cycle) != e.Cycle {
			off++
		}
	}
	require.Positive(t, seen)
	assert.Positive(t, off, "thousandths would do: this test shows nothing")
}

// A channel with next to no buffer, and stops shorter than a document takes: what was computed for a
// line that runs on is of an earlier lap. The line starves, and every moment of it is reported.
func TestStarvingIsTold(t *testing.T) {
	for _, buffer := range []int{1, 2} {
		l := lettersLine(3)
		l.Shift = 3600
		l.Restart, l.Crew.Walk = sim.Constant(0), sim.Constant(0)
		table, err := sim.NewTable([]int64{1, 6}, []float64{60, 40})
		require.NoError(t, err)
		l.Stations[0] = &Channel{
			Place: Place{Name: "documents", At: 0}, Sheets: 9_000, Pages: table, Buffer: buffer,
			Misfeed: 0.01, Noticed: 1, Caught: 1, Stream: Stream{Name: "documents", Tries: 1},
			OnMisfeed: Stop, OnDouble: Stop, Clear: sim.Constant(0.05),
		}
		events, out := observed(t, l, 5, 0)
		require.Empty(t, unequal(out, rebuilt(l, events, out)))
		require.Greater(t, float64(out.Stopped().Starved), 60.0)
		open, end := 0, sim.Seconds(0)
		for _, e := range events {
			switch {
			case e.Kind == StopArises && e.Cause == CauseStarved:
				open++
			case e.Kind == StopEnds && e.Cause == CauseStarved:
				open--
			case e.Kind == Stood:
				require.GreaterOrEqual(t, e.At, end, "stretches overlap")
				end = e.Until
			}
			require.Contains(t, []int{0, 1}, open)
		}
	}
}

// Lines that share a crew have an observer each, who hears of his own line only; the tasks in
// hand of all lines together are never more than the crew has operators.
func TestObserversOfALineGroup(t *testing.T) {
	a, b := referenceLine(), referenceLine()
	a.Name, b.Name, b.Speed = "first", "second", 12_000
	h := &LineGroup{Lines: []*Line{a, b}, Crew: Crew{Operators: 2, Walk: sim.Constant(15), Order: MostUrgent}}
	s, err := NewLineGroup(h)
	require.NoError(t, err)
	var events [2][]Event
	busy, most := 0, 0
	observer := func(i int) Observer {
		return func(e Event) {
			events[i] = append(events[i], e)
			switch e.Kind {
			case TaskTaken:
				busy++
			case TaskDone:
				busy--
			default:
			}
			most = max(most, busy)
		}
	}
	for i, line := range s.lines {
		line.Observe(observer(i))
	}
	outs := make([]Outcome, 2)
	require.NoError(t, s.Run(1, 3, outs))
	for i, l := range []*Line{a, b} {
		require.Empty(t, unequal(&outs[i], rebuilt(l.AttendedBy(h.Crew), events[i], &outs[i])), l.Name)
	}
	assert.Equal(t, 2, most)
}

// Each pass of a job begins with the clocks at zero, and says so.
func TestPassesAreTold(t *testing.T) {
	lines := rapid.Custom(anyPeopledLine)
	jobs := 0
	for n := range 700 {
		l := lines.Example(n)
		if l.Job.Sets == 0 {
			continue
		}
		events, out := observed(t, l, 1, n)
		passes := int64(0)
		now := sim.Seconds(0)
		for _, e := range events {
			if e.Kind == PassBegins {
				passes++
				require.Zero(t, e.At)
				require.Positive(t, e.N)
				now = 0
			}
			if e.Kind != Stood { // told when it is over
				require.GreaterOrEqual(t, e.At, now, "%+v", e)
				now = e.At
			}
		}
		require.Equal(t, out.Job.Passes, passes)
		if passes > 1 {
			jobs++
		}
	}
	assert.Greater(t, jobs, 5, "jobs of several passes are rare: this test shows little")
}

// An observer goes on hearing while a shift is recorded.
func TestRecordingIsObserved(t *testing.T) {
	l := referenceLine()
	l.Shift = 3600
	s, err := New(l)
	require.NoError(t, err)
	heard := 0
	s.Observe(func(e Event) {
		if e.Kind == Stood {
			heard++
		}
	})
	var out Outcome
	stood, _, err := s.Record(1, 0, nil, &out)
	require.NoError(t, err)
	assert.NotEmpty(t, stood)
	assert.Len(t, stood, heard)
}
