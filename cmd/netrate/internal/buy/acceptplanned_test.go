package buy

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
	"netrate/sim/accept"
)

// planned are lines that are offered, and what is asked of them.
func planned(t *testing.T) map[string]*study.Acceptance {
	t.Helper()
	tender, _, err := desk.LoadExample("tender")
	require.NoError(t, err)
	lines := page.AlternativesOf(tender)
	small, err := os.ReadFile("../../testdata/small.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("small.yaml", small)
	require.NoError(t, err)
	odd := sc.Line.Clone()
	odd.Shift = 40 * 60 // 0.6666… h, which two digits do not say
	slow := odd.Clone()
	slow.Speed = 0.8 * odd.RunSpeed()
	return map[string]*study.Acceptance{
		"tender":     {Good: lines[0].Line, Bad: lines[1].Line, Clauses: []study.AcceptanceLevels{{Of: study.AcceptanceStops}, {Of: study.AcceptanceClearing, Good: 50, Bad: 70}}},
		"odd shifts": {Good: odd, Bad: slow, Clauses: []study.AcceptanceLevels{{Of: study.AcceptanceStops}}},
		"in stages":  {Good: lines[0].Line, Bad: lines[1].Line, Sequential: true, Risks: accept.Risks{Seller: 0.02, Buyer: 0.02}},
	}
}

// limitsOf returns the limits after each shift that a plan has, as a contract gives them.
func limitsOf(plan *study.AcceptanceStages) *accept.Stages {
	s := &accept.Stages{}
	limit := func(x *study.Number, none int) float64 {
		if x == nil {
			return math.Inf(none)
		}
		return float64(*x)
	}
	for _, x := range plan.Shifts {
		s.Pass, s.Fail = append(s.Pass, limit(x.Passes, 1)), append(s.Fail, limit(x.Fails, -1))
	}
	return s
}

// A test that is planned and then judged is one question: from the same file, options and seed the judging has
// the very limits of the plan, whether the hours are looked for again or given as the plan says them, with two
// digits, or the limits after each shift are those that the plan wrote; and of limits that are signed it is known
// that they are those.
func TestPlanAndJudgingHaveTheSameLimits(t *testing.T) {
	for name, q := range planned(t) {
		for seed := range uint64(2) {
			if q.Sequential && seed > 0 { // which takes three times as many tests
				break
			}
			t.Run(fmt.Sprint(name, ", seed ", seed), func(t *testing.T) {
				q := *q
				if q.Plan = (sim.Plan{Seed: seed, Max: 200}); q.Risks.Seller == 0 {
					q.Risks = accept.Risks{Seller: 0.1, Buyer: 0.1}
				}
				ask := func(x study.Acceptance) *study.AcceptanceAnswer {
					a, err := x.Ask(t.Context(), nil)
					require.NoError(t, err)
					return a
				}
				plan := ask(q)
				said, err := strconv.ParseFloat(strconv.FormatFloat(float64(plan.Hours), 'f', 2, 64), 64)
				require.NoError(t, err)
				if !q.Sequential {
					whole := float64(plan.Hours / plan.Shift)
					assert.InDelta(t, math.Round(whole), whole, 1e-9, "whole shifts")
					given := q
					given.Hours = said
					assert.Equal(t, plan.Clauses, ask(given).Clauses)
					q.Hours, q.Demand = said, float64(plan.Clauses[0].Limit)
				}
				q.Result = &study.AcceptanceResult{Hours: said, Good: float64(plan.Clauses[0].Limit), Sets: -1, Stops: -1, Clearing: -1, Defective: -1}
				shift := study.AcceptanceResult{Hours: float64(plan.Shift), Good: math.Floor(0.75 * float64(plan.Speed*plan.Shift)), Sets: -1, Stops: -1, Clearing: -1, Defective: -1}
				q.Result.Parts = []study.AcceptanceResult{shift}
				if q.Sequential {
					q.Result.Hours, q.Result.Good = shift.Hours, shift.Good
				}
				judged := ask(q)
				for i := range plan.Clauses {
					assert.Equal(t, plan.Clauses[i].Limit, judged.Clauses[i].Limit)
					assert.Equal(t, plan.Clauses[i].Chosen, judged.Clauses[i].Chosen)
					assert.Equal(t, plan.Clauses[i].Seller, judged.Clauses[i].Seller)
					assert.Equal(t, plan.Clauses[i].Buyer, judged.Clauses[i].Buyer)
				}
				assert.Equal(t, plan.Stages, judged.Stages)
				if q.Sequential {
					q.Stages = limitsOf(plan.Stages)
					signed := ask(q).Stages
					assert.True(t, signed.Asked)
					signed.Asked = false
					assert.Equal(t, plan.Stages, signed)
				}
			})
		}
	}
}
