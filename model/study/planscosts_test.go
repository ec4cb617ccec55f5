package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model/money"
	"netrate/model/seasons"
	"netrate/model/worth"
)

// plansPrices has no volume of a year, which a plan has no need of.
func plansPrices() *worth.Costs {
	return &worth.Costs{
		Currency: "EUR", LineHour: money.Fixed(20), OperatorHour: money.Fixed(30), Overtime: worth.Overtime{Factor: 1.5},
		Insert: money.Fixed(0.01), Envelope: money.Fixed(0.02),
	}
}

func partsOf(x *PlansPlan) map[string]float64 {
	parts := map[string]float64{}
	for _, p := range x.Costs.Parts {
		parts[p.Name] = float64(p.Mean)
	}
	return parts
}

// By hand, of [plansOf]: two operators for the 4 h until the last date, lines for 4 h and 3 h, an insert and an
// envelope for each of 25,190 sets, and one hour late of a job of priority 2 at 10. Of its 10,795 sets a third is left
// when its date comes.
//
//	8 · 30 + 7 · 20 + 25,190 · 0.03 + 20 = 240 + 140 + 755.7 + 20
func TestPlansCostsByHand(t *testing.T) {
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: plansOf(), Costs: plansPrices()}}})
	x := &a.Plans[0]
	require.NotNil(t, x.Costs)
	assert.InDelta(t, 240+140+755.7+20, float64(x.Costs.All.Mean), 1e-3)
	parts := partsOf(x)
	assert.InDelta(t, 240, parts["operators"], 1e-6)
	assert.InDelta(t, 140, parts["line hours"], 1e-3)
	assert.InDelta(t, 20, parts["lateness"], 1e-4)
	assert.Empty(t, x.Costs.Unpriced)
	for _, j := range x.Jobs() {
		want := map[string][2]float64{"long": {0, 0}, "short": {20, 10_795.0 / 3}}[j.Name]
		assert.InDelta(t, want[0], float64(j.LateCost), 1e-4)
		assert.InDelta(t, want[1], float64(j.LateSets), 0.01)
		assert.Zero(t, j.Lacks, "nothing is lost on a calm line")
	}
	assert.InDelta(t, 10_795.0/3, float64(x.LateSets), 0.01)
	assert.Nil(t, askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: plansOf()}}}).Plans[0].Costs)
}

// plansWithChoices returns a plan whose early shift, and somebody more in the other, are optional; the early one has a
// cost of its own, or none if that is 0.
func plansWithChoices(own float64) *seasons.Plan {
	p := plansOf()
	p.Calendar.Shifts = []seasons.ShiftTime{{Start: 6 * 3600, Length: 2 * 3600}, {Start: 8 * 3600, Length: 4 * 3600}}
	p.Staffed = []seasons.Staffed{
		{Name: "no early hours", Shifts: []int{1}},
		{Name: "early", Weeks: []int{1}, Days: []int{1}, Shifts: []int{1}, Operators: 2, Optional: true, Cost: own},
		{Name: "hired", Shifts: []int{2}, Operators: 3, Optional: true},
	}
	return p
}

// What is chosen without a cost of its own is paid by the hour, in a shift of its own at the pay of overtime: two for
// 2 h at 45. With a cost of its own it is paid by that alone. The rest stays as it is: nobody is late.
func TestPlansCostsOfChoices(t *testing.T) {
	for _, own := range []float64{0, 15} {
		a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: plansWithChoices(own), Costs: plansPrices()}}, Service: 0.9})
		x := &a.Plans[a.Chosen]
		parts := partsOf(x)
		assert.Equal(t, []string{"early"}, x.Chosen)
		assert.InDelta(t, 240, parts["operators"], 1e-6)
		wages := map[float64]float64{0: 180, 15: 0}[own]
		assert.InDelta(t, wages+own, parts["what is chosen"], 1e-6)
		assert.Zero(t, parts["overtime"], "it is in what is chosen")
		assert.InDelta(t, wages, float64(x.Wages), 1e-6)
		assert.InDelta(t, wages+own, float64(x.Cost), 1e-6)
		assert.InDelta(t, 240+140+755.7+wages+own, float64(x.Costs.All.Mean), 1e-3)
		for i := range a.Plans {
			if c := a.Plans[i].Chosen; len(c) == 1 && c[0] == "hired" {
				assert.InDelta(t, 120, float64(a.Plans[i].Wages), 1e-6, "one more for 4 h, at usual pay")
			}
		}
	}
}

// What is chosen by name is planned and priced as a service finds it, before the plan without it.
func TestPlansWithChoices(t *testing.T) {
	base := PlansConfiguration{Name: "base", Plan: plansWithChoices(15), Costs: plansPrices()}
	both, err := base.With([]string{"early"})
	require.NoError(t, err)
	a, served := askPlans(t, &Plans{Configurations: both}), askPlans(t, &Plans{Configurations: []PlansConfiguration{base}, Service: 0.9})
	x, y := a.Plans[0], served.Plans[served.Chosen]
	assert.Equal(t, []string{"with early", "base"}, []string{a.Plans[0].Name, a.Plans[1].Name})
	assert.Equal(t, []any{y.Name, y.Chosen, y.Prices, y.Cost, y.Last, y.Lines}, []any{x.Name, x.Chosen, x.Prices, x.Cost, x.Last, x.Lines})
	assert.Equal(t, served.Plans[0].Last, a.Plans[1].Last)
	_, err = base.With([]string{"late"})
	assert.ErrorContains(t, err, `nothing that is optional under staff is named "late"`)
}

// What was bought with a plan before is in no cost of the new ones, whether it is priced by its hours or by a cost of its
// own: by hand, as above, without the 180 or the 15. What is chosen beside it is paid for.
func TestPlansBoughtIsNotChargedAgain(t *testing.T) {
	for _, own := range []float64{0, 15} {
		promise := &PlansPromise{Bought: []PlansPrice{{Name: "early", Each: Number(own), Times: 1}}}
		a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: plansWithChoices(own), Costs: plansPrices()}}, Service: 0.9, Promised: promise})
		require.Len(t, a.Plans, 2)
		for i, hired := range []float64{0, 120} {
			x := &a.Plans[i]
			assert.InDelta(t, hired, float64(x.Cost), 1e-6, x.Name)
			assert.InDelta(t, 240+140+755.7+hired, float64(x.Costs.All.Mean), 1e-3, x.Name)
			assert.InDelta(t, 240, partsOf(x)["operators"], 1e-6, x.Name)
			assert.InDelta(t, hired, partsOf(x)["what is chosen"], 1e-6, x.Name)
		}
	}
}

// Parts that come to something and have no price are named.
func TestPlansUnpriced(t *testing.T) {
	p := plansOf()
	p.Late = 0
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p, Costs: &worth.Costs{Currency: "EUR", LineHour: money.Fixed(1)}}}})
	assert.Equal(t, []string{"operators", "inserts, documents", "envelopes", "lateness"}, a.Plans[0].Costs.Unpriced)
}

// Where nobody comes any more not all is finished, and what it costs is not known.
func TestPlansUnfinishedCostNothingKnown(t *testing.T) {
	p := plansOf()
	p.Jobs[1].Sets = 20 * 3600
	p.Staffed = []seasons.Staffed{{Name: "never", Operators: 0}, {Name: "today", Weeks: []int{1}, Days: []int{1}, Operators: 2}}
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p, Costs: plansPrices()}}})
	assert.True(t, a.Plans[0].Unfinished())
	assert.Nil(t, a.Plans[0].Costs)
}

// By hand: with both jobs on one line, the long one first, the short one is finished at 11:00 of the next day, 25 h
// late: 500 in money. Planned anew it is an hour late, as in [TestPlansByHand].
func TestPlansOrderIsPriced(t *testing.T) {
	p := plansOf()
	p.Order = [][]int{{0, 1}, {}}
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}})
	assert.InDelta(t, 500, a.Plans[0].All(), 1e-4)
	require.NotNil(t, a.Change)
	assert.InDelta(t, 480, float64(a.Change.Less.Mean), 1e-4)
}

// The line hours that are paid are those of the table: without the half hour in which a line is down.
func TestPlansPayNoLineThatIsDown(t *testing.T) {
	p := plansOf()
	p.Down = []seasons.LineDown{{Line: 1, Window: seasons.Window{From: 9 * 3600, To: 9.5 * 3600}}}
	x := &askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p, Costs: plansPrices()}}}).Plans[0]
	busy := float64(x.Lines[0].Busy.Mean + x.Lines[1].Busy.Mean)
	assert.InDelta(t, 7, busy, 0.01)
	assert.InDelta(t, 20*busy, partsOf(x)["line hours"], 1e-6)
}

// A line that is down for half an hour is there for so much less; nobody else is.
func TestPlansThereIsWithoutDown(t *testing.T) {
	p := plansOf()
	p.Down = []seasons.LineDown{{Line: 1, Window: seasons.Window{From: 9 * 3600, To: 9.5 * 3600}}}
	x := &askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}}).Plans[0]
	assert.InDelta(t, float64(x.Hours), float64(x.Lines[0].There), 1e-9)
	assert.InDelta(t, float64(x.Hours)-0.5, float64(x.Lines[1].There), 1e-9)
}
