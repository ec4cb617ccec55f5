package model

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/sim"
)

// agreePaces are lines that run some of their cycles slower than others.
func agreePaces() []agreeCase {
	all := Slow{
		Starting: Slowly{Cycles: 20, Share: 0.5}, AfterJam: Slowly{Cycles: 90, Share: 0.7},
		Repeated: Repeated{Stops: 3, Within: 120, Share: 0.6, For: 30},
	}
	growing := func(l *Line) {
		for _, f := range stationsOf[*Feeder](l) {
			f.Growth = 2
		}
		in := firstOf[*Inserter](l)
		in.Growth = 3
	}
	slow := func(l *Line) { l.Slow, l.Shift = all, 600.1 }
	return []agreeCase{
		{"a line that starts slowly", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.0005)
			low(l, 1)
			l.Slow.Starting = Slowly{Cycles: 150, Share: 0.4}
			growing(l)
		})},
		{"slow cycles of all kinds, faults that grow", changed(func(l *Line) {
			faulty(l, 0.004, 0.004, 0.002)
			respond(l, Stop)
			l.Slow = all
			growing(l)
			withDevices(l, func(_ int, d *Device) { d.Rated, d.Growth = 18_000, 1.5 })
		})},
		{"slow cycles, streaks, false calls and some of the sets", changed(func(l *Line) {
			faulty(l, 0.02, 0.02, 0.001)
			for i, f := range stationsOf[*Feeder](l) {
				f.OnMisfeed, f.OnDouble = Response(i%4), Response((i+1)%4)
				f.FalseCalls, f.Caught, f.Share = 0.01, 0.7, []float64{1, 0.4, 1, 0.8, 1, 0.1}[i]
				f.Streak = Streak{Given: true, Again: 0.4, StopAfter: 3}
				f.Clear = lognormal(2, 0.8)
			}
			l.Slow = all
			l.Slow.Starting = Slowly{Cycles: 400, Share: 0.5}
			growing(l)
		})},
		{"slow cycles and streams", changedFrom("lanes: in line, outsort, streaks and false calls", func(l *Line) {
			slow(l)
			for _, f := range stationsOf[*Feeder](l) {
				if f.Rated > 0 {
					f.Growth = 1
				}
			}
		})},
		{"slow cycles and a channel that is too slow", changedFrom("documents: alone, by hand, a small buffer", slow)},
		{"slow cycles and two channels", changedFrom("channels: two that starve in turn", slow)},
		{"slow cycles and sheets of lots", changedFrom("sheets of documents in lots", slow)},
		{"slow cycles and breaks with documents", changedFrom("breaks for which a line with documents stands", func(l *Line) { l.Slow = all })},
		{"slow cycles and breaks, all as left", changedFrom("breaks for which the line stands", func(l *Line) {
			l.Slow = all
			l.Begins = Begins{Before: 333.33, Track: true}
		})},
		{"a line that slows down, near the operators", changed(func(l *Line) {
			faulty(l, 0.01, 0.004, 0.002)
			respond(l, Stop)
			low(l, 1)
			l.Crew.Walk = lognormal(2, 0.8) // some are there before the line is at rest
			l.Slow.Stopping = Slowly{Cycles: 25, Share: 0.4}
		})},
		{"slowing down, people who stay and help", changedFrom("skills, help and hours", func(l *Line) {
			l.Slow = all
			l.Slow.Stopping = Slowly{Cycles: 60, Share: 0.5}
		})},
		{"slowing down and streams", changedFrom("lanes: in line, outsort, streaks and false calls", func(l *Line) {
			slow(l)
			l.Crew.Walk, l.Slow.Stopping = lognormal(1, 0.5), Slowly{Cycles: 30, Share: 0.3}
		})},
		{"slowing down and breaks, all as left", changedFrom("breaks for which the line stands", func(l *Line) {
			l.Slow.Stopping = Slowly{Cycles: 300, Share: 0.5}
			l.Begins = Begins{Before: 333.33, Track: true}
		})},
		{"a crew that slows the line down until a refill", changed(func(l *Line) {
			faulty(l, 0.01, 0.004, 0.002)
			respond(l, Stop)
			low(l, 1)
			growing(l)
			for _, f := range stationsOf[*Feeder](l) {
				f.Hopper.Capacity, f.Hopper.Warn = 120, 60
			}
			l.Slow.Repeated = Repeated{Stops: 3, Within: 200, Share: 0.4, For: 1000, Refill: true}
		})},
		{"slow cycles and lots", changedFrom("lots of all kinds, stop and divert", func(l *Line) { l.Slow = all })},
	}
}

// anyPace has a line run some cycles slower.
func anyPace(t *rapid.T, l *Line) {
	share := func() float64 { return rapid.Float64Range(LeastShare, 1).Draw(t, "share") }
	cycles := func() Slowly { return Slowly{float64(rapid.Int64Range(1, 200).Draw(t, "slow")), share()} }
	if rapid.Bool().Draw(t, "starting") {
		l.Slow.Starting = cycles()
	}
	if rapid.Bool().Draw(t, "after jam") {
		l.Slow.AfterJam = cycles()
	}
	if rapid.Bool().Draw(t, "stopping") {
		l.Slow.Stopping = cycles()
	}
	if rapid.Bool().Draw(t, "repeated") {
		l.Slow.Repeated = Repeated{
			Stops: rapid.IntRange(1, 4).Draw(t, "stops"), Within: sim.Seconds(rapid.Float64Range(1, 600).Draw(t, "within")),
			Share: share(), For: sim.Seconds(rapid.Float64Range(0.1, 300).Draw(t, "for")), Refill: rapid.Bool().Draw(t, "refill"),
		}
	}
	for _, f := range stationsOf[*Feeder](l) {
		f.Rated, f.Growth = l.Speed, 1
	}
}

// The events of lines with slow cycles tell the ledgers, and where each cycle ends.
func TestEventsTellTheLedgersOfSlowLines(t *testing.T) {
	lines := rapid.Custom(func(t *rapid.T) *Line {
		l := anyLine(t)
		anyPace(t, l)
		return l
	})
	for n := range 150 {
		l := lines.Example(n)
		events, out := observed(t, l, uint64(n), 1)
		again := rebuilt(l, events, out)
		again.Time.Slow = out.Time.Slow
		require.Empty(t, unequal(out, again), "line %d", n)
		require.LessOrEqual(t, out.Time.Slow.Total(), out.Time.Running)
		if l.Job.Sets == 0 { // the running time is that of the cycles, and of a part of one
			full := sim.Seconds(float64(out.Cycles) * 3600 / l.RunSpeed())
			require.InDelta(t, float64(full), float64(out.Time.Running-out.Time.Slow.Total()), 1.001*3600/l.RunSpeed()*float64(1+starts(events)))
		}
	}
}

func starts(events []Event) (n int) {
	for _, e := range events {
		if e.Kind == LineStarts {
			n++
		}
	}
	return n
}

// k cycles at half the speed cost the time of k cycles for each start: the sum by hand.
func TestStartsCostWhatTheySay(t *testing.T) {
	l := handLine(100_000.5, func(l *Line, a, _ *Feeder) {
		a.Hopper = Stock{Capacity: 100, Work: sim.Constant(20.25)}
		l.Slow.Starting = Slowly{Cycles: 30, Share: 0.5}
		firstOf[*Inserter](l).Hopper.Capacity = 1e9
		stationsOf[*Feeder](l)[1].Hopper.Capacity = 1e9
	})
	out := engineRun(t, l)(1, 0)
	stops := out.Stations[handA].Stops[CauseStock].Count
	require.Positive(t, stops)
	// Each hundred cycles take 130 s, and each stop 10.25 + 20.25 + 4.25 s: 164.75 s a round, of which
	// 606 are done, and in the next one the line has stopped and not started again.
	assert.Equal(t, int64(607), stops)
	assert.InDelta(t, 30*607.0, float64(out.Time.Slow.Starting), 1e-6)
	assert.InDelta(t, 30, float64(l.Starts()), 1e-12)
}

// Faults come with the probability of the speed at which a cycle is run: of all cycles slow, as
// often as on a line of that speed. The bias that must be seen is that of no growth.
func TestFaultsFollowSlowCycles(t *testing.T) {
	count := func(growth float64) (faults, attempts float64) {
		l := referenceLine()
		l.Slow.Starting = Slowly{Cycles: mostSlow, Share: 0.5}
		f := firstOf[*Feeder](l)
		f.Misfeed, f.Growth = 1.0/200, growth
		run := engineRun(t, l)
		for n := range 20 {
			out := run(5, n)
			faults += float64(out.Stations[0].Faults[Misfeed])
			attempts += float64(out.Stations[0].Attempts)
		}
		return faults, attempts
	}
	faults, attempts := count(2)
	want := attempts / 200 / 4 // half the speed, squared
	assert.InDelta(t, want, faults, 3.29*math.Sqrt(want))
	faults, attempts = count(0)
	assert.Greater(t, faults-attempts/200/4, 3.29*math.Sqrt(want), "this test can fail")
}

func TestPacesThatCannotBe(t *testing.T) {
	for text, change := range map[string]func(s *Slow){
		"0 cycles are slow":               func(s *Slow) { s.Starting.Share = 0.5 },
		"the line runs at 0 of its speed": func(s *Slow) { s.AfterJam.Cycles = 5 },
		"the line runs at 1.5 of its":     func(s *Slow) { s.AfterJam = Slowly{5, 1.5} },
		"after 0 stops":                   func(s *Slow) { s.Repeated = Repeated{0, 60, 0.5, 60, false} },
		"the stops come within -1 s":      func(s *Slow) { s.Repeated = Repeated{2, -1, 0.5, 60, false} },
		"the line runs slower for 0 s":    func(s *Slow) { s.Repeated = Repeated{2, 60, 0.5, 0, false} },
	} {
		l := referenceLine()
		change(&l.Slow)
		found := l.Check()
		if assert.Len(t, found, 1, text) {
			assert.Contains(t, found[0].Error(), text)
		}
	}
}
