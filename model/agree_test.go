package model

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What the engine finds by jumping from event to event must be what the rules say.
// Where nothing is left to chance, every figure must be the same.
func TestEngineByHand(t *testing.T) {
	for _, c := range handCases() {
		t.Run(c.name, func(t *testing.T) {
			slow, engine := slowRun(c.line, 1, 0), engineRun(t, c.line)(1, 0)
			assert.Empty(t, unequal(c.want(), engine))
			for i := range slow.Stations {
				assert.Equal(t, slow.Stations[i].Name, engine.Stations[i].Name)
			}
		})
	}
}

// replications of each line and model in TestEngineAgrees.
const replications = 150

// Where there is chance, every figure must have the same mean as in the slow model, and
// the good sets the same distribution. The whole test, with all its figures on all its
// lines, would raise a false alarm with a probability of at most 0.1 %.
func TestEngineAgrees(t *testing.T) {
	oneGoroutine(t)
	cases := agreeCases()
	checks := 0
	for _, c := range cases {
		checks += agreeChecks(c.line())
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			slow, engine := pool(slowly(c.line())), pool(engineRun(t, c.line()))
			assert.Empty(t, differences(slow, engine, 0.001/float64(checks)))
		})
	}
}

// A comparison that sees nothing would agree with everything. With one parameter changed
// the engine must be told from the slow model: misfeeds a tenth more frequent at one
// feeder, a second more for each walk, a double in ten unnoticed, one operator more.
func TestEngineAgreesCanFail(t *testing.T) {
	oneGoroutine(t)
	cases := map[string]func(l *Line){
		"misfeeds":  func(l *Line) { firstOf[*Feeder](l).Misfeed *= 1.1 },
		"walks":     func(l *Line) { l.Crew.Walk = lognormal(5, 0.3) },
		"caught":    func(l *Line) { firstOf[*Feeder](l).Caught = 0.9 },
		"operators": func(l *Line) { l.Crew.Operators++ },
	}
	for name, change := range cases {
		t.Run(name, func(t *testing.T) {
			line := changed(func(l *Line) { faulty(l, 0.05, 0.005, 0.0005) })
			other := line()
			change(other)
			level := 0.001 / float64(agreeChecks(other)*len(agreeCases()))
			assert.NotEmpty(t, differences(pool(slowly(line())), pool(engineRun(t, other)), level))
		})
	}
}

// The same for streams: more misfeeds noticed, a reader one pitch further on, one try
// for catch-up sets where there were three, documents a tenth longer, remakes made by hand a
// quarter faster.
func TestEngineAgreesOnStreamsCanFail(t *testing.T) {
	oneGoroutine(t)
	cases := map[string]struct {
		line   string
		change func(l *Line)
	}{
		"noticed": {"readers: at the feeder", func(l *Line) { firstOf[*Feeder](l).Noticed = 0.6 }},
		"pitch":   {"readers: three pitches on, no-reads diverted", func(l *Line) { firstOf[*Reader](l).At = 6 }},
		"tries":   {"lanes: in line, outsort, streaks and false calls", func(l *Line) { stationsOf[*Feeder](l)[1].Stream.Tries = 1 }},
		"pages":   {"documents: alone, by hand, a small buffer", func(l *Line) { firstOf[*Channel](l).Pages = geometricPages(2.2) }},
		"by hand": {"a job closed by hand", func(l *Line) { l.Job.PerHour *= 1.25 }},
		"beside":  {"a job closed beside the line", func(l *Line) { l.Job.PerHour *= 1.25 }},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			all := agreeStreams()
			line := all[slices.IndexFunc(all, func(a agreeCase) bool { return a.name == c.line })].line
			other := line()
			c.change(other)
			level := 0.001 / float64(agreeChecks(other)*len(agreeCases()))
			assert.NotEmpty(t, differences(pool(slowly(line())), pool(engineRun(t, other)), level))
		})
	}
}

// A crew that lets the line run slower until a refill is told from one that does so for the time alone.
func TestEngineAgreesUntilRefillCanFail(t *testing.T) {
	oneGoroutine(t)
	all := agreePaces()
	line := all[slices.IndexFunc(all, func(a agreeCase) bool { return a.name == "a crew that slows the line down until a refill" })].line
	other := line()
	other.Slow.Repeated.Refill = false
	level := 0.001 / float64(agreeChecks(other)*len(agreeCases()))
	assert.NotEmpty(t, differences(pool(slowly(line())), pool(engineRun(t, other)), level))
}

// A line that slows down is told from one that is at rest at once.
func TestEngineAgreesOnSlowingDownCanFail(t *testing.T) {
	oneGoroutine(t)
	line := changed(func(l *Line) {
		faulty(l, 0.05, 0.005, 0.0005)
		l.Slow.Stopping = Slowly{Cycles: 40, Share: 0.5}
	})
	other := line()
	other.Slow = Slow{}
	level := 0.001 / float64(agreeChecks(other)*len(agreeCases()))
	assert.NotEmpty(t, differences(pool(slowly(line())), pool(engineRun(t, other)), level))
}

// The same for people and readers who err.
func TestEngineAgreesOnErrorsCanFail(t *testing.T) {
	oneGoroutine(t)
	cases := map[string]struct {
		line   string
		change func(l *Line)
	}{
		"repair":  {"errors: plain feeders, put right wrongly", func(l *Line) { l.Crew.WrongRepair = 0.4 }},
		"realign": {"errors: jams and small hoppers", func(l *Line) { l.Crew.WrongRealign = 0.65 }},
		"misread": {"errors: lanes by hand, with a reader", func(l *Line) { firstOf[*Reader](l).Misread = 0.4 }},
		"stock":   {"errors: wrong stock, found by an operator or not at all", func(l *Line) { firstOf[*Feeder](l).WrongStock.FoundAfter = nil }},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			all := agreeErrors()
			line := all[slices.IndexFunc(all, func(a agreeCase) bool { return a.name == c.line })].line
			other := line()
			c.change(other)
			level := 0.001 / float64(agreeChecks(other)*len(agreeCases()))
			assert.NotEmpty(t, differences(pool(slowly(line())), pool(engineRun(t, other)), level))
		})
	}
}

// agreeChecks returns how many checks are made on a line: each figure, and the
// distribution of good sets.
func agreeChecks(l *Line) int {
	return len(figures(&Outcome{Stations: make([]StationOutcome, len(l.Stations))})) + 1
}

// pool returns the outcomes of replications of a run.
func pool(run func(seed uint64, replication int) *Outcome) *pooled {
	p := &pooled{}
	for replication := range replications {
		p.add(run(20, replication))
	}
	return p
}

func slowly(l *Line) func(seed uint64, replication int) *Outcome {
	return func(seed uint64, replication int) *Outcome {
		out := slowRun(l, seed, replication)
		return &out
	}
}

// engineRun returns a run of the engine, which refuses lines that cannot be and outcomes
// that do not balance.
func engineRun(t *testing.T, l *Line) func(seed uint64, replication int) *Outcome {
	t.Helper()
	require.Empty(t, l.Check())
	s, err := New(l)
	require.NoError(t, err)
	return func(seed uint64, replication int) *Outcome {
		var out Outcome
		require.NoError(t, s.Run(seed, replication, &out))
		require.NoError(t, out.Balance())
		require.Empty(t, ledgerErrors(&out))
		return &out
	}
}
