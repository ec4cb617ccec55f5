package model

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// ownTimes gives every fault of every station a clearing time that differs from the usual one:
// of fault number f it is distributed like the usual one, times f/2 + 1/3.
func ownTimes(l *Line) {
	for _, s := range l.Stations {
		switch s := s.(type) {
		case *Feeder:
			scaled(&s.Clearings, s.Clear, Misfeed, Double, Jam)
		case *Channel:
			scaled(&s.Clearings, s.Clear, Misfeed, Double, Jam)
		case *Inserter:
			scaled(&s.Clearings, s.Clear, EnvelopeMisfeed, Flap, InsertionJam)
		case *Reader:
			scaled(&s.Clearings, s.Clear, NoRead, Mismatch, FalseAlarm)
		}
	}
}

func scaled(own *Clearings, usual sim.Duration, faults ...Fault) {
	for _, f := range faults {
		own[f] = sim.Scaled(usual, float64(f)/2+1.0/3)
	}
}

// agreeClearings are lines whose faults have clearing times of their own.
func agreeClearings() []agreeCase {
	own := func(line func() *Line, changes ...func(l *Line)) func() *Line {
		return func() *Line {
			l := line()
			ownTimes(l)
			for _, change := range changes {
				change(l)
			}
			return l
		}
	}
	return []agreeCase{
		{"clearing by fault", own(changed(func(l *Line) {
			faulty(l, 0.004, 0.003, 0.001)
			respond(l, Stop)
			for _, f := range stationsOf[*Feeder](l) {
				f.FalseCalls, f.Streak = 0.0005, Streak{Given: true, Again: 0.3, StopAfter: 2}
			}
			firstOf[*Inserter](l).OnFlap = Stop
			l.Crew.Operators = 2
		}))},
		{"clearing by fault, lanes by hand", own(personal(2, Stop, func(l *Line, lanes []*Feeder) {
			blind(lanes[1], 0.6, 0.6)
			addReader(l, &Reader{
				Place: Place{Name: "reader", At: 6}, Reads: "2", Match: "1",
				NoRead: 0.004, FalseAlarm: 0.003, OnNoRead: Stop, OnMismatch: Stop,
			})
		}))},
		{"clearing by fault, but for an alarm", own(personal(2, Divert, func(l *Line, lanes []*Feeder) {
			blind(lanes[1], 0.6, 0.6)
			addReader(l, &Reader{
				Place: Place{Name: "reader", At: 6}, Reads: "2", Match: "1",
				NoRead: 0.004, FalseAlarm: 0.003, OnNoRead: Stop, OnMismatch: Stop,
			})
		}), func(l *Line) { firstOf[*Reader](l).Clearings[Mismatch] = nil })},
		{"clearing by fault, documents", own(personal(1, Stop, func(l *Line, _ []*Feeder) {
			h := documents(l, fastSheets, geometricPages(2.5), 3, Stop)
			h.FalseCalls, h.Jam = 0.002, 0.004
		}))},
	}
}

// At 3,600 cycles an hour in 120.5 s, with a walk of 10.25 s and a restart of 4.25 s: each fault that
// is certain stops the line at once, and the first stop is cleared in the time of its fault.
func TestClearingByFault(t *testing.T) {
	own := Clearings{
		Misfeed: sim.Constant(5.25), Double: sim.Constant(6.25), Jam: sim.Constant(7.25),
		EnvelopeMisfeed: sim.Constant(8.25), Flap: sim.Constant(9.25),
	}
	for _, c := range []struct {
		name    string
		station int
		cause   Cause
		change  func(a *Feeder, in *Inserter)
		want    sim.Seconds
	}{
		{"misfeed", handA, CauseMisfeed, func(a *Feeder, _ *Inserter) { a.Misfeed = 1 }, 5.25},
		{"misfeeds in a row", handA, CauseStreak, func(a *Feeder, _ *Inserter) { a.Misfeed, a.OnMisfeed, a.Streak.StopAfter = 1, Ship, 2 }, 5.25},
		{"double", handA, CauseDouble, func(a *Feeder, _ *Inserter) { a.Double, a.Caught = 1, 1 }, 6.25},
		{"false call", handA, CauseDouble, func(a *Feeder, _ *Inserter) { a.FalseCalls = 1 }, 6.25},
		{"jam", handA, CauseJam, func(a *Feeder, _ *Inserter) { a.Jam = 1 }, 7.25},
		{"envelope misfeed", handInserter, CauseEnvelopeMisfeed, func(_ *Feeder, in *Inserter) { in.EnvelopeMisfeed = 1 }, 8.25},
		{"flap", handInserter, CauseFlap, func(_ *Feeder, in *Inserter) { in.Flap = 1 }, 9.25},
		{"without a time of its own", handInserter, CauseInsertionJam, func(_ *Feeder, in *Inserter) { in.Jam = 1 }, 30.25},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := handLine(120.5, func(l *Line, a, _ *Feeder) {
				in := firstOf[*Inserter](l)
				a.Clearings, in.Clearings = own, own
				c.change(a, in)
			})
			require.Empty(t, l.Check())
			var o Outcome
			s, err := New(l)
			require.NoError(t, err)
			require.NoError(t, s.Run(1, 0, &o))
			stops := o.Stations[c.station].Stops[c.cause]
			done := o.Stations[c.station].Clearing.Done
			require.Positive(t, done)
			assert.InDelta(t, float64(c.want), float64(stops.Working)/float64(done), float64(c.want)/float64(done), "the last may be cut")
			assert.Equal(t, l.Down(sim.Constant(c.want)), l.Analytic().Terms[c.station].Down, "on paper")
		})
	}
}

// Where all faults have a time of their own no usual one is needed, but to put a stream in step.
func TestUsualClearingTime(t *testing.T) {
	l := handLine(60, func(_ *Line, a, _ *Feeder) {
		a.Clear, a.Clearings = nil, Clearings{Misfeed: sim.Constant(1), Double: sim.Constant(2), Jam: sim.Constant(3)}
	})
	assert.Empty(t, l.Check())
	_, err := New(l)
	assert.NoError(t, err)
	a := l.Stations[handA].(*Feeder)
	a.Stream = Stream{Name: "letters", Tries: 1}
	assert.ErrorContains(t, errors.Join(l.Check()...), "to put the stream in step")
	a.Stream.Realign = sim.Constant(60)
	assert.Empty(t, l.Check())
	a.Clearings[Jam] = nil
	assert.ErrorContains(t, errors.Join(l.Check()...), "no time for clearing a fault")
}
