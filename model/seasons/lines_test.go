package seasons

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
	"netrate/model/setup"
)

// By hand. Two weeks of five days, whose last shift ends on Friday at 22:00: each product of a week is a job
// from Monday 00:00 on; what is not made in a week is none.
func TestSeasonOfLinesIsPlanned(t *testing.T) {
	s := &Season{
		Calendar: twoShifts(), Products: []*setup.Product{{Name: "bills"}, {Name: "offers"}}, Best: true,
		Weeks: []Week{{Name: "first", Sets: []int64{100, 0}}, {Name: "second", Sets: []int64{50, 60}}},
		Staff: []Staffed{{Name: "fewer", Shifts: []int{2}, Operators: 1}},
	}
	lines := []*model.Line{{Name: "a"}, {Name: "b"}}
	p := s.Planned(lines, model.Crew{Operators: 3})
	friday := 4*day + 22*hour
	assert.Equal(t, []PlanJob{
		{Name: "first: bills", Sets: 100, Due: friday, Priority: 1, InHand: -1, Week: 1},
		{Name: "second: bills", Sets: 50, NotBefore: week, Due: week + friday, Priority: 1, InHand: -1, Week: 2},
		{Name: "second: offers", Product: 1, Sets: 60, NotBefore: week, Due: week + friday, Priority: 1, InHand: -1, Week: 2},
	}, p.Jobs)
	assert.Equal(t, []string{"first", "second"}, p.Weeks)
	assert.Equal(t, lines, p.Lines)
	assert.InDelta(t, 3, float64(p.Crew.Operators), 0)
	assert.Equal(t, s.Staff, p.Staffed)
	assert.False(t, p.Shortest)
}
