package study

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/model/setup"
	"netrate/sim"
)

// An order that is given is kept, and set against a plan without it. By hand: the long job ends at 12:00
// with the shift, the short one behind it at 11:00 on the next day, 25 h late, twice as bad; each on a
// line of its own it is an hour late, and all is done 23 h sooner.
func TestPlansInAGivenOrder(t *testing.T) {
	p := plansOf()
	p.Order = [][]int{{0, 1}, {}}
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}}
	a := askPlans(t, q)
	require.Len(t, a.Plans, 2, "the given order, and the plan without it")
	given, anew := &a.Plans[0], &a.Plans[1]
	assert.True(t, given.Given)
	assert.False(t, anew.Given)
	assert.Len(t, given.Lines[0].Jobs, 2)
	assert.InDelta(t, 50, float64(given.Late.Mean), 1e-6)
	assert.InDelta(t, 48, float64(a.Change.Late.Mean), 1e-6)
	assert.InDelta(t, 23, float64(a.Change.Hours.Mean), 1e-6)
	assert.Zero(t, float64(a.Change.InTime.Mean), "both ways the long job alone is in time")
	assert.Len(t, a.Change.Moved, 1)

	paper := anew.OnPaper(p.Order)
	for k, j := range paper.Lines[0].Jobs {
		assert.Equal(t, given.Lines[0].Jobs[k].Name, j.Name)
		assert.InDelta(t, float64(given.Lines[0].Jobs[k].Finished.P50.At), float64(j.Finished.P50.At), 1, "a calm line is as on paper")
	}

	q.Anew = anew
	assert.Equal(t, a.Change, askPlans(t, q).Change, "what is known is not simulated again")

	q.Anew, p.Jobs[1].Lines = nil, []int{1}
	err := q.Check()
	require.ErrorContains(t, err, "a may not do short: only b may")
	require.ErrorAs(t, err, new(*seasons.Misplaced))
}

// What is done is left out of a given order, and what a line is at goes first.
func TestPlansInAGivenOrderGoOn(t *testing.T) {
	p := plansOf()
	p.Order = [][]int{{0}, {1}}
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Now: 9 * 3600, Done: []seasons.Progress{{Job: "long", Sets: p.Jobs[0].Sets}, {Job: "short", Sets: 60, Line: "a"}}}
	a := askPlans(t, q)
	require.Len(t, a.Plans[0].Lines[0].Jobs, 1)
	assert.Equal(t, "short", a.Plans[0].Lines[0].Jobs[0].Name)
	assert.Empty(t, a.Plans[0].Lines[1].Jobs)
	assert.Equal(t, sim.Seconds(9*3600), a.Plans[0].Lines[0].Jobs[0].Begun.P50.At)
}

// An order that cannot hold any more is set against nothing, and the answer says why. By hand: Bo changes b over on
// the first day and never comes again, so that on the second a does what is left of both.
func TestPlansOrderThatCannotHold(t *testing.T) {
	p := plansOf()
	p.Change = &setup.Changeover{Always: setup.Change{Time: sim.Constant(60)}}
	p.Crew.People = []model.Person{{Name: "Al", Operators: 1, Lines: []string{"a"}}, {Name: "Bo", Operators: 1, Lines: []string{"b"}}, {Name: "Cy", Operators: 1, Only: model.Clearing | model.Filling}}
	p.Crew.Operators = 3
	p.Staffed = []seasons.Staffed{
		{Name: "Bo is away", Weeks: []int{1}, Days: []int{2, 3, 4, 5}, Operators: seasons.AsElse, Absent: []string{"Bo"}},
		{Name: "Bo has left", Operators: seasons.AsElse, Absent: []string{"Bo"}},
	}
	for w := range seasons.MostWeeks - 1 {
		p.Staffed[1].Weeks = append(p.Staffed[1].Weeks, w+2)
	}
	a := askPlans(t, &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Now: 32 * 3600, Done: []seasons.Progress{{Job: "long", Sets: 60}}})
	require.Len(t, a.Plans, 1)
	assert.Equal(t, 1, a.Asked)
	assert.False(t, a.Settings.Partial)
	assert.Contains(t, a.NotKept, "b cannot do ")
	assert.Nil(t, a.Change)
	assert.Len(t, a.Plans[0].Lines[0].Jobs, 2)
	assert.Equal(t, []PlansNotTaken{{Line: "b", Jobs: []string{"long", "short"}, Lacks: []string{"change over"}}}, a.Plans[0].NotTaken)
}

// What is found for one choice is tried for the others. By hand: the short job, due at 10:00, has line b; behind the
// long one it would be late. The base is given that order here, as if its search had found no better one.
func TestPlansAreMadeTogether(t *testing.T) {
	p := plansOf()
	p.Staffed = []seasons.Staffed{{Name: "hired", Operators: 3, Optional: true, Cost: 500}}
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Service: 0.9, Plan: sim.Plan{Seed: 1, Min: 4, Max: 4}}
	all, err := q.all()
	require.NoError(t, err)
	require.Len(t, all, 2)
	all[0].made, err = p.Keep(context.Background(), q.Plan, nil, [][]int{{0, 1}, {}})
	require.NoError(t, err)
	all[0].made.Plan = p
	require.NoError(t, newPlansMaker(q).together(context.Background(), all))
	assert.Len(t, all[0].made.Order[0], 1)
	assert.Len(t, all[0].made.Order[1], 1)
}

// A plan made anew in mid-week is no later than going on in the order as it was, which is among those tried.
func TestPlansTryTheOrderAsItWas(t *testing.T) {
	p := plansOf()
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Now: 9 * 3600, Done: []seasons.Progress{{Job: "long", Sets: 60, Line: "a"}}, Plan: sim.Plan{Seed: 1, Min: 4, Max: 4}}
	all, err := q.all()
	require.NoError(t, err)
	made, err := newPlansMaker(q).make(context.Background(), &all[0])
	require.NoError(t, err)
	assert.Len(t, made.Plan.Known, 1)
	assert.Nil(t, made.Plan.Order)
}
