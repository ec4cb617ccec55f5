package study

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A contract of 120 h at 12,000 cycles an hour demands 855,140 envelopes and allows 1.2 stops in 1,000 sets. By hand:
// clocks may be off by 0.6 h, so that in 2 h that are missing 31,200 can come, and in 8 h 103,200.
func TestAcceptanceCutByHand(t *testing.T) {
	const demand = 855_140
	for _, x := range []struct {
		name            string
		hours           float64
		good            float64
		passes, settled bool
	}{
		{"reached after 112 h", 112, 868_000, true, true},
		{"reached to the envelope", 112, demand, true, true},
		{"one is missing", 112, demand - 1, false, false},
		{"can no longer be reached", 118, 693_000, false, true},
		{"one too many is missing", 118, demand - 31_201, false, true},
		{"can be reached at every cycle", 118, demand - 31_200, false, false},
		{"too few in more hours", 122, demand - 1, false, true},
		{"enough in more hours, whatever came beyond", 122, demand + 31_200, true, true},
		{"enough in more hours, but perhaps beyond", 122, demand + 31_199, false, false},
	} {
		passes, settled := cutOf(x.hours).Settles(&AcceptanceClause{Of: AcceptanceRate}, &AcceptanceResult{Good: x.good}, demand)
		assert.Equal(t, [2]bool{x.passes, x.settled}, [2]bool{passes, settled}, x.name)
	}
	stops := &AcceptanceClause{Of: AcceptanceStops, Limit: 1.2, Asked: true}
	for _, x := range []struct {
		name            string
		hours           float64
		stops, sets     float64
		passes, settled bool
	}{
		{"more than the most sets allow", 118, 1238, 1_000_000, false, true}, // 1.2 in 1,000 of 1,031,200 are 1,237.44
		{"as many as the most sets allow", 118, 1237, 1_000_000, false, false},
		{"none as yet", 118, 0, 1_000_000, false, false},
		{"fewer in more hours than in the fewest sets", 122, 1162, 1_000_000, true, true}, // of 968,800: 1,162.56
		{"one more", 122, 1163, 1_000_000, false, false},
		{"too many, however many came beyond", 122, 32_401, 1_000_000, false, true}, // 31,200 of them, and 1,201 in a million
	} {
		passes, settled := cutOf(x.hours).Settles(stops, &AcceptanceResult{Stops: x.stops, Sets: x.sets}, demand)
		assert.Equal(t, [2]bool{x.passes, x.settled}, [2]bool{passes, settled}, x.name)
	}
	last := cutOf(119.9)
	last.Most = 100 // with no clock to be off, and slower
	passes, settled := last.Settles(stops, &AcceptanceResult{Stops: 1100, Sets: 1_000_000}, demand)
	assert.Equal(t, [2]bool{true, true}, [2]bool{passes, settled}, "one at each of the last cycles is within the limit")

	_, settled = cutOf(118).Settles(&AcceptanceClause{Of: AcceptanceStops, Limit: 1.2}, &AcceptanceResult{Stops: 1e5, Sets: 1e6}, demand)
	assert.False(t, settled, "no limit of a contract")
	_, settled = cutOf(118).Settles(&AcceptanceClause{Of: AcceptanceClearing, Limit: 50, Asked: true}, &AcceptanceResult{Stops: 100, Clearing: 1e6}, demand)
	assert.False(t, settled, "a mean, which any time may be added to")
}

// cutOf returns the cut of a contract of 120 h, of which some were run.
func cutOf(hours float64) *AcceptanceCut {
	left := 120 - hours
	return &AcceptanceCut{Left: Number(left), Clocks: 0.6, Speed: 12_000, Most: Number(math.Round(12_000 * (math.Abs(left) + 0.6)))}
}

// Whatever comes in the hours between, a test that was settled is judged so when its hours are those that were
// signed; if settling allowed for fewer cycles than there can be, it would not be.
func TestAcceptanceCutIsNeverContradicted(t *testing.T) {
	contradicted := func(t *rapid.T, allows float64) bool {
		of := rapid.SampledFrom([]AcceptanceFigure{AcceptanceRate, AcceptanceStops, AcceptanceDefective}).Draw(t, "of")
		most := rapid.IntRange(1, 5000).Draw(t, "most")
		first, then := countsOf(t, 20_000), countsOf(t, rapid.IntRange(0, most).Draw(t, "cycles"))
		first.Sets, first.Good = first.Sets+1, first.Good+1
		both := AcceptanceResult{Good: first.Good + then.Good, Sets: first.Sets + then.Sets, Stops: first.Stops + then.Stops, Defective: first.Defective + then.Defective}
		x := &AcceptanceCut{Left: 1, Most: Number(float64(most) * allows)}
		seen, signed := &first, &both
		if rapid.Bool().Draw(t, "beyond") {
			x.Left, seen, signed = -1, &both, &first
		}
		demand := signed.Good + float64(rapid.IntRange(-300, 300).Draw(t, "more")) // else it is seldom near
		c := &AcceptanceClause{Of: of, Asked: true, Limit: Number(signed.figure(of) * rapid.Float64Range(0.9, 1.1).Draw(t, "limit"))}
		passes, settled := x.Settles(c, seen, demand)
		is := c.Passes(signed.figure(of))
		if of == AcceptanceRate {
			is = signed.Good >= demand
		}
		return settled && passes != is
	}
	rapid.Check(t, func(t *rapid.T) { require.False(t, contradicted(t, 1)) })
	wrong := 0
	rapid.Check(t, func(t *rapid.T) {
		if contradicted(t, 0.2) {
			wrong++
		}
	})
	assert.Positive(t, wrong, "a bound that is too low goes unseen: this test cannot fail")
}

// countsOf returns what can come in a number of cycles.
func countsOf(t *rapid.T, cycles int) AcceptanceResult {
	of := func(most float64, what string) float64 {
		return math.Floor(most * rapid.SampledFrom([]float64{0, 0.01, 0.5, 0.9, 1}).Draw(t, what))
	}
	sets := of(float64(cycles), "sets")
	delivered := of(sets, "delivered")
	defective := of(delivered, "defective")
	return AcceptanceResult{Sets: sets, Good: delivered - defective, Defective: defective, Stops: of(float64(cycles), "stops")}
}

// A whole test passes only when all of it is settled, fails with the first clause that is, and is open between.
func TestAcceptanceCutOfAllClauses(t *testing.T) {
	q := smallAcceptance()
	q.Plan.Max, q.Hours, q.Demand = 200, 8, 40_000
	q.Clauses = []AcceptanceLevels{{Of: AcceptanceStops, Limit: 8}}
	q.Result = &AcceptanceResult{Hours: 7.5, Good: 1, Sets: 46_000, Stops: 1, Clearing: -1, Defective: -1}
	test := newAcceptanceTest(q, nil)
	for _, step := range []func(context.Context) error{test.makeLines, test.findLength, test.confirm, test.asItWas} {
		require.NoError(t, step(t.Context()))
	}
	a := test.answer()
	for _, x := range []struct {
		name         string
		good, stops  float64
		passes, open bool
	}{
		{"the demand is reached, the stops are open", 45_000, 10, false, true},
		{"both are open", 39_000, 10, false, true},
		{"the demand is out of reach", 20_000, 10, false, false},
		{"too many stops, the demand is open", 39_000, 900, false, false},
	} {
		test.Result = &AcceptanceResult{Hours: 7.5, Good: x.good, Sets: 46_000, Stops: x.stops, Clearing: -1, Defective: -1}
		v := test.verdict(a)
		require.NotNil(t, v.Cut)
		assert.InDelta(t, float64(v.Cut.Speed)*0.54, float64(v.Cut.Most), 1)
		assert.Equal(t, [2]bool{x.passes, x.open}, [2]bool{v.Passes, v.NotJudged}, x.name)
	}
}
