package study

import (
	"context"
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/accept"
	"netrate/sim/output"
)

// acceptanceZ is the quantile of the normal distribution that one figure in 2000 is above.
const acceptanceZ = 3.2905

// shorter returns a line with short shifts, so that tests of several shifts are soon run.
func shorter(l *model.Line, shift sim.Seconds) *model.Line {
	c := l.Clone()
	c.Shift, c.Job = shift, model.Job{}
	return c
}

// withLotsAndDays returns a line one lot in five of whose every feeder is four times as bad as the
// others, and whose days differ by a quarter.
func withLotsAndDays(l *model.Line) *model.Line {
	c := l.Clone()
	c.Days.CV = 0.25
	for _, s := range c.Stations {
		if f, is := s.(*model.Feeder); is {
			f.Lots = model.Lots{Of: 3000, Bad: 0.2, Times: 4}
		}
	}
	return c
}

// Good and bad lines are tested 2 000 times each as the answer says, on random events of their own and
// without a look at how it runs its tests; one pair has bad lots and bad days. The risks are at or below
// those stated, within what 2 000 tests can say, of the test of fixed length and of the one that may end
// after each shift; a count that is as much too low as a tenth of what lies between the two lines breaks
// the buyer’s, and so do limits of the shifts that are a quarter as far apart.
func TestAcceptanceRisks(t *testing.T) {
	reference := shorter(modeltest.ReferenceLine(), 3600)
	slower := reference.Clone()
	slower.Speed, slower.Crew.Operators = 0.85*reference.RunSpeed(), 2
	uneven := withLotsAndDays(reference)
	for name, q := range map[string]*Acceptance{
		"reference line, more faults":   {Good: reference, Bad: runs.Faultier(reference, 1.4)},
		"a slower line, with more crew": {Good: reference, Bad: slower},
		"net rates":                     {Good: reference, Promised: 5400, Unacceptable: 4500},
		"bad lots and bad days":         {Good: uneven, Bad: runs.Faultier(uneven, 1.8)},
	} {
		t.Run(name, func(t *testing.T) {
			q.Risks = accept.Risks{Seller: 0.05, Buyer: 0.1}
			q.Plan = sim.Plan{Seed: 1, Max: 1000}
			q.Sequential = true
			a, err := q.Ask(t.Context(), nil)
			require.NoError(t, err)
			good, bad := runs.Faultier(q.Good, float64(a.Good.Faults)), q.Bad
			if bad == nil {
				bad = runs.Faultier(q.Good, float64(a.Bad.Faults))
			}
			limit := float64(a.Clauses[0].Limit)
			const tests = 2000
			over := func(wrong int, risk float64) float64 {
				// Both the limit, by 1 000 tests, and these tests are by chance.
				return (float64(wrong) - risk*tests) / math.Sqrt(risk*(1-risk)*tests*(1+2))
			}
			goods, bads := newTester(t, good, a.Hours), newTester(t, bad, a.Hours)
			var failed, passed, generous int
			lower := limit - 0.1*float64((a.Good.NetRate.Mean-a.Bad.NetRate.Mean)*a.Hours)
			for k := range tests {
				if goods.delivered(t, k) < limit {
					failed++
				}
				n := bads.delivered(t, k)
				if n >= limit {
					passed++
				}
				if n >= lower-limit*0.01 {
					generous++
				}
			}
			assert.Less(t, over(failed, 0.05), acceptanceZ, "%d good lines failed", failed)
			assert.Less(t, over(passed, 0.1), acceptanceZ, "%d bad lines passed", passed)
			assert.Greater(t, over(generous, 0.1), acceptanceZ, "%d bad lines passed a lower count: this test cannot fail", generous)
			assert.Greater(t, a.Hours, Number(0))
			goods.inStages(t, a.Stages, func(failed, hours float64, narrow bool) {
				if !narrow {
					assert.Less(t, over(int(failed*tests), 0.05), acceptanceZ, "%v of the good lines failed in stages", failed)
					assert.InDelta(t, float64(a.Stages.MeanGood), hours, 0.2*float64(a.Hours))
				}
			})
			bads.inStages(t, a.Stages, func(failed, _ float64, narrow bool) {
				z := over(int((1-failed)*tests), 0.1)
				assert.Equal(t, narrow, z > acceptanceZ, "narrow limits %v: %v of the bad lines passed in stages", narrow, 1-failed)
			})
		})
	}
}

// inStages runs tests that may end after each shift, by the limits of an answer and by ones a quarter as
// far apart. It tells the share that failed, and how long they took.
func (x tester) inStages(t *testing.T, s *AcceptanceStages, told func(failed, hours float64, narrow bool)) {
	t.Helper()
	require.NotNil(t, s)
	const tests = 2000
	for _, narrow := range []bool{false, true} {
		failed, hours := 0.0, 0.0
		var o model.Outcome
		for test := range tests {
			good := 0.0
			for k, stage := range s.Shifts {
				require.NoError(t, x.shifts[0].Run(77, 1000*test+k, &o))
				good += float64(o.Sets.Good)
				passes, fails := math.Inf(1), math.Inf(-1)
				if stage.Passes != nil {
					passes = float64(*stage.Passes)
				}
				if stage.Fails != nil {
					fails = float64(*stage.Fails)
				}
				if middle := (passes + fails) / 2; narrow && !math.IsNaN(middle) && !math.IsInf(middle, 0) {
					passes, fails = middle+(passes-middle)/4, middle-(middle-fails)/4
				}
				if good >= passes {
					hours += float64(stage.Hours)
					break
				}
				if good < fails {
					failed, hours = failed+1, hours+float64(stage.Hours)
					break
				}
			}
		}
		told(failed/tests, hours/tests, narrow)
	}
}

// Bad lots and bad days that the plan knows nothing of make a good line fail far more often than it
// says; a plan that knows of them is longer. One of a single shift does not tell the two lines apart,
// whatever it demands: it does not see days.
func TestAcceptanceOfLotsAndDays(t *testing.T) {
	even := shorter(modeltest.ReferenceLine(), 3600)
	uneven := withLotsAndDays(even)
	ask := func(l *model.Line, hours float64) *AcceptanceAnswer {
		q := &Acceptance{
			Good: l, Bad: runs.Faultier(l, 1.5), Hours: hours,
			Risks: accept.Risks{Seller: 0.05, Buyer: 0.05}, Plan: sim.Plan{Seed: 1, Max: 400},
		}
		a, err := q.Ask(t.Context(), nil)
		require.NoError(t, err)
		return a
	}
	ignorant, knowing := ask(even, 0), ask(uneven, 0)
	assert.False(t, ignorant.Spread)
	assert.True(t, knowing.Spread)
	assert.Greater(t, knowing.Hours, 1.3*ignorant.Hours) // 1.6 times by 2,000 tests; by 400 an eighth more or less

	// Tests of the uneven line by the demand of the ignorant plan, as a share of its own mean.
	mean := float64(ignorant.Good.NetRate.Mean)
	share := float64(ignorant.Clauses[0].Limit/ignorant.Hours) / mean
	tests := newTester(t, uneven, ignorant.Hours)
	failed := 0
	const times = 1000 // of which by chance 75 is 3.6 standard deviations above 50
	for k := range times {
		if tests.delivered(t, k) < share*float64(knowing.Good.NetRate.Mean)*float64(ignorant.Hours) {
			failed++
		}
	}
	assert.Greater(t, failed, 75, "of the good lines fail, where one in 20 was planned")

	short := ask(uneven, 1)
	assert.False(t, short.Clauses[0].Holds)
	assert.Greater(t, short.Clauses[0].Seller.Low, Number(0.1))

	// No bad lot: both lines deliver more, and the bad one passes more often.
	require.NotNil(t, knowing.Material)
	assert.Nil(t, ignorant.Material)
	assert.Greater(t, knowing.Material.Bad, knowing.Bad.NetRate.Mean)
	assert.Greater(t, knowing.Material.Buyer.Low, knowing.Clauses[0].Buyer.High)
	assert.Less(t, knowing.Material.Seller.Share, knowing.Clauses[0].Seller.Share)
}

// A line without its bad lots has the faults of those that are not bad: with a share of 0.2 of lots four
// times as bad, 1/(1 + 0.2·3) = 0.625 of the mean.
func TestWithoutBadLots(t *testing.T) {
	l := withLotsAndDays(modeltest.ReferenceLine())
	before := modeltest.FirstOf[*model.Feeder](l)
	after := runs.WithoutBadLots(l)
	feeder := modeltest.FirstOf[*model.Feeder](after)
	assert.InEpsilon(t, 0.625*before.Misfeed, feeder.Misfeed, 1e-12)
	assert.False(t, feeder.Lots.Given())
	assert.True(t, before.Lots.Given(), "the line itself is as it was")
	assert.Equal(t, modeltest.FirstOf[*model.Inserter](l).Jam, modeltest.FirstOf[*model.Inserter](after).Jam)
	even := modeltest.ReferenceLine()
	assert.Same(t, even, runs.WithoutBadLots(even))
}

// tester runs tests of some hours, shift by shift.
type tester struct{ shifts []*model.Sim }

func newTester(t *testing.T, l *model.Line, hours Number) (all tester) {
	t.Helper()
	whole, err := model.New(l)
	require.NoError(t, err)
	left := sim.Seconds(hours * 3600)
	for ; left > l.Shift+1e-6; left -= l.Shift {
		all.shifts = append(all.shifts, whole)
	}
	last := *l
	last.Shift = left
	s, err := model.New(&last)
	require.NoError(t, err)
	all.shifts = append(all.shifts, s)
	return all
}

// delivered returns what a test delivers.
func (x tester) delivered(t *testing.T, test int) (good float64) {
	t.Helper()
	var o model.Outcome
	for k, s := range x.shifts {
		require.NoError(t, s.Run(99, 1000*test+k, &o))
		good += float64(o.Sets.Good)
	}
	return good
}

func smallAcceptance() *Acceptance {
	l := shorter(modeltest.ReferenceLine(), 3600)
	return &Acceptance{
		Good: l, Bad: runs.Faultier(l, 1.3), Names: [2]string{"good", "bad"},
		Risks: accept.Risks{Seller: 0.05, Buyer: 0.05}, Plan: sim.Plan{Seed: 1, Max: 400},
		Clauses: []AcceptanceLevels{{Of: AcceptanceStops}, {Of: AcceptanceClearing, Good: 40, Bad: 80}},
	}
}

// The answer is the same for any number of workers, its parts agree, and its JSON has all of it.
func TestAcceptanceAnswer(t *testing.T) {
	answers := make([]string, 2)
	for i, workers := range []int{1, 3} {
		q := smallAcceptance()
		q.Plan.Workers = workers
		told := 0
		a, err := q.Ask(t.Context(), func(s Sofar[AcceptanceAnswer]) {
			told++
			assert.LessOrEqual(t, s.Done, s.Most)
		})
		require.NoError(t, err)
		assert.Positive(t, told)
		text, err := json.Marshal(a)
		require.NoError(t, err)
		answers[i] = string(text)
		assert.GreaterOrEqual(t, a.FailsAny.Share, a.Clauses[0].Seller.Share)
		assert.LessOrEqual(t, a.PassesAll.Share, a.Clauses[0].Buyer.Share)
		assert.True(t, a.Clauses[0].Holds)
		assert.Len(t, a.Curve, curvePoints)
		for k := 1; k < len(a.Curve); k++ {
			assert.Less(t, a.Curve[k].NetRate, a.Curve[k-1].NetRate)
			assert.LessOrEqual(t, a.Curve[k].Passes.Share, a.Curve[k-1].Passes.Share)
		}
		assert.InDelta(t, 1-float64(a.Clauses[0].Seller.Share), float64(a.Curve[2].Passes.Share), 0.05, "the third point is the good line")
		assert.Less(t, a.Struck.Seller.Share, a.Clauses[0].Seller.Share+0.001, "striking out the worst hours helps whoever is tested")
	}
	assert.Equal(t, answers[0], answers[1])
	assert.Contains(t, answers[0], `"of":"stops"`)
	assert.NotContains(t, answers[0], "NaN")
}

// A test of given hours has the risks that it has, which are more than those asked for if it is too short.
func TestAcceptanceTooShort(t *testing.T) {
	q := smallAcceptance()
	q.Bad, q.Hours = runs.Faultier(q.Good, 1.1), 1
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.EqualValues(t, 1, a.Hours)
	assert.False(t, a.Clauses[0].Holds)
	assert.Greater(t, a.Clauses[0].Seller.Share, Number(0.1))
	assert.True(t, a.Given)
}

// What a test has shown: the chances are those of the simulated tests, and a figure that was not
// counted decides nothing.
func TestAcceptanceResult(t *testing.T) {
	q := smallAcceptance()
	q.Result = &AcceptanceResult{Hours: 8, Good: 8 * 5000, Sets: 41000, Stops: 41, Clearing: -1, Defective: -1}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	v := a.Result
	require.NotNil(t, v)
	assert.EqualValues(t, 8, a.Hours)
	assert.Less(t, v.Rate.Low, Number(5000))
	assert.Greater(t, v.Rate.High, Number(5000))
	assert.True(t, v.Clauses[1].Counted)
	assert.InDelta(t, 1, float64(v.Clauses[1].Figure), 1e-12, "stops in 1,000 sets")
	assert.False(t, v.Clauses[2].Counted)
	assert.Equal(t, v.Clauses[0].Passes && v.Clauses[1].Passes, v.Passes)

	q.Demand = 41234
	demanded, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.EqualValues(t, 41234, demanded.Clauses[0].Limit)
	q.Demand = 0

	q.Result.Good, q.Result.Sets = 8*float64(a.Good.NetRate.Mean), 120_000
	better, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.InDelta(t, 0.5, float64(better.Result.Clauses[0].AsBad.Share), 0.1, "half of all good lines do no better than the mean")
	assert.True(t, better.Result.Clauses[0].Passes)
}

// What cannot have been counted is refused: a verdict on it would be believed.
func TestAcceptanceResultThatCannotBe(t *testing.T) {
	q := smallAcceptance()
	q.Result = &AcceptanceResult{Hours: 8, Good: 8 * q.Good.RunSpeed(), Sets: -1, Stops: -1, Clearing: -1, Defective: -1}
	require.NoError(t, q.Check())
	q.Result.Good *= 1.1
	require.ErrorContains(t, q.Check(), "cycles an hour at most")
	q.Result.Good, q.Result.Sets, q.Result.Defective = 8000, 8100, 100
	require.NoError(t, q.Check())
	q.Result.Defective = 101
	require.ErrorContains(t, q.Check(), "8101 envelopes were delivered of 8100 sets started: no more can be")
}

// A limit for a given level has the seller’s risk if the line is at that level.
func TestAcceptanceGivenLevels(t *testing.T) {
	q := smallAcceptance()
	q.Hours = 4
	measured, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	level := float64(measured.Clauses[1].Good)
	q.Clauses = []AcceptanceLevels{{Of: AcceptanceStops, Good: level, Bad: 1.5 * level}}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	c := &a.Clauses[1]
	assert.False(t, c.FromLines)
	require.NotNil(t, c.Planned)
	assert.LessOrEqual(t, c.Planned.Seller, Number(0.05))
	low, high := output.ExactInterval(int64(math.Round(0.05*400)), 400, 0.999)
	assert.Less(t, float64(c.Seller.Share), high, "stops of the model come nearly as those of the plan: from %v to %v", low, high)
	assert.Greater(t, float64(c.Limit), level)
	assert.Less(t, float64(c.Limit), 1.5*level)
}

// A clause that is planned as a number is judged as one: as many as are allowed pass in a test with
// somewhat fewer sets, and one more fails. The chances are those at the given levels: of 2 where 1
// is expected of a good line, 1 − 2/e.
func TestAcceptanceJudgesNumbers(t *testing.T) {
	q := smallAcceptance()
	q.Hours = 4
	q.Clauses = []AcceptanceLevels{{Of: AcceptanceStops, Good: 2, Bad: 3}}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	allowed, sets := float64(a.Clauses[1].Allowed), float64(a.Good.Sets)
	for _, c := range []struct {
		stops, sets float64
		passes      bool
	}{{allowed, sets, true}, {allowed, 0.998 * sets, true}, {allowed + 1, sets, false}} {
		q.Result = &AcceptanceResult{Hours: 4, Good: 0.9 * c.sets, Sets: c.sets, Stops: c.stops, Clearing: -1, Defective: -1}
		a, err := q.Ask(t.Context(), nil)
		require.NoError(t, err)
		assert.Equal(t, c.passes, a.Result.Clauses[1].Passes, "%v stops in %v sets", c.stops, c.sets)
	}
	asBad, asGood, ok := new(acceptanceTest).atLevels(&AcceptanceClause{
		Of: AcceptanceDefective, Good: 1, Bad: 2, Planned: new(AcceptanceRisks),
	}, &AcceptanceResult{Good: 999_998, Defective: 2}, 2)
	require.True(t, ok)
	assert.InEpsilon(t, 1-2/math.E, float64(asBad.Share), 1e-9)
	assert.InEpsilon(t, 5*math.Exp(-2), float64(asGood.Share), 1e-9)
}

// Levels so high that millions of events are allowed are planned as others are, and the limit that is
// printed allows what the plan says.
func TestAcceptanceOfManyEvents(t *testing.T) {
	q := smallAcceptance()
	q.Hours = 4
	test := newAcceptanceTest(q, nil)
	test.sides[0] = &side{line: q.Good}
	a := &AcceptanceAnswer{Hours: 2000, Good: AcceptanceLine{NetRate: Mean{Mean: 9000}}}
	c := &AcceptanceClause{Of: AcceptanceDefective, Good: 1e5, Bad: 2e5}
	c.plan(test, a, nil, 0)
	assert.Greater(t, float64(c.Allowed), 1.8e6)
	assert.InDelta(t, math.Floor(float64(c.Limit)*18), float64(c.Allowed), 0)
	assert.LessOrEqual(t, float64(c.Planned.Seller), 0.05)
}

// Where clearing takes no time nothing can be planned on it, and that is said.
func TestAcceptanceOfNoClearing(t *testing.T) {
	q := smallAcceptance()
	q.Good = q.Good.Clone()
	for _, s := range q.Good.Stations {
		switch s := s.(type) {
		case *model.Feeder:
			s.Clear = sim.Constant(0)
		case *model.Inserter:
			s.Clear = sim.Constant(0)
		}
	}
	q.Bad, q.Hours = runs.Faultier(q.Good, 1.5), 4
	q.Clauses = []AcceptanceLevels{{Of: AcceptanceClearing, Good: 20, Bad: 40}}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, "clearing takes the good line no time", a.Clauses[1].NoTest)
}

// An uncertain line that is called good may not be: more of its tests fail.
func TestAcceptanceOfUncertainInputs(t *testing.T) {
	q := smallAcceptance()
	q.Good = q.Good.Clone()
	feeder := modeltest.FirstOf[*model.Feeder](q.Good)
	q.Good.UncertainInputs = []model.UncertainInput{{Station: feeder.Name, Name: "jam", Of: output.Between{Low: 0, Likely: feeder.Jam, High: 5 * feeder.Jam}}}
	require.Empty(t, q.Good.Check())
	q.Bad, q.Hours = runs.Faultier(q.Good.AtMeans(), 1.3), 20
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.NotNil(t, a.Drawn)
	assert.Greater(t, a.Drawn.Fails.Low, a.Clauses[0].Seller.High)
	assert.Equal(t, OnMeans, a.Basis.On)
	assert.Nil(t, a.LongRun, "of two lines that are written none is that of the file")
}

// Of the file’s line with uncertain inputs the long run is that of a run of it: the very one of as many draws.
func TestAcceptanceLongRunIsThatOfARun(t *testing.T) {
	q := smallAcceptance()
	q.Good = q.Good.Clone()
	feeder := modeltest.FirstOf[*model.Feeder](q.Good)
	q.Good.UncertainInputs = []model.UncertainInput{{Station: feeder.Name, Name: "jam", Of: output.Between{Low: 0, Likely: feeder.Jam, High: 5 * feeder.Jam}}}
	works := *q.Good
	works.Job = model.Job{}
	drawn, _, err := runs.RunUncertain(t.Context(), []*model.Line{&works}, sim.Plan{Seed: q.Plan.Seed, Max: acceptanceDraws}, UncertaintyEach, nil)
	require.NoError(t, err)
	u := UncertaintyOf(drawn[0])
	mean := drawn[0].NetRates().Mean()
	q.Bad, q.Promised, q.Unacceptable, q.Hours = nil, mean, 0.95*mean, 20
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.NotNil(t, a.LongRun)
	assert.Equal(t, u.LongRun, *a.LongRun)
	assert.Greater(t, (a.LongRun.High-a.LongRun.Low)/2, 2*a.Written.Half, "the means alone claim too much")
}

// A contract that is signed has limits of its own: the risks are theirs. Of events at given levels they
// are sums of the Poisson distribution.
func TestAcceptanceOfSignedLimits(t *testing.T) {
	q := smallAcceptance()
	q.Hours = 4
	q.Clauses = []AcceptanceLevels{{Of: AcceptanceStops, Limit: 3}, {Of: AcceptanceClearing, Good: 40, Bad: 80, Limit: 60}}
	chosen := smallAcceptance()
	chosen.Hours = 4
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	b, err := chosen.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.EqualValues(t, 3, a.Clauses[1].Limit)
	assert.EqualValues(t, 60, a.Clauses[2].Limit)
	assert.Equal(t, b.Clauses[1].Good, a.Clauses[1].Good)
	assert.NotEqual(t, b.Clauses[1].Limit, a.Clauses[1].Limit)
	assert.Equal(t, a.Clauses[1].Limit > b.Clauses[1].Limit, a.Clauses[1].Seller.Share < b.Clauses[1].Seller.Share)

	q.Clauses = []AcceptanceLevels{{Of: AcceptanceStops, Good: 1, Bad: 2, Limit: 1.5}}
	a, err = q.Ask(t.Context(), nil)
	require.NoError(t, err)
	c, sets := &a.Clauses[1], float64(a.Good.Sets)
	allowed := int64(1.5 * math.Round(sets) / 1000)
	assert.EqualValues(t, allowed, c.Allowed)
	risks := accept.EventPlan{Length: math.Round(sets), Allowed: allowed}.Risks(0.001, 0.002)
	assert.InDelta(t, risks.Seller, float64(c.Planned.Seller), 1e-12)
	assert.InDelta(t, risks.Buyer, float64(c.Planned.Buyer), 1e-12)
}

func TestAcceptanceRefuses(t *testing.T) {
	for want, change := range map[string]func(*Acceptance){
		"want more promised than unacceptable":      func(q *Acceptance) { q.Bad = nil; q.Promised, q.Unacceptable = 5000, 5000 },
		"want at least 200":                         func(q *Acceptance) { q.Plan.Max = 100 },
		"seller’s risk is 0.7":                      func(q *Acceptance) { q.Risks.Seller = 0.7 },
		"want the good one to deliver more":         func(q *Acceptance) { q.Good, q.Bad = q.Bad, q.Good },
		"without faults it has":                     func(q *Acceptance) { q.Bad = nil; q.Promised, q.Unacceptable = 50000, 5000 },
		"would take more than 2000 h":               func(q *Acceptance) { q.Bad = runs.Faultier(q.Good, 1.002) },
		"neither hours nor a demand are given":      func(q *Acceptance) { q.Sequential, q.Hours = true, 8 },
		"and the hours of the test":                 func(q *Acceptance) { q.Clauses = []AcceptanceLevels{{Of: AcceptanceStops, Limit: 2}} },
		"want more of it to be bad, and both above": func(q *Acceptance) { q.Clauses = []AcceptanceLevels{{Of: AcceptanceStops, Good: 2, Bad: 1}} },
	} {
		t.Run(want, func(t *testing.T) {
			q := smallAcceptance()
			change(q)
			_, err := q.Ask(t.Context(), nil)
			assert.ErrorContains(t, err, want)
		})
	}
}

// Where the work is cut short nothing is said.
func TestAcceptanceInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	q := smallAcceptance()
	a, err := q.Ask(ctx, func(s Sofar[AcceptanceAnswer]) {
		if s.Done == 300 {
			cancel()
		}
	})
	require.NoError(t, err)
	assert.Nil(t, a)
}

// Trials of other lengths are in other shifts than those before, whatever their numbers; those of one
// stage are in the same, so that both lines have the same random events.
func TestAcceptanceFreshShifts(t *testing.T) {
	line := shorter(modeltest.ReferenceLine(), 3600)
	test := &acceptanceTest{Acceptance: smallAcceptance(), fresh: 7}
	spent := 7
	for _, shifts := range []int{12, 5, 5, 1, 3, 40, 2} {
		trial := &runs.Trial{Line: line, Length: sim.Seconds(shifts) * 3600, Window: 3600}
		for range 2 { // lines
			test.begin(trial, 100)
			first := trial.First * trial.Shifts()
			assert.GreaterOrEqual(t, first, spent, "%d shifts", shifts)
			assert.Less(t, first, spent+shifts, "%d shifts", shifts)
		}
		spent = (trial.First + 100) * shifts
		test.refresh()
	}
}

// The tests of a length are the same however it came about, and others than those that found it and than those
// of other lengths.
func TestAcceptanceTestsAreOfTheirLength(t *testing.T) {
	found := newAcceptanceTest(smallAcceptance(), nil)
	require.NoError(t, found.makeLines(t.Context()))
	require.NoError(t, found.findLength(t.Context()))
	require.NoError(t, found.confirm(t.Context()))
	given := newAcceptanceTest(smallAcceptance(), nil)
	given.Hours = float64(found.length) / 3600
	require.NoError(t, given.makeLines(t.Context()))
	require.NoError(t, given.findLength(t.Context()))
	require.NoError(t, given.confirm(t.Context()))
	assert.Equal(t, found.sides, given.sides)
	assert.Equal(t, found.rate, given.rate)
	assert.NotEqual(t, found.Plan.Seed, found.seed)
	seed := found.seed
	found.length += 3600
	found.ofItsLength()
	assert.NotEqual(t, seed, found.seed)
}

// Hours as a plan says them, with two digits, are the shifts that they mean; others are whole seconds.
func TestAcceptanceLengthOfHours(t *testing.T) {
	test := newAcceptanceTest(smallAcceptance(), nil)
	test.sides[0] = &side{line: shorter(test.Good, 440*60)} // 7.33 h
	for hours, want := range map[float64]sim.Seconds{
		7.33: 26400, 14.67: 52800, 22: 79200, 7.3333333: 26400, 14.65: 52740, 24.5: 88200, 3: 10800, 0.0001: 1,
	} {
		assert.Equal(t, want, test.lengthOf(hours), "%g h", hours)
	}
}

// More envelopes than sets cannot be, but where shifts begin with the track as it was left.
func TestAcceptanceCanBe(t *testing.T) {
	q := smallAcceptance()
	q.Result = &AcceptanceResult{Hours: 8, Good: 40_100, Sets: 40_000, Stops: -1, Clearing: -1, Defective: -1}
	assert.ErrorContains(t, q.Check(), "40100 envelopes were delivered of 40000 sets started: no more can be")
	q.Good = q.Good.Clone()
	q.Good.Begins = model.Begins{Track: true}
	assert.NoError(t, q.Check())
}

// A test that was run as it was planned is judged by the very limits of the plan: the same question
// with what was counted has them to the last digit. One of other hours has limits of its own, and says
// of each that it is worked out anew; what a contract gives is not.
func TestAcceptanceJudgedByItsPlan(t *testing.T) {
	q := smallAcceptance()
	q.Plan.Max = 200
	plan, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.False(t, plan.Given, "its length is looked for")
	q.Result = &AcceptanceResult{Hours: float64(plan.Hours), Good: float64(plan.Clauses[0].Limit), Sets: -1, Stops: -1, Clearing: -1, Defective: -1}
	judged, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, plan.Clauses, judged.Clauses)
	assert.Equal(t, plan.Hours, judged.Hours)
	assert.Nil(t, judged.Planned)
	assert.True(t, judged.Result.Clauses[0].Passes, "as many as the plan demands")
	q.Result.Good--
	judged, err = q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.False(t, judged.Result.Clauses[0].Passes, "one fewer")

	q.Result.Hours--
	other, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, &AcceptancePlanned{plan.Hours, plan.Clauses[0].Limit}, other.Planned)
	assert.Less(t, other.Clauses[0].Limit, plan.Clauses[0].Limit)
	for i := range other.Clauses {
		assert.True(t, other.Clauses[i].Anew, "clause %d", i)
	}
	q.Demand, q.Hours = 41234, float64(plan.Hours)
	demanded, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.True(t, demanded.Clauses[0].Anew, "the demand is signed for an hour more")
	assert.True(t, demanded.Clauses[1].Anew)
	assert.Equal(t, other.Clauses[0].Limit, demanded.Clauses[0].Limit, "the same tests, however their length came about")
}

// A demand that is signed with its hours decides a test of these hours only: with many more hours no line
// passes by it, nor does one fail by it in fewer, unless what came between cannot matter. Hours that are off by as
// much as a clock is are the same.
func TestAcceptanceDemandIsOfItsHours(t *testing.T) {
	for _, x := range []struct {
		hours, good float64
		judged      bool
		passes      bool
	}{
		{10, 52000, false, false},
		{6, 39900, false, false},
		{8.1, 50000, true, true}, // 0.14 h of cycles are not 10,000 envelopes
		{8.1, 40100, false, false},
		{8, 40000, true, true},
		{8.04, 40000, true, true},
		{7.97, 39999, true, false},
	} {
		q := smallAcceptance()
		q.Clauses, q.Plan.Max, q.Hours, q.Demand = nil, 200, 8, 40000
		q.Result = &AcceptanceResult{Hours: x.hours, Good: x.good, Sets: -1, Stops: -1, Clearing: -1, Defective: -1}
		a, err := q.Ask(t.Context(), nil)
		require.NoError(t, err)
		f := &a.Result.Clauses[0]
		assert.Equal(t, x.judged, !f.NotJudged && !a.Result.NotJudged, "%g h", x.hours)
		assert.Equal(t, x.passes, f.Passes, "%g h", x.hours)
		assert.Equal(t, x.passes, a.Result.Passes, "%g h", x.hours)
		assert.EqualValues(t, x.hours, a.Result.Hours)
		if a.Result.Cut == nil {
			assert.True(t, x.judged)
			assert.EqualValues(t, 40000, a.Clauses[0].Limit)
			continue
		}
		assert.Equal(t, &AcceptancePlanned{8, 40000}, a.Planned)
		assert.EqualValues(t, x.hours, a.Hours, "worked out for the hours that it took")
	}
}

// Two net rates are the levels of the clause as they were promised, and what the lines that are made for
// them deliver in the tests stands beside; so does what the line delivers as the file has it.
func TestAcceptanceOfPromisedRates(t *testing.T) {
	q := smallAcceptance()
	q.Bad, q.Promised, q.Unacceptable, q.Clauses, q.Plan.Max = nil, 5400, 4500, nil, 200
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	c := &a.Clauses[0]
	assert.Equal(t, [2]Number{5400, 4500}, [2]Number{c.Good, c.Bad})
	require.NotNil(t, c.Own)
	assert.Equal(t, a.Good.NetRate.Mean, c.Own.Good)
	assert.InEpsilon(t, 5400, float64(c.Own.Good), 0.01)
	require.NotNil(t, a.Written)
	own, err := runs.Run(t.Context(), q.Good, sim.Plan{Seed: 5, Min: 1000, Max: 1000}, nil)
	require.NoError(t, err)
	assert.InDelta(t, own.NetRates().Mean(), float64(a.Written.Mean), 3*float64(a.Written.Half))

	q = smallAcceptance()
	q.Hours, q.Plan.Max = 1, 200
	named, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Nil(t, named.Written, "a line that is named is tested as it is written")
}

// The length of a test depends on chance too: by other seeds it lies between what is told.
func TestAcceptanceLengthIsBetween(t *testing.T) {
	q := smallAcceptance()
	q.Clauses, q.Plan.Max, q.Bad = nil, 200, runs.Faultier(q.Good, 1.3)
	var least, most Number
	for seed := range uint64(3) {
		q.Plan.Seed = 10 + seed
		a, err := q.Ask(t.Context(), nil)
		require.NoError(t, err)
		require.NotNil(t, a.Between)
		require.NotNil(t, a.Between.High)
		assert.LessOrEqual(t, a.Between.Low, a.Hours)
		assert.GreaterOrEqual(t, *a.Between.High, a.Hours)
		if seed == 0 {
			least, most = a.Between.Low, *a.Between.High
		} else {
			assert.GreaterOrEqual(t, a.Hours, least)
			assert.LessOrEqual(t, a.Hours, most)
		}
	}
}
