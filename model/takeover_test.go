package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// afterAJob is a line for a job of few sets, with lots and hoppers that are soon used up, and what
// comes after it: a line without the first feeder.
func afterAJob() (first, second *Line, of []int) {
	first = changed(func(l *Line) {
		faulty(l, 0.01, 0.005, 0.002)
		lotsOf(l, 150)
		for i, f := range stationsOf[*Feeder](l) {
			f.Hopper = Stock{Capacity: 200 + 10*int64(i), Warn: 40, Work: lognormal(20, 0.5)}
			f.Share = []float64{1, 0.3, 0.7, 0.05, 0.5, 0.9}[i]
			f.Lots.Bad, f.Lots.Times, f.Lots.CV, f.Lots.Factors = 0.2, 40, 0, nil
		}
		firstOf[*TrackGate](l).Bin = Stock{Capacity: 12, Warn: 4, Work: lognormal(12, 0.5)}
		l.Shift, l.Job, l.Begins.Kept = 0, Job{Sets: 330}, true
	})()
	second = first.Clone()
	second.Stations = second.Stations[1:]
	for i, s := range second.Stations {
		if of = append(of, i+1); s.Where().Name == "3" { // the feeder gets other pieces
			of[i] = -1
		}
	}
	return first, second, of
}

// tookOver returns what the engine makes of the second of two jobs.
func tookOver(t *testing.T, first, second *Line, of []int) func(seed uint64, replication int) *Outcome {
	t.Helper()
	a, err := New(first)
	require.NoError(t, err)
	second.Random = "second"
	b, err := New(second)
	require.NoError(t, err)
	return func(seed uint64, replication int) *Outcome {
		var out Outcome
		require.NoError(t, a.Run(seed, replication, &out))
		b.TakeOver(a, of)
		require.NoError(t, b.Run(seed, replication, &out))
		require.NoError(t, out.Balance())
		return &out
	}
}

func slowlyTookOver(first, second *Line, of []int) func(seed uint64, replication int) *Outcome {
	return func(seed uint64, replication int) *Outcome {
		random := newSlowRandom(seed, replication)
		a := &slowJob{line: first, random: random}
		a.run()
		out := (&slowJob{line: second, random: random, before: a.before, of: of}).run()
		return &out
	}
}

// A job that takes over from one of another product is that of the slow model; one that does not, or
// takes over another feeder's pieces, is not.
func TestJobsThatTakeOverAgree(t *testing.T) {
	oneGoroutine(t)
	first, second, of := afterAJob()
	level := 0.001 / float64(agreeChecks(second))
	slow := pool(slowlyTookOver(first, second, of))
	assert.Empty(t, differences(slow, pool(tookOver(t, first, second, of)), level))
	assert.NotEmpty(t, differences(slow, pool(engineRun(t, second)), level), "this test can fail")
}

// By hand, on the line of handBeginnings without a warning: a hundred pieces of A, a set a second. The
// job of 70 sets leaves 30, so that the next of 70 stands once, for 10.25 + 30.5 + 4.25 s, and leaves 60, and the one after
// that 90. A job that takes nothing over begins with a hundred.
func TestJobsTakeOverByHand(t *testing.T) {
	l := handLine(1, func(l *Line, a, _ *Feeder) {
		a.Hopper = Stock{Capacity: 100, Work: sim.Constant(30.5)}
		l.Shift, l.Job, l.Begins.Kept = 0, Job{Sets: 70}, true
	})
	s, err := New(l)
	require.NoError(t, err)
	same := slowSame(l)
	for i, want := range []struct {
		takes               bool
		loaded, stood, left float64
	}{{false, 100, 0, 30}, {true, 130, 45, 60}, {true, 160, 45, 90}, {false, 100, 0, 30}} {
		if want.takes {
			s.TakeOver(s, same)
		}
		var out Outcome
		require.NoError(t, s.Run(1, 0, &out))
		a := &out.Stations[handA]
		assert.InDelta(t, want.loaded, a.Pieces.Loaded, 0, "job %d", i)
		assert.InDelta(t, want.left, a.Pieces.Left, 0, "job %d", i)
		assert.InDelta(t, want.stood, float64(a.Stops[CauseStock].Total()), 1e-9, "job %d", i)
	}
}

// A bad lot goes on in the next job of another product, where its pieces stay.
func TestLotsAreTakenOver(t *testing.T) {
	first, second, of := afterAJob()
	for _, l := range []*Line{first, second} {
		for _, f := range stationsOf[*Feeder](l) {
			f.Misfeed, f.Share, f.Lots = 0.05, 1, Lots{Of: 1e9, Factors: []float64{0, 2}}
		}
	}
	a, err := New(first)
	require.NoError(t, err)
	second.Random = "second"
	b, err := New(second)
	require.NoError(t, err)
	apart := 0
	for n := range 40 {
		var x, y Outcome
		require.NoError(t, a.Run(3, n, &x))
		b.TakeOver(a, of)
		require.NoError(t, b.Run(3, n, &y))
		require.Equal(t, a.lotAt(1).factor, b.lotAt(0).factor)
		o := &y.Stations[0]
		assert.Equal(t, b.lotAt(0).factor > 0, o.Faults[Misfeed]+o.Faults[Double]+o.Faults[Jam] > 0)
		if a.lotAt(2).factor != b.lotAt(1).factor { // other pieces
			apart++
		}
	}
	assert.Greater(t, apart, 5)
}

func TestTakingOverIsRefused(t *testing.T) {
	l := referenceLine()
	s, err := New(l)
	require.NoError(t, err)
	assert.Panics(t, func() { s.TakeOver(s, slowSame(l)) }, "a shift")
	l.Shift, l.Job.Sets = 0, 5
	s, err = New(l)
	require.NoError(t, err)
	assert.Panics(t, func() { s.TakeOver(s, slowSame(l)) }, "nothing is kept")
}

// A job that takes over allocates nothing.
func TestTakingOverAllocatesNothing(t *testing.T) {
	first, second, of := afterAJob()
	a, err := New(first)
	require.NoError(t, err)
	b, err := New(second)
	require.NoError(t, err)
	var x, y Outcome
	again := func() {
		_ = a.Run(1, 0, &x)
		b.TakeOver(a, of)
		_ = b.Run(1, 0, &y)
	}
	again()
	assert.Zero(t, testing.AllocsPerRun(5, again))
}
