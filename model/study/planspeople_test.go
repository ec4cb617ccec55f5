package study

import (
	"context"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/sim"
)

// By hand: two shifts a day, from 06:00 and 14:00, of 7.5 h beside a break of half an hour after 4 h. The
// crew is three; one is sick for the first five days, and Saturday is off. If somebody hired and the
// Saturday morning are chosen, the third place is filled, and two come on Saturday, when nobody else would.
func TestPlansPeopleByHand(t *testing.T) {
	const hour, day = 3600, 24 * 3600
	p := plansOf()
	p.Crew.Operators = 3
	p.Calendar = &seasons.Calendar{
		Days: 6, Shifts: []seasons.ShiftTime{{Start: 6 * hour, Length: 8 * hour}, {Start: 14 * hour, Length: 8 * hour}},
		Breaks: []seasons.Break{{After: 4 * hour, Length: 1800}},
	}
	p.Staffed = []seasons.Staffed{
		{Name: "no Saturdays", Days: []int{6}},
		{Name: "one is sick", Weeks: []int{1}, Days: []int{1, 2, 3, 4, 5}, Operators: 2},
		{Name: "Saturday morning", Weeks: []int{1}, Days: []int{6}, Shifts: []int{1}, Operators: 2, Optional: true},
		{Name: "somebody hired", Weeks: []int{1}, Days: []int{1, 2, 3, 4, 5}, Operators: 3, Optional: true},
		{Name: "fair", Weeks: []int{2}, Operators: 4},
	}
	people := plansPeople(p, 7*day)
	require.Len(t, people, 3)
	for k, want := range []struct {
		name          string
		there, absent Number
		first         PlansShift
	}{
		{"operator 1", 75, 0, PlansShift{Presence: PlansOfCrew}},
		{"operator 2", 75, 0, PlansShift{Presence: PlansOfCrew}},
		{"operator 3", 0, 75, PlansShift{Presence: PlansAbsent, By: "one is sick"}},
	} {
		x := people[k]
		want.first.From, want.first.To = PlansMoment{6 * hour}, PlansMoment{14 * hour}
		want.first.Breaks = []PlansBreak{{PlansMoment{10 * hour}, PlansMoment{10.5 * hour}}}
		assert.Equal(t, want.name, x.Name)
		assert.InDelta(t, float64(want.there), float64(x.There), 1e-9)
		assert.InDelta(t, float64(want.absent), float64(x.Absent), 1e-9)
		assert.Len(t, x.Shifts, 10, "nobody is there on Saturday")
		assert.Equal(t, want.first, x.Shifts[0])
	}
	assert.Len(t, plansPeople(p, 14*hour)[0].Shifts, 1, "the second shift begins then, and not before")

	chosen, _ := p.Chosen([]int{2, 3})
	people = plansPeople(chosen, 7*day)
	require.Len(t, people, 3)
	third := people[2].Shifts
	assert.Equal(t, [2]any{PlansChosen, "somebody hired"}, [2]any{third[0].Presence, third[0].By})
	assert.False(t, third[0].Extra)
	assert.Len(t, third, 10, "nobody is absent from a shift in which nobody would be there")
	saturday := people[0].Shifts[10]
	assert.Equal(t, [3]any{PlansChosen, "Saturday morning", true}, [3]any{saturday.Presence, saturday.By, saturday.Extra})
	assert.Equal(t, sim.Seconds(5*day+6*hour), saturday.From.At)

	people = plansPeople(p, 8*day)
	require.Len(t, people, 4, "one more than the crew")
	assert.Equal(t, [2]any{PlansAdded, "fair"}, [2]any{people[3].Shifts[0].Presence, people[3].Shifts[0].By})

	p.From = 8 * hour // in the middle of a shift
	people = plansPeople(p, day)
	assert.Equal(t, sim.Seconds(8*hour), people[0].Shifts[0].From.At)
	assert.InDelta(t, 13, float64(people[0].There), 1e-9)
}

// The people are the ones with whom the plan is simulated: in each stretch of its working time as many
// are there, and the answer says so in JSON.
func TestPlansPeopleAreThoseOfTheHorizon(t *testing.T) {
	p := plansOf()
	p.Staffed = []seasons.Staffed{{Name: "one is sick", Days: []int{1}, Operators: 1}, {Name: "off", Days: []int{2}}, {Name: "fair", Days: []int{4}, Operators: 3}}
	p.Calendar.Breaks = []seasons.Break{{After: 3600, Length: 600}}
	windows, operators := p.Horizon().Windows(2 * 7 * 24 * 3600)
	i := 0
	for _, a := range p.Attendance(2 * 7 * 24 * 3600) {
		for _, w := range a.Windows {
			require.Equal(t, windows[i], w)
			require.Equal(t, operators[i], a.There)
			i++
		}
	}
	assert.Len(t, windows, i)
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Plan: sim.Plan{Seed: 1, Min: 2, Max: 2}}
	a, err := q.Ask(context.Background(), nil)
	require.NoError(t, err)
	text, err := json.Marshal(a.Plans[0].People[1].Shifts[0])
	require.NoError(t, err)
	assert.JSONEq(t, `{"from": "week 1 day 1 08:00", "to": "week 1 day 1 12:00", "presence": "absent", "by": "one is sick",
		"breaks": [{"from": "week 1 day 1 09:00", "to": "week 1 day 1 09:10"}]}`, string(text))
}

// People who are stated have their names, and are absent by name. Their hours are those of whole shifts, also of that
// in which the last job ends before its break: on the page, in JSON and in what people are paid.
func TestPlansPeopleByName(t *testing.T) {
	const hour = 3600
	p := plansOf()
	p.Crew = model.Crew{Operators: 3, Walk: sim.Constant(0), People: []model.Person{
		{Name: "Anna", Operators: 1}, {Name: "hands", Operators: 2, Only: model.Filling},
	}}
	for _, l := range p.Lines {
		l.Crew = p.Crew
	}
	p.Calendar.Breaks = []seasons.Break{{After: 3600, Length: 600}}
	p.Staffed = []seasons.Staffed{{Name: "Anna is sick", Days: []int{1}, Operators: seasons.AsElse, Absent: []string{"Anna"}}}
	q := &Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Plan: sim.Plan{Seed: 1, Min: 2, Max: 2}}
	a, err := q.Ask(context.Background(), nil)
	require.NoError(t, err)
	x := &a.Plans[0]
	require.Len(t, x.People, 3)
	assert.Equal(t, []string{"Anna", "hands, 1 of 2", "hands, 2 of 2"}, []string{x.People[0].Name, x.People[1].Name, x.People[2].Name})
	first := x.People[0].Shifts[0]
	assert.Equal(t, [2]any{PlansAbsent, "Anna is sick"}, [2]any{first.Presence, first.By})
	sum := 0.0
	for _, one := range x.People {
		sum += float64(one.There)
		last := one.Shifts[len(one.Shifts)-1]
		assert.Len(t, last.Breaks, 1, "all of the shift")
	}
	assert.InDelta(t, x.Made.Horizon.OperatorHours(x.Last.P90.At), sum, 1e-9)
	require.NotEmpty(t, x.Unattended)
	text, err := json.Marshal(x.Unattended[0])
	require.NoError(t, err)
	assert.Contains(t, string(text), `"does":"clearing"`)
	for _, until := range []sim.Seconds{8*hour + 1, 8*hour + 1800, 9 * hour, 10 * hour, 12 * hour} {
		assert.InDelta(t, 2*(4-600.0/3600), p.Horizon().OperatorHours(until), 1e-9, "to its end, whenever in the shift it is")
	}
}

// By hand, with two shifts of 4 h: Anna has the early one and Ben the late one, by items of all weeks, Carl both,
// and on Wednesday Ben is sick. He is absent for the 4 h of his own shift; from each other's shifts both are off, which is no absence. So it
// is with shifts that change from week to week, where the days on which one has the other shift say so.
func TestPlansPeopleOfARota(t *testing.T) {
	const hour, day = 3600, 24 * 3600
	p := plansOf()
	p.Crew = model.Crew{Operators: 3, People: []model.Person{{Name: "Anna", Operators: 1}, {Name: "Ben", Operators: 1}, {Name: "Carl", Operators: 1}}}
	p.Calendar = &seasons.Calendar{Days: 5, Shifts: []seasons.ShiftTime{{Start: 6 * hour, Length: 4 * hour}, {Start: 14 * hour, Length: 4 * hour}}}
	off := func(who string, week, day, shift int) seasons.Staffed {
		x := seasons.Staffed{Name: who, Shifts: []int{shift}, Operators: seasons.AsElse, Absent: []string{who}}
		if week > 0 {
			x.Weeks = []int{week}
		}
		if day > 0 {
			x.Days = []int{day}
		}
		return x
	}
	sick := off("Ben", 1, 3, 2)
	for _, rota := range [][]seasons.Staffed{{off("Anna", 0, 0, 2), off("Ben", 0, 0, 1), sick}, {off("Anna", 1, 0, 2), off("Ben", 1, 0, 1)}} {
		p.Staffed = rota
		people := plansPeople(p, 5*day)
		require.Len(t, people, 3)
		assert.Equal(t, [2]Number{20, 0}, [2]Number{people[0].There, people[0].Absent})
		if len(rota) == 2 {
			assert.Equal(t, [2]Number{20, 0}, [2]Number{people[1].There, people[1].Absent})
			early := plansPeople(p, 2*day+12*hour)
			assert.Zero(t, early[1].Absent, "his shift of Wednesday begins when all is done, and is his all the same")
			rest := *p
			rest.From = 12 * hour
			assert.Zero(t, plansPeople(&rest, 5*day)[0].Absent, "hers of Monday was over when the plan was made")
			continue
		}
		assert.Equal(t, [2]Number{16, 4}, [2]Number{people[1].There, people[1].Absent})
		assert.Equal(t, PlansMoment{2*day + 14*hour}, people[1].Shifts[2].From)
		assert.Equal(t, PlansAbsent, people[1].Shifts[2].Presence)
	}
}
