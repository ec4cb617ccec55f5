package study

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim/accept"
	"netrate/sim/output"
)

// stagedAcceptance plans a test that may end after each shift.
func stagedAcceptance(t *testing.T) (*acceptanceTest, *AcceptanceAnswer) {
	t.Helper()
	q := smallAcceptance()
	q.Sequential = true
	test := newAcceptanceTest(q, nil)
	require.NoError(t, test.makeLines(t.Context()))
	require.NoError(t, test.findLength(t.Context()))
	require.NoError(t, test.confirm(t.Context()))
	require.NoError(t, test.inStages(t.Context()))
	return test, test.answer()
}

// Tests of good and of bad lines, run shift by shift on random events of their own, are judged by their
// counts: they end when the limits of the plan say so, and as many are decided wrongly as it says, by
// the net rate alone and with all clauses together, which are judged by hand here.
func TestAcceptanceJudgedByShifts(t *testing.T) {
	test, a := stagedAcceptance(t)
	require.NotNil(t, a.Stages.FailsAny)
	const tests = 400
	for i, s := range test.sides {
		one, err := model.New(s.line)
		require.NoError(t, err)
		wrong, together, hours := 0, 0, 0.0
		for k := range tests {
			r := shiftsOfATest(t, one, len(a.Stages.Shifts), 1000*k)
			test.Result = r
			d := test.decided()
			require.True(t, d.Over)
			assert.Equal(t, len(r.Parts), d.Parts+d.Later)
			assertAsPlanned(t, a.Stages, r, d)
			hours += float64(d.Hours) / tests
			if d.Passes == (i == 1) {
				wrong++
			}
			seen := r.first(d.Parts)
			each := d.Passes && 1000*seen.Stops/seen.Sets <= float64(a.Clauses[1].Limit) && seen.Clearing/seen.Stops <= float64(a.Clauses[2].Limit)
			if each == (i == 1) {
				together++
			}
		}
		alone, all, mean := a.Stages.Seller, a.Stages.FailsAny, a.Stages.MeanGood
		if i == 1 {
			alone, all, mean = a.Stages.Buyer, a.Stages.PassesAll, a.Stages.MeanBad
		}
		within := func(times int, p Proportion) {
			low, high := output.ExactInterval(int64(times), tests, 0.999)
			assert.Less(t, low, float64(p.High), "line %d", i)
			assert.Greater(t, high, float64(p.Low), "line %d", i)
		}
		within(wrong, alone)
		within(together, *all)
		assert.InEpsilon(t, float64(mean), hours, 0.1)
	}
	assert.Greater(t, a.Stages.FailsAny.Share, a.Stages.Seller.High, "clauses that are added make it larger: this test would see them left out")
}

// shiftsOfATest runs the shifts of a test.
func shiftsOfATest(t *testing.T, one *model.Sim, shifts, first int) *AcceptanceResult {
	t.Helper()
	r := &AcceptanceResult{}
	var o model.Outcome
	for k := range shifts {
		require.NoError(t, one.Run(91, first+k, &o))
		part := AcceptanceResult{Hours: 1, Good: float64(o.Sets.Good), Sets: float64(o.Sets.Started), Defective: float64(o.Sets.Defective)}
		for i := range o.Stations {
			for cause, stops := range o.Stations[i].Stops {
				if c := model.Cause(cause); c != model.CauseStock && c != model.CauseStarved {
					part.Stops += float64(stops.Count)
				}
			}
			part.Clearing += float64(o.Stations[i].Clearing.Working)
		}
		r.Parts = append(r.Parts, part)
	}
	*r = r.first(shifts)
	return r
}

// assertAsPlanned asserts that a test has ended at the first shift at which the table of the plan says so.
func assertAsPlanned(t *testing.T, s *AcceptanceStages, r *AcceptanceResult, d *AcceptanceEnded) {
	t.Helper()
	good := 0.0
	for k, stage := range s.Shifts {
		good += r.Parts[k].Good
		passes := stage.Passes != nil && good >= float64(*stage.Passes)
		if passes || stage.Fails != nil && good < float64(*stage.Fails) {
			assert.Equal(t, k+1, d.Parts)
			assert.Equal(t, passes, d.Passes)
			return
		}
	}
	t.Fatal("the plan does not end")
}

// Counts that end before anything is decided leave the test open; short rows are taken together; a
// stop clause has a sequential test of its own, with the risks of looks after each row.
func TestAcceptanceNotOver(t *testing.T) {
	test, a := stagedAcceptance(t)
	middle := float64(*a.Stages.Shifts[len(a.Stages.Shifts)-1].Passes) / float64(len(a.Stages.Shifts))
	part := AcceptanceResult{Hours: 0.25, Good: middle / 4, Sets: middle / 4 * 1.02, Stops: 1, Clearing: -1, Defective: -1}
	test.Result = &AcceptanceResult{Parts: []AcceptanceResult{part, part, part}}
	*test.Result = test.Result.first(3)
	d := test.decided()
	assert.False(t, d.Over)
	assert.Equal(t, 3, d.Parts)
	require.Len(t, d.Looks, 1, "the second row makes half a shift")
	assert.EqualValues(t, 0.5, d.Looks[0].Hours)
	assert.True(t, math.IsNaN(test.Result.figure(AcceptanceClearing)))

	for range 400 {
		test.Result.Parts = append(test.Result.Parts, part)
	}
	*test.Result = test.Result.first(len(test.Result.Parts))
	stops := test.decidedAlone(&a.Clauses[1], a)
	require.NotNil(t, stops)
	require.True(t, stops.Over)
	require.NotNil(t, stops.Risk)
	assert.Less(t, float64(*stops.Risk), 0.06)
	assert.Nil(t, test.decidedAlone(&a.Clauses[2], a), "of clearing each time is needed")

	q := smallAcceptance()
	q.Sequential, q.Result = true, &AcceptanceResult{Hours: 4, Good: 4000, Sets: -1, Stops: -1, Clearing: -1, Defective: -1}
	assert.ErrorContains(t, q.Check(), "is judged by the counts of each")
	q.Result.Parts = []AcceptanceResult{{Hours: 1}, {Hours: 3}}
	assert.ErrorContains(t, q.Check(), "row 2 is of 3 h, and the test may end after each shift of 1 h: want a row for each shift")
}

// The limits of a contract decide as they are, whatever the seed: those of a plan, given back, end a test
// where the plan does.
func TestAcceptanceByStagesOfAContract(t *testing.T) {
	test, plan := stagedAcceptance(t)
	q := smallAcceptance()
	q.Plan.Seed, q.Plan.Max = 9, 200
	q.Sequential, q.Stages = true, &test.staged
	one, err := model.New(test.sides[0].line)
	require.NoError(t, err)
	q.Result = shiftsOfATest(t, one, len(plan.Stages.Shifts), 0)
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.True(t, a.Stages.Asked)
	require.Len(t, a.Stages.Shifts, len(plan.Stages.Shifts))
	for k := range a.Stages.Shifts {
		assert.Equal(t, plan.Stages.Shifts[k].Passes, a.Stages.Shifts[k].Passes)
		assert.Equal(t, plan.Stages.Shifts[k].Fails, a.Stages.Shifts[k].Fails)
	}
	assertAsPlanned(t, plan.Stages, q.Result, a.Result.Decided)

	q.Stages = &accept.Stages{Pass: []float64{5, 6}, Fail: []float64{4, 5}}
	require.ErrorContains(t, q.Check(), "after the last shift, the one numbered 2, all is decided")
	q.Stages = &accept.Stages{Pass: []float64{5, 6}, Fail: []float64{7, 6}}
	require.ErrorContains(t, q.Check(), "after shift 1 a line passes at 5 good envelopes and fails below 7")
	q.Stages, q.Sequential = &test.staged, false
	require.ErrorContains(t, q.Check(), "limits after each shift are of a test")
}
