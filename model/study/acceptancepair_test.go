package study

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/modeltest"
	"netrate/sim"
	"netrate/sim/accept"
)

// confirmed returns a test of lines that are made for two net rates, with bad lots and bad days, as far as its
// limit is known.
func confirmed(t *testing.T, seed uint64, hours float64) *acceptanceTest {
	t.Helper()
	q := &Acceptance{
		Good: withLotsAndDays(shorter(modeltest.ReferenceLine(), 3600)), Promised: 4400, Unacceptable: 3700,
		Risks: accept.Risks{Seller: 0.05, Buyer: 0.05}, Hours: hours, Plan: sim.Plan{Seed: seed, Max: AcceptanceLeast},
	}
	x := newAcceptanceTest(q, nil)
	require.NoError(t, x.makeLines(t.Context()))
	require.NoError(t, x.findLength(t.Context()))
	require.NoError(t, x.confirm(t.Context()))
	return x
}

// Plans that differ in their random events alone have limits as far apart as each says of its own, and no more:
// lines that are made by other shifts than those of the tests would put them further apart. In a test that is
// longer than whole shifts, these deliver what the lines are made for.
func TestAcceptanceLimitsOfOtherSeeds(t *testing.T) {
	const seeds = 6
	var limits, halves sim.Sample
	for seed := range uint64(seeds) {
		x := confirmed(t, seed+1, 10)
		for i, s := range x.sides {
			rates := s.figures(AcceptanceRate)
			assert.InDelta(t, float64(x.asked(i)), rates.Mean()/10, pairMet*rates.Interval(Level).Half/10+1e-9, "seed %d, line %d", seed, i)
		}
		limits, halves = append(limits, x.own), append(halves, x.rateWithin())
	}
	z := limits.SD() / (halves.Mean() / 2)
	t.Logf("limits %v, each within %v", limits, halves)
	assert.Less(t, z, math.Sqrt(20.52/(seeds-1)), "one in a thousand of chi-square with 5 degrees of freedom is above that")
	x := confirmed(t, 1, 10.5)
	assert.InDelta(t, 4400, x.inWhole(x.sides[0]).Mean(), 4)
	assert.Less(t, x.pair.off, 4.0)
}

// A test that is shorter than a shift says nothing of one: its lines are those that were looked for, and what they
// may be off is in what is said of the limit.
func TestAcceptancePairOfAPartOfAShift(t *testing.T) {
	x := confirmed(t, 1, 0.5)
	assert.Equal(t, [2]float64{x.sides[0].faults, x.sides[1].faults}, x.pair.sought)
	assert.Positive(t, x.pair.off)
	assert.Greater(t, x.rateWithin(), 0.5*x.pair.off)
}
