package study

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"netrate/model/runs"
)

// The limit of a clause on a count is a whole number in the pieces of a test: as many pass and one more fails,
// whatever the limit and the pieces.
func TestAcceptanceMostIsWhatPasses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		limit, err := strconv.ParseFloat(strconv.Itoa(rapid.IntRange(1, 9999).Draw(t, "limit"))+rapid.SampledFrom([]string{"e-3", "e-2", "e-1"}).Draw(t, "digits"), 64)
		require.NoError(t, err)
		c := &AcceptanceClause{Of: rapid.SampledFrom([]AcceptanceFigure{AcceptanceStops, AcceptanceDefective}).Draw(t, "of"), Limit: Number(limit)}
		pieces := float64(1000 * rapid.IntRange(1, 1000).Draw(t, "thousands"))
		most := float64(c.Most(pieces))
		assert.GreaterOrEqual(t, most, 0.0)
		assert.True(t, c.Passes(c.Counts()*most/pieces), "%v in %v by %v", most, pieces, limit)
		assert.False(t, c.Passes(c.Counts()*(most+1)/pieces), "%v in %v by %v", most+1, pieces, limit)
	})
	c := &AcceptanceClause{Of: AcceptanceStops, Limit: 1.005}
	assert.EqualValues(t, 142, c.Most(142_272))
	assert.EqualValues(t, 201, c.Most(200_000), "exactly the limit passes")
}

// A limit is the number that is written: a contract that has it again has the same.
func TestAcceptanceLimitIsTheNumberWritten(t *testing.T) {
	for _, x := range []struct {
		of   float64
		want string
	}{{1.00412, "1.005"}, {0.3, "0.3"}, {1.1, "1.1"}, {67.631, "67.64"}, {0.00071231, "0.0007124"}, {12_341, "12350"}} {
		assert.Equal(t, x.want, strconv.FormatFloat(roundUp(x.of), 'g', -1, 64))
	}
}

// The good line has one risk: where the operating characteristic has it, and the bad line if it is made of the
// same file, it is that of the table.
func TestAcceptanceCurveHasTheRisksOfTheLines(t *testing.T) {
	q := smallAcceptance()
	q.Bad, q.Promised, q.Unacceptable, q.Clauses, q.Plan.Max, q.Hours = nil, 5400, 4500, nil, 200, 2
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	c := &a.Clauses[0]
	require.Greater(t, len(a.Curve), badPoint)
	good, bad := a.Curve[goodPoint], a.Curve[badPoint]
	assert.Equal(t, [2]Number{a.Good.Faults, a.Bad.Faults}, [2]Number{good.Faults, bad.Faults})
	assert.InDelta(t, float64(1-c.Seller.Share), float64(good.Passes.Share), 1e-12)
	assert.Equal(t, c.Buyer, bad.Passes)
	assert.InDelta(t, float64(a.Good.NetRate.Mean), float64(good.NetRate), 1e-6)
}

// What a test has shown of the clearing time is about lines at the levels of the clause, as its plan is: at the
// limit itself a good line is as bad or worse as often as it fails.
func TestAcceptanceClearingAtItsLevels(t *testing.T) {
	q := smallAcceptance()
	q.Hours, q.Plan.Max = 4, 200
	q.Clauses = []AcceptanceLevels{{Of: AcceptanceClearing, Good: 200, Bad: 300}}
	plan, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	c := &plan.Clauses[1]
	size, _ := (&acceptanceTest{Acceptance: q}).size(AcceptanceStops, plan)
	stops := float64(plan.Good.Stops)
	q.Result = &AcceptanceResult{Hours: 4, Good: 18_000, Sets: size, Stops: stops, Clearing: stops * float64(c.Limit), Defective: -1}
	judged, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	f := &judged.Result.Clauses[1]
	assert.InDelta(t, float64(c.Planned.Seller), float64(f.AsBad.Share), 0.02)
	assert.InDelta(t, float64(c.Planned.Buyer), float64(f.AsGood.Share), 0.02)
	assert.Nil(t, f.Whole)
}

// By hand: with a limit of 11.19 in a million one is allowed below 178,732 envelopes, and two from there on, as
// 2/11.19e-6 is 178,731.01; and 1 more from 268,097 on, as 3/11.19e-6 is 268,096.5.
func TestAcceptanceLimitsSteps(t *testing.T) {
	c := &AcceptanceClause{Of: AcceptanceDefective, Limit: 11.19}
	assert.Equal(t, 178_732.0, c.From(2))
	assert.Equal(t, 268_097.0, c.From(3))
	assert.Equal(t, Number(1), c.Most(178_731))
	assert.Equal(t, Number(2), c.Most(178_732))
}

// By hand: a line that showed one defective envelope in 180,000. Another with one in 165,000 is no worse, as the clause
// allows as many in few pieces less; one with two is. One with none is better, and is no worse.
func TestAcceptanceComparesAsItDecides(t *testing.T) {
	of := func(defective, pieces int64) *tested {
		return &tested{TrialSums: runs.TrialSums{Good: pieces - defective, Defective: defective}}
	}
	for _, c := range []struct {
		defective, pieces int64
		good, bad         bool // not worse, not better
	}{{0, 165_000, true, false}, {1, 165_000, true, true}, {2, 165_000, false, true}, {1, 195_000, true, true}, {2, 195_000, false, true}, {2, 250_000, true, true}} {
		x := of(c.defective, c.pieces)
		assert.Equal(t, c.good, x.within(AcceptanceDefective, 1.5, 180_000), c)
		assert.Equal(t, c.bad, !x.within(AcceptanceDefective, 0.5, 180_000), c)
	}
}
