package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/sim"
)

// lotsOfThree is a job of six sets whose pieces of A come in lots of three: in every second lot, on
// average, each piece jams, and in the others none does.
func lotsOfThree(pieces float64) *Line {
	return handLine(0, func(l *Line, a, _ *Feeder) {
		l.Job = Job{Sets: 6}
		a.Jam, a.Lots = 1, Lots{Of: pieces, Factors: []float64{0, 2}}
	})
}

// jammed is the outcome of the job if j of its pieces jam. Each jam stops the line for a walk of
// 10.25 s, work of 20.25 s and a restart of 4.25 s; the sixth set, or its pocket, reaches the delivery
// in cycle 6 + 5.
func jammed(j int64) *Outcome {
	n := sim.Seconds(j)
	o := handOutcome(11+34.75*n, 11)
	o.Cycles, o.Sets = 11, Sets{Started: 6, Good: 6 - j, Spoiled: j}
	o.Job = JobOutcome{Passes: 1, Finish: 11 + 34.75*n}
	a := &o.Stations[handA]
	a.fed(6, Pieces{Good: 6 - j, Spoiled: j})
	a.Faults[Jam], a.Lost[Jam] = j, j
	a.Stops[CauseJam] = StopTotal{Count: j, Waiting: 10.25 * n, Working: 20.25 * n, Restarting: 4.25 * n}
	a.Clearing = sim.Account{Calls: j, Done: j, Walking: 10.25 * n, Working: 20.25 * n}
	o.Stations[handB].fed(6-j, Pieces{Good: 6 - j})
	o.Stations[handInserter].fed(6-j, Pieces{Good: 6 - j})
	o.Stations[handDelivery].Removed = 6 - j
	return o
}

// The first lot has 1, 2 or 3 pieces left, so that the six pieces are of lots of 1, 3 and 2, of 2, 3
// and 1, or of 3 and 3, each as likely; and each lot is bad or not as likely. So of 24 jobs 4 have no jam, 2
// one, 2 two, 8 three, 2 four, 2 five and 4 six; and each has the ledgers of so many. Lots of four would
// have another count.
func TestLotsByHand(t *testing.T) {
	shares := []float64{4, 2, 2, 8, 2, 2, 4}
	const jobs = 1200
	tally := func(run func(seed uint64, replication int) *Outcome) (counts [7]float64) {
		for k := range jobs {
			o := run(3, k)
			j := o.Sets.Spoiled
			counts[j]++
			assert.Empty(t, unequal(jammed(j), o), "%d jams", j)
		}
		return counts
	}
	chi := func(counts [7]float64) (sum float64) {
		for j, n := range counts {
			expected := jobs * shares[j] / 24
			sum += (n - expected) * (n - expected) / expected
		}
		return sum
	}
	const most = 22.46 // chi-square of 6 degrees, 99.9 %: tables
	l := lotsOfThree(3)
	require.Empty(t, l.Check())
	assert.Less(t, chi(tally(engineRun(t, l))), most)
	assert.Less(t, chi(tally(slowly(l))), most, "the slow model")
	assert.Greater(t, chi(tally(engineRun(t, lotsOfThree(4)))), most, "this test cannot fail")
}
