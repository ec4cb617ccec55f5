package model

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// The slow model is itself tested on cases without chance (see handCases), each worked
// out by hand, all figures of the outcome, to the second.
func TestSlowModelByHand(t *testing.T) {
	for _, c := range handCases() {
		t.Run(c.name, func(t *testing.T) {
			want, got := c.want(), slowRun(c.line, 1, 0)
			requireLedgers(t, want)
			requireLedgers(t, &got)
			assert.Empty(t, unequal(want, &got))
		})
	}
}

// With chance in it, the ledgers must still balance.
func TestSlowModelByChance(t *testing.T) {
	for _, c := range agreeCases() {
		t.Run(c.name, func(t *testing.T) {
			require.Empty(t, c.line().Check())
			for replication := range 3 {
				out := slowRun(c.line(), 7, replication)
				requireLedgers(t, &out)
			}
		})
	}
}

// Faults must be as many as their probabilities say. The rarest of them comes some
// 800 times, which is to within 3.5 %: a bias of a quarter must be seen.
func TestSlowModelRates(t *testing.T) {
	line := changed(func(l *Line) {
		faulty(l, 0.03, 0.02, 0.01)
		respond(l, Outsort)
		for _, f := range stationsOf[*Feeder](l) {
			f.Clear = sim.Constant(0)
		}
		firstOf[*Inserter](l).Clear = sim.Constant(0)
	})()
	inserter := slices.IndexFunc(line.Stations, func(s Station) bool { _, ok := s.(*Inserter); return ok })
	var sum [2]StationOutcome // of feeder 1 and of the inserter
	for replication := range 40 {
		out := slowRun(line, 3, replication)
		for k, i := range []int{0, inserter} {
			sum[k].Attempts += out.Stations[i].Attempts
			for f, n := range out.Stations[i].Faults {
				sum[k].Faults[f] += n
			}
		}
	}
	want := [2][faults]float64{
		{Misfeed: 0.03, Double: 0.02, Jam: 0.01},
		{EnvelopeMisfeed: 0.01, Flap: 0.02, InsertionJam: 0.01},
	}
	for k, probabilities := range want {
		for f, p := range probabilities {
			n, count := float64(sum[k].Attempts), float64(sum[k].Faults[f])
			off := func(p float64) float64 { return math.Abs(count-n*p) / math.Sqrt(n*p*(1-p)) }
			if p == 0 {
				assert.Zero(t, count, "%v", Fault(f))
				continue
			}
			assert.LessOrEqual(t, off(p), 3.79, "%v", Fault(f)) // 0.1 %, split among 6
			assert.Greater(t, off(1.25*p), 3.79, "a bias of a quarter goes unseen for %v", Fault(f))
		}
	}
}

// requireLedgers fails the test unless every set, every piece and every second of the
// outcome is accounted for, and every set that is lost has a cause.
func requireLedgers(t *testing.T, o *Outcome) {
	t.Helper()
	assert.Empty(t, ledgerErrors(o))
}

// ledgerErrors returns the ledgers that do not balance.
func ledgerErrors(o *Outcome) []string {
	var found []string
	s := o.Sets
	if s.Started != s.Good+s.Defective+s.Diverted+s.Outsorted+s.Spoiled+s.OnLine {
		found = append(found, "sets")
	}
	lost := int64(0)
	for _, station := range o.Stations {
		for _, n := range station.Lost {
			lost += n
		}
		p := station.Pieces
		if p.Loaded != p.Good+p.Defective+p.Diverted+p.Outsorted+p.Spoiled+p.OnLine+p.Left {
			found = append(found, "pieces")
		}
	}
	if lost != s.Defective+s.Diverted+s.Outsorted+s.Spoiled {
		found = append(found, "losses")
	}
	if !same(float64(o.Time.Shift), float64(o.Time.Running+o.Time.Breaks+o.Stopped().Total())) {
		found = append(found, "time")
	}
	return found
}

func TestLedgerErrors(t *testing.T) {
	balanced := func() *Outcome {
		o := handOutcome(10, 4)
		o.Sets = Sets{Started: 6, Good: 1, Defective: 1, Diverted: 1, Outsorted: 1, Spoiled: 1, OnLine: 1}
		o.Stations[1].Pieces = Pieces{
			Loaded: 7, Good: 1, Defective: 1, Diverted: 1, Outsorted: 1, Spoiled: 1, OnLine: 1, Left: 1,
		}
		o.Stations[2].Stops[CauseJam] = StopTotal{Count: 1, Waiting: 1, Working: 2, Restarting: 3}
		o.Stations[3].Lost[Misfeed], o.Stations[4].Lost[Jam] = 3, 1
		return o
	}
	assert.Empty(t, ledgerErrors(balanced()))
	for name, spoil := range map[string]func(*Outcome){
		"sets":   func(o *Outcome) { o.Sets.OnLine++ },
		"pieces": func(o *Outcome) { o.Stations[1].Pieces.Left-- },
		"time":   func(o *Outcome) { o.Stations[2].Stops[CauseJam].Working += 1e-6 },
		"losses": func(o *Outcome) { o.Stations[4].Lost[Jam]++ },
	} {
		o := balanced()
		spoil(o)
		assert.Equal(t, []string{name}, ledgerErrors(o))
	}
}
