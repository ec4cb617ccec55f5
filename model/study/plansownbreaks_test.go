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

// By hand, of a shift from 08:00 to 12:00 with a break of everybody from 09:00 to 09:10: Anna has one of her own from 09:05
// to 09:30, of which 20 min are working time, and Ben, who is absent on the first day, one from 10:00 to 10:15. Nobody is
// paid for either, and JSON has them beside the break of everybody.
func TestPlansOwnBreaksByHand(t *testing.T) {
	const hour, minute, day = 3600, 60, 24 * 3600
	p := plansOf()
	p.Crew = model.Crew{Operators: 3, Walk: sim.Constant(0), People: []model.Person{{Name: "Anna", Operators: 1}, {Name: "Ben", Operators: 1}, {Name: "Cleo", Operators: 1}}}
	for _, l := range p.Lines {
		l.Crew = p.Crew
	}
	p.Calendar.Breaks = []seasons.Break{
		{After: hour, Length: 10 * minute},
		{After: 65 * minute, Length: 25 * minute, Who: []string{"Anna"}},
		{After: 2 * hour, Length: 15 * minute, Who: []string{"Ben"}},
	}
	p.Staffed = []seasons.Staffed{{Name: "Ben is sick", Days: []int{1}, Operators: seasons.AsElse, Absent: []string{"Ben"}}}
	people := plansPeople(p, 2*day)
	require.Len(t, people, 3)
	const whole = 4 - 1.0/6
	for k, want := range []struct{ there, absent float64 }{{2*whole - 2.0/3, 0}, {whole - 0.25, whole}, {2 * whole, 0}} {
		assert.InDelta(t, want.there, float64(people[k].There), 1e-9, people[k].Name)
		assert.InDelta(t, want.absent, float64(people[k].Absent), 1e-9, people[k].Name)
	}
	assert.Empty(t, people[1].Shifts[0].Own, "who is absent has no break")
	assert.Equal(t, []PlansBreak{{PlansMoment{day + 10*hour}, PlansMoment{day + 10.25*hour}}}, people[1].Shifts[1].Own)

	a, err := (&Plans{Configurations: []PlansConfiguration{{Name: "base", Plan: p}}, Plan: sim.Plan{Seed: 1, Min: 2, Max: 2}}).Ask(context.Background(), nil)
	require.NoError(t, err)
	text, err := json.Marshal(a.Plans[0].People[0].Shifts[0])
	require.NoError(t, err)
	assert.JSONEq(t, `{"from": "week 1 day 1 08:00", "to": "week 1 day 1 12:00", "presence": "crew",
		"breaks": [{"from": "week 1 day 1 09:00", "to": "week 1 day 1 09:10"}],
		"own_breaks": [{"from": "week 1 day 1 09:10", "to": "week 1 day 1 09:30"}]}`, string(text))
}
