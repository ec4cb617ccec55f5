package model

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// What a missed fault costs where every reading succeeds, counted by hand from the rules: a
// reader D pitches after the lane reads the set of the fault D cycles later, when D more have
// been fed. A misfeed it sees then; a double, or a document with a sheet missing, with the next
// set. Recovery in line condemns one more, the catch-up set.
func TestSlipFoundAtOnce(t *testing.T) {
	for _, c := range []struct {
		name   string
		pitch  int
		fault  Fault
		answer Response
		lost   float64
	}{
		{"double, reader at the same pitch, in line", 0, Double, Divert, 3},
		{"double, reader at the same pitch, by hand", 0, Double, Stop, 2},
		{"misfeed, reader at the same pitch, in line", 0, Misfeed, Divert, 2},
		{"misfeed, reader at the same pitch, by hand", 0, Misfeed, Stop, 1},
		{"misfeed, reader 4 pitches on, in line", 4, Misfeed, Divert, 6},
		{"misfeed, reader 4 pitches on, by hand", 4, Misfeed, Stop, 5},
		{"double, reader 4 pitches on, outsorted", 4, Double, Outsort, 7},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := lanesLine(func(l *Line, _, _ *Feeder, r *Reader) {
				r.At, r.OnMismatch = c.pitch, c.answer
				l.Stations = slices.Delete(slices.Delete(l.Stations, 2, 3), 1, 2)
				l.Stations = slices.Insert(l.Stations, 2, Station(&Feeder{Place: Place{Name: "cards", At: 4}, Stream: Stream{Name: "cards", Tries: 1}}))
			})
			s := l.slip(0, c.fault)
			require.Len(t, s.alarms, 1)
			assert.Equal(t, 1.0, s.alarms[0].chance)
			assert.Equal(t, c.lost, s.alarms[0].lost)
			assert.Zero(t, s.alarms[0].delivered)
			assert.Zero(t, s.unfound)
		})
	}
}

// With no-reads shipped, a share n of all readings, the first reading of a wrong set that
// succeeds is the k-th with probability nᵏ⁻¹(1 − n). A reader at the pitch of the lane reads
// the k-th of the sets after a double k cycles after it. With the last gate g pitches on, an
// alarm in cycle k comes too late for k - g + 1 sets: in the mean Σₖ nᵏ⁻¹(1 − n)(k - g + 1), over
// k from g on, which is n^(g-1)/(1 − n). Derived here.
func TestSlipWithNoReads(t *testing.T) {
	for _, gate := range []int{3, 5, 9} {
		for _, n := range []float64{0, 0.01, 0.3, 0.9} {
			l := lanesLine(func(l *Line, _, _ *Feeder, r *Reader) {
				r.At, r.NoRead, r.OnNoRead = 0, n, Ship
				l.Stations[4].(*TrackGate).At = gate
				l.Stations = slices.Delete(l.Stations, 6, 7) // the exit gate
			})
			s := l.slip(0, Double)
			want := math.Pow(n, float64(gate-1)) / (1 - n)
			assert.InDelta(t, want, s.delivered(1e-6), 1e-11, "gate at %d, no-reads %v", gate, n)
			assert.InDelta(t, 1, s.alarms[0].chance+s.unfound, 1e-12)
			if n == 0.3 {
				assert.Greater(t, math.Abs(s.delivered(1e-6)-want/n), 1e-6, "a gate one pitch sooner goes unseen: this test cannot fail")
			}
			in := l.Answering(func() Strategy { s := l.Strategy(); s[7] = Stop; return s }()).slip(0, Double)
			assert.InDelta(t, math.Pow(n, 6)/(1-n), in.delivered(1e-6), 1e-11, "by hand the inserter, 7 pitches on, is the last place")
		}
	}
}

// Two detectors that know nothing of each other: a piece missing in a set of a lane with
// nothing to be matched to escapes if the feeder does not notice it and the reader does not
// read the set: (1 − c₁)(1 − c₂)·p, and with a second reader (1 − c₁)(1 − c₂)(1 − c₃)·p.
func TestSlipOfIndependentDetectors(t *testing.T) {
	l := lanesLine(func(l *Line, a, b *Feeder, r *Reader) {
		b.Stream = Stream{}
		a.Misfeed, a.Noticed, a.OnMisfeed = 0.001, 0.99, Divert
		r.Sequence, r.Presence, r.NoRead, r.OnNoRead = false, true, 0.004, Ship
	})
	require.Empty(t, l.Check())
	leaks := l.Stations[0].Leaks(l)
	require.Len(t, leaks, 1)
	s := l.slip(0, Misfeed)
	assert.InEpsilon(t, 0.001*0.01*0.004, leaks[0].Rate*s.delivered(leaks[0].Rate), 1e-12)
	second := &Reader{Place: Place{Name: "second", At: 6}, Reads: "letters", Presence: true, NoRead: 0.03, OnNoRead: Ship, OnMismatch: Outsort, Clear: sim.Constant(1)}
	l.Stations = slices.Insert(l.Stations, 5, Station(second))
	require.Empty(t, l.Check())
	s = l.slip(0, Misfeed)
	assert.InEpsilon(t, 0.001*0.01*0.004*0.03, leaks[0].Rate*s.delivered(leaks[0].Rate), 1e-12)
	assert.InEpsilon(t, 0.004*0.97, s.alarms[1].chance, 1e-12)
	// A reader that misreads the share m of what it reads overlooks n + (1 − n)·m; an operator who
	// reads what it could not, and errs in w, (1 − n)·m + n·w.
	first := l.Stations[3].(*Reader)
	first.Misread = 0.02
	s = l.slip(0, Misfeed)
	assert.InEpsilon(t, 0.001*0.01*(0.004+0.996*0.02)*0.03, leaks[0].Rate*s.delivered(leaks[0].Rate), 1e-12)
	first.OnNoRead, l.Crew.WrongRepair = Stop, 0.1
	s = l.slip(0, Misfeed)
	assert.InEpsilon(t, 0.001*0.01*(0.996*0.02+0.004*0.1)*0.03, leaks[0].Rate*s.delivered(leaks[0].Rate), 1e-12)
	first.Misread, l.Crew.WrongRepair = 0, 0
	for _, r := range []Response{Stop, Divert, Outsort} {
		l.Stations[3].(*Reader).OnNoRead = r
		s = l.slip(0, Misfeed)
		assert.Zero(t, s.delivered(1e-6), "a no-read answered with %v lets nothing through", r)
	}
}

// The readers of one line, taken apart: the probabilities of all ends of a leak come to 1.
func TestSlipEndsSomehow(t *testing.T) {
	for n, l := range searchLines() {
		for i := range l.Stations {
			for _, k := range l.Stations[i].Leaks(l) {
				s := l.slip(i, k.Fault)
				sum := s.unfound
				for _, a := range s.alarms {
					sum += a.chance
				}
				assert.InDelta(t, 1, sum, 1e-12, "%s, station %d, %v", n, i, k.Fault)
			}
		}
	}
}

// Where no reader sees a lane, each of its sets is wrong with the probability of a process of
// two states, stepped through here set by set.
func TestSlipUnseen(t *testing.T) {
	for _, c := range []struct{ leaks, mends float64 }{{1e-4, 0}, {1e-4, 3e-4}, {1e-10, 0}, {1e-3, 1e-5}} {
		s := slip{unfound: 1, endless: true, mends: c.mends, sets: 20_000}
		wrong, sum := 0.0, 0.0
		for range int(s.sets) {
			wrong += (1-wrong)*c.leaks - wrong*c.mends
			sum += wrong
		}
		assert.InEpsilon(t, sum/s.sets, c.leaks*s.unseen(c.leaks), 1e-3, "leaks %v, mends %v", c.leaks, c.mends)
	}
	rare := slip{unfound: 1, endless: true, sets: 20_000}
	assert.InEpsilon(t, 10_000, rare.unseen(1e-12), 1e-6, "half the shift")
}
