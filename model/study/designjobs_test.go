package study

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/money"
	"netrate/model/runs"
	"netrate/model/setup"
	"netrate/model/worth"
	"netrate/sim"
)

// jobsDesign is the search of toyDesign for the least cost of two jobs a year, of which one takes three inserts
// and the other all six.
func jobsDesign(goal DesignGoal) Design {
	q := toyDesign()
	q.Goal, q.Worth = goal, 0.05
	c5 := setup.Envelope{Name: "C5", Height: 162, Length: 229}
	few, all := &setup.Product{Name: "few", Envelope: c5}, &setup.Product{Name: "all", Envelope: c5}
	for i, name := range []string{"a", "b", "c", "d", "e", "f"} {
		insert := setup.Insert{Name: name, Material: 1, Share: 1}
		if all.Inserts = append(all.Inserts, insert); i < 3 {
			few.Inserts = append(few.Inserts, insert)
		}
	}
	line := q.Line
	q.Line = func(choices []int) (*Alternative, error) {
		a, err := line(choices)
		price := 0.0
		for i, k := range choices {
			price += 100 * float64(q.Options[i].Choices[k].Price)
		}
		a.Products = []*setup.Product{few, all}
		a.Costs = &worth.Costs{
			Currency: "EUR", Life: 8, Rate: 0.08, Price: money.Fixed(price), LineHour: money.Fixed(80), OperatorHour: money.Fixed(10),
			Insert: money.Fixed(0.0002), Volumes: map[string]money.Value{"few": money.Fixed(4e6), "all": money.Fixed(2e6)},
		}
		return a, err
	}
	return q
}

// searchOnPaper returns a search that has looked at all its designs on paper.
func searchOnPaper(t *testing.T, q *Design) *designSearch {
	t.Helper()
	s := &designSearch{Design: q}
	require.NoError(t, s.combine(t.Context()))
	require.NoError(t, s.onPaper(t.Context()))
	return s
}

// In the search a thousand of a year's jobs cost what they cost in a comparison of the same shifts, but for what
// a mean of shifts is above the cost at their mean; of the mix, and of no job alone.
func TestDesignOfJobsCostsWhatACompareSays(t *testing.T) {
	q := jobsDesign(DesignCost)
	s := searchOnPaper(t, &q)
	plan := sim.Plan{Seed: 9, Min: 200, Max: 200}
	c := Comparison{Plan: plan}
	for i := range s.all {
		one, err := q.Line(wide(s.all[i].choices))
		require.NoError(t, err)
		one.Name = fmt.Sprint(i)
		c.Alternatives = append(c.Alternatives, *one)
	}
	a, err := c.Ask(t.Context(), nil)
	require.NoError(t, err)
	some := 0
	require.NoError(t, s.simulate(t.Context(), plan, pointers(s.all), 0, plan.Max, func(i int, study *runs.Study, scores sim.Sample) {
		assert.Equal(t, a.Lines[i].Study.NetRates(), study.NetRates())
		want, above, alone := float64(a.Money.Lines[i].AllIn.Mean), 0.0, math.Inf(1)
		for _, j := range study.Jobs() {
			rates := j.Study.NetRates()
			variation := rates.SD() / rates.Mean()
			above = max(above, variation*variation)
			alone = min(alone, math.Abs(rates.Mean()-study.NetRates().Mean())/rates.Mean())
		}
		assert.InDelta(t, want, -scores.Mean(), want*(above+0.001))
		assert.Greater(t, alone, above+0.001, "one job in the place of all would be seen")
		some++
	}))
	assert.Equal(t, len(s.all), some)
	assert.Equal(t, Number(len(s.all)*plan.Max*2), s.counts.Shifts, "each of two jobs")
}

// No design costs less in a year of its jobs than its ceiling says, nor delivers more; and the ceiling is no
// bound that says nothing.
func TestCeilingOfJobs(t *testing.T) {
	for goal, least := range map[DesignGoal]float64{DesignCost: 0.5, DesignNetRate: 0.5} {
		q := jobsDesign(goal)
		s := searchOnPaper(t, &q)
		require.NoError(t, s.search(t.Context(), pointers(s.all), 0, 40, func(i int, scores sim.Sample) {
			mean := scores.Mean()
			assert.LessOrEqual(t, mean, s.all[i].ceiling, "%v", s.all[i].choices)
			share := mean / s.all[i].ceiling
			if goal == DesignCost {
				share = 1 / share
			}
			assert.Greater(t, share, least, "%v", s.all[i].choices)
		}))
	}
}

// What is chosen for all jobs together is what costs least of all combinations in a comparison of other shifts,
// or within what matters of it; by its net present value it is the same.
func TestDesignOfJobsFindsTheBest(t *testing.T) {
	q := jobsDesign(DesignCost)
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.True(t, a.Promised)
	s := searchOnPaper(t, &q)
	c := Comparison{Plan: sim.Plan{Seed: 77, Min: 300, Max: 300}}
	own := -1
	for i := range s.all {
		one, err := q.Line(wide(s.all[i].choices))
		require.NoError(t, err)
		one.Name = fmt.Sprint(i)
		c.Alternatives = append(c.Alternatives, *one)
		if assert.ObjectsAreEqual(s.chosenNames(&s.all[i]), a.Finalists[a.Best].Choices) {
			own = i
		}
	}
	all, err := c.Ask(t.Context(), nil)
	require.NoError(t, err)
	require.GreaterOrEqual(t, own, 0)
	cost := func(i int) float64 { return float64(all.Money.Lines[i].AllIn.Mean) }
	assert.LessOrEqual(t, cost(own), cost(all.Money.Cheapest)+q.Worth)
	assert.Greater(t, cost(0)-cost(own), q.Worth, "it is not the line as it is, whatever is chosen")

	value := jobsDesign(DesignValue)
	v, err := value.Ask(t.Context(), nil)
	require.NoError(t, err)
	assert.Equal(t, a.Finalists[a.Advice].Choices, v.Finalists[v.Advice].Choices)
	for i, g := range v.Comparison.Money.Worth.Gains[1:] { // at fixed costs one is a multiple of the other
		saved := v.ahead(i+1, 0).Mean / v.Indifference
		assert.InDelta(t, g.NPV.Mean(), float64(saved*v.Equal.Value), 1e-6*math.Abs(g.NPV.Mean()))
		year := v.Comparison.Money.Worth.Cheaper(i+1, 0).Mean()
		assert.InDelta(t, year, float64(saved*v.Equal.Year), 1e-6*math.Abs(year))
	}
}

// A design of which a job cannot run says which and why, and one that makes other volumes is none.
func TestDesignOfJobsThatCannotBe(t *testing.T) {
	q := jobsDesign(DesignCost)
	line := q.Line
	q.Line = func(choices []int) (*Alternative, error) {
		a, err := line(choices)
		if choices[2] == 1 {
			a.Line.Stations = a.Line.Stations[1:]
		}
		if choices[0] == 1 {
			a.Costs.Volumes["few"] = money.Fixed(5e6)
		}
		return a, err
	}
	s := searchOnPaper(t, &q)
	assert.Positive(t, s.counts.Impossible)
	var why []string
	for _, r := range s.reasons {
		why = append(why, r.Why)
	}
	assert.Contains(t, why, "it has other yearly volumes of jobs than the line as it is")
	assert.Contains(t, fmt.Sprint(why), "job all: ")
}

// On paper a mix has the defective mail of its jobs in the shares in which they are delivered.
func TestDefectiveOfJobsOnPaper(t *testing.T) {
	l := modeltest.ReferenceLine()
	for _, s := range l.Stations[:6] {
		s.(*model.Feeder).Caught = 0.5 // of its doubles
	}
	one := onPaperOf(runs.Work{Line: l})
	assert.Equal(t, designOnPaper{l.Analytic().NetRate, l.Ceiling(), l.Analytic().Defective}, one)
	worse := runs.Faultier(l, 3)
	mix := &runs.Mix{Line: l, Shares: []float64{0.25, 0.75}, Setups: []*setup.Setup{{Line: l}, {Line: worse}}}
	both := onPaperOf(runs.Work{Mix: mix})
	assert.InEpsilon(t, 1/(0.25/one.rate+0.75/worse.Analytic().NetRate), both.rate, 1e-12)
	assert.InEpsilon(t, 1/(0.25/one.ceiling+0.75/worse.Ceiling()), both.ceiling, 1e-12)
	few, many := 0.25/(1-one.defective), 0.75/(1-worse.Analytic().Defective) // delivered for one good one
	assert.Positive(t, one.defective)
	assert.InEpsilon(t, (few+many-1)/(few+many), both.defective, 1e-9)
}
