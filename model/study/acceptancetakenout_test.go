package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/accept"
)

// Misfeeds that come in rows take out several sets each. The limit that is planned for lines at their own levels has
// the risks that it says in simulated tests of these lines, within chance; planned as if sets left one by one the
// seller’s would be many times as large.
func TestAcceptanceOfSetsTakenOut(t *testing.T) {
	good := shorter(modeltest.ReferenceLine(), 3600)
	modeltest.FirstOf[*model.Feeder](good).Streak = model.Streak{Given: true, Again: 0.7}
	q := &Acceptance{
		Good: good, Bad: runs.Faultier(good, 1.4), Hours: 4, Risks: accept.Risks{Seller: 0.05, Buyer: 0.1}, Plan: sim.Plan{Seed: 1, Max: 1000},
		Clauses: []AcceptanceLevels{{Of: AcceptanceTakenOut}},
	}
	own, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	q.Clauses[0].Good, q.Clauses[0].Bad = float64(own.Clauses[1].Good), float64(own.Clauses[1].Bad)
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	c := &a.Clauses[1]
	assert.Greater(t, c.Dispersion, Number(1.5))
	assert.Nil(t, c.Alone)
	seller, buyer := float64(c.Planned.Seller), float64(c.Planned.Buyer)
	assert.LessOrEqual(t, seller, 0.05)
	assert.True(t, float64(c.Seller.Low) <= seller && seller <= float64(c.Seller.High), "planned %v, seen %+v", seller, c.Seller)
	assert.InDelta(t, buyer, float64(c.Buyer.Share), 0.05, "the bad line’s sets need not leave together as the good one’s do")
	one := accept.EventPlan{Length: float64(a.Good.Sets), Allowed: accept.EventsAllowed(float64(a.Good.Sets), 1, q.Clauses[0].Good/1000, 0.05)}
	limit := 1000 * (float64(one.Allowed) + 0.5) / one.Length
	q.Clauses[0] = AcceptanceLevels{Of: AcceptanceTakenOut, Limit: limit}
	hopeful, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Greater(t, hopeful.Clauses[1].Seller.Low, Number(2*0.05), "one by one")
	t.Log(seller, c.Seller, buyer, c.Buyer, c.Dispersion, hopeful.Clauses[1].Seller)

	q.Clauses[0] = AcceptanceLevels{Of: AcceptanceTakenOut, Limit: float64(c.Limit)}
	q.Result = &AcceptanceResult{Hours: 4, Good: 60_000, Sets: 61_000, Stops: -1, Clearing: -1, Defective: -1, TakenOut: 1001}
	assert.ErrorContains(t, q.Check(), "60000 envelopes were delivered and 1001 sets diverted or outsorted, of 61000 sets started")
}
