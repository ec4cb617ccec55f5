package study

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/sim"
)

// overtimeWeek is a line for some days of four hours, with two hours of overtime before and after, each optional and paid
// by the day; the line stops now and then.
func overtimeWeek(rng *rand.Rand, days int) *seasons.Plan {
	p := plansOf()
	p.Lines = p.Lines[:1]
	p.Calendar.Shifts = []seasons.ShiftTime{{Start: 6 * 3600, Length: 2 * 3600}, {Start: 8 * 3600, Length: 4 * 3600}, {Start: 12 * 3600, Length: 2 * 3600}}
	all := []int{1, 2, 3, 4, 5}[:days]
	cost := func() float64 { return 10 + math.Floor(20*rng.Float64()) }
	p.Staffed = []seasons.Staffed{
		{Name: "no overtime", Shifts: []int{1, 3}},
		{Name: "early", Weeks: []int{1}, Days: all, Shifts: []int{1}, Operators: 2, Optional: true, Cost: cost(), Per: seasons.PerDay},
		{Name: "late", Weeks: []int{1}, Days: all, Shifts: []int{3}, Operators: 2, Optional: true, Cost: cost(), Per: seasons.PerShift},
	}
	p.Lines[0].Stations[0].(*model.Feeder).Misfeed = 0.001
	p.Jobs = nil
	for i := range 3 {
		due := sim.Seconds(1+rng.IntN(days))*86400 - 12*3600 + sim.Seconds(2*3600*rng.IntN(2)) // noon, or at 14:00
		p.Jobs = append(p.Jobs, seasons.PlanJob{Name: fmt.Sprint("job ", i), Sets: int64(3600 * (1 + 5*rng.Float64())), Due: due, Priority: 1, InHand: -1})
	}
	return p
}

// bestOfDays returns what the cheapest set of days of the two items comes to that has a service, of all sets there are,
// each simulated as a choice is.
func bestOfDays(t *testing.T, p *seasons.Plan, days int, how sim.Plan, service float64) float64 {
	t.Helper()
	times, err := p.Paper(context.Background(), how.Seed)
	require.NoError(t, err)
	least := math.Inf(1)
	for set := range 1 << (2 * days) {
		only := map[int][]seasons.StaffDay{1: {}, 2: {}}
		for k := range days {
			if set>>k&1 == 1 {
				only[1] = append(only[1], seasons.StaffDay{Week: 1, Day: k + 1})
			}
			if set>>(days+k)&1 == 1 {
				only[2] = append(only[2], seasons.StaffDay{Week: 1, Day: k + 1, Shift: 3})
			}
		}
		own, prices := p.InPart(only).Chosen([]int{1, 2})
		made, err := own.Make(context.Background(), how, times)
		require.NoError(t, err)
		x := newPlansPlan(&planned{PlansConfiguration: PlansConfiguration{Plan: own}, prices: prices}, made)
		study, err := seasons.RunTogether(context.Background(), x.work(), how, nil)
		require.NoError(t, err)
		if y := x.counted(study); y.Serves(service) {
			least = min(least, y.All())
		}
	}
	return least
}

// Of small weeks all sets of days of two items are simulated. What is found is set against the best of them, which has
// the service and comes to least, in the same replications. Of 30 weeks of three days, with -macro 300, it is the best
// in all; whole items come to twice as much.
func TestPlansDaysAgainstAllSets(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 5))
	const service = 0.9
	how := sim.Plan{Seed: 1, Min: 20, Max: 20}
	days, all := 2, 3
	if *macro >= 300 {
		days, all = 3, 30
	}
	weeks, best, loss, saved := 0, 0, 0.0, 0.0
	for weeks < all {
		p := overtimeWeek(rng, days)
		q := Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Service: service, Plan: how}
		a, err := q.Ask(context.Background(), nil)
		require.NoError(t, err)
		if a.Chosen < 0 || a.Plans[0].Serves(service) {
			continue // there is nothing to choose from
		}
		weeks++
		least, whole := bestOfDays(t, p, days, how, service), math.Inf(1)
		for i := range a.Plans[:4] { // combinations of whole items
			if x := &a.Plans[i]; x.Serves(service) {
				whole = min(whole, x.All())
			}
		}
		found := a.Plans[a.Chosen].All()
		gap := (found - least) / least
		if loss, saved = loss+gap, saved+1-found/whole; gap < 0.01 {
			best++
		}
	}
	t.Logf("the best in %d of %d; %.1f %% dearer in the mean; %.0f %% less than whole items", best, weeks, 100*loss/float64(weeks), 100*saved/float64(weeks))
	assert.GreaterOrEqual(t, best, weeks*9/10)
	assert.Greater(t, saved/float64(weeks), 0.2, "whole items do as well: the test would not see a search that leaves no day out")
}

// By hand, on the two calm lines: with two hours more before it, the first day is enough for both dates, and the other
// days of the week that are offered with it bring nothing. What was bought of it stays when the promise is planned anew;
// of its other days there is a choice still.
func TestPlansDaysBoughtInPart(t *testing.T) {
	p := plansOf()
	p.Calendar.Shifts = []seasons.ShiftTime{{Start: 6 * 3600, Length: 2 * 3600}, {Start: 8 * 3600, Length: 4 * 3600}}
	p.Staffed = []seasons.Staffed{
		{Name: "no early hours", Shifts: []int{1}},
		{Name: "early", Weeks: []int{1}, Days: []int{1, 2, 3}, Shifts: []int{1}, Operators: 2, Optional: true, Cost: 15, Per: seasons.PerDay},
	}
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Service: 0.9}
	a := askPlans(t, q)
	x := &a.Plans[a.Chosen]
	first := seasons.StaffDay{Week: 1, Day: 1}
	assert.Equal(t, "with early (week 1 day 1)", x.Name)
	assert.Equal(t, []PlansPrice{{Name: "early", Each: 15, Times: 1, Per: "day", Of: []seasons.StaffDay{first}}}, x.Prices)
	assert.InDelta(t, 15, x.All(), 1e-9)
	assert.False(t, a.Days.Stopped)
	assert.Len(t, a.Plans, 3, "the base, all days, one day")

	promise := promiseOf(t, a)
	bought, errs := promise.inForce(p)
	require.Empty(t, errs)
	require.Len(t, bought.Staffed, 3)
	assert.Equal(t, [2]bool{true, false}, [2]bool{bought.Staffed[1].Chosen, bought.Staffed[1].Optional})
	assert.Equal(t, []seasons.StaffDay{{Week: 1, Day: 2}, {Week: 1, Day: 3}}, bought.Staffed[2].Only)
	assert.True(t, bought.Staffed[2].Optional)
	promise.Bought = append(promise.Bought, PlansPrice{Name: "early", Of: []seasons.StaffDay{{Week: 1, Day: 3}}}) // on a later day
	bought, _ = promise.inForce(p)
	assert.Equal(t, []seasons.StaffDay{first, {Week: 1, Day: 3}}, bought.Staffed[1].Only)
	assert.Equal(t, []seasons.StaffDay{{Week: 1, Day: 2}}, bought.Staffed[2].Only)
}

// Where nothing has the service, days are left out without which nothing shows to be worse.
func TestPlansDaysOfTheNearest(t *testing.T) {
	p := plansOf()
	p.Calendar.Shifts = []seasons.ShiftTime{{Start: 7.5 * 3600, Length: 1800}, {Start: 8 * 3600, Length: 4 * 3600}}
	p.Staffed = []seasons.Staffed{
		{Name: "no early hours", Shifts: []int{1}},
		{Name: "early", Weeks: []int{1}, Shifts: []int{1}, Operators: 2, Optional: true, Cost: 15, Per: seasons.PerDay},
	}
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Service: 0.9})
	require.Equal(t, Index(-1), a.Chosen)
	assert.Equal(t, "with early (week 1 day 1)", a.Plans[a.Nearest].Name)
}

// A day of an item is written and read as one text; what is no day is refused.
func TestStaffDayText(t *testing.T) {
	for _, d := range []seasons.StaffDay{{Week: 1, Day: 4}, {Week: 104, Day: 7, Shift: 3}} {
		text, err := json.Marshal(d)
		require.NoError(t, err)
		var read seasons.StaffDay
		require.NoError(t, json.Unmarshal(text, &read))
		assert.Equal(t, d, read)
	}
	for _, wrong := range []string{"", "week 1", "week 0 day 1", "week 1 day 8", "week 105 day 1", "week 1 day 2 shift", "week 1 day 2 shift 1 more"} {
		assert.Error(t, new(seasons.StaffDay).UnmarshalText([]byte(wrong)), wrong)
	}
}
