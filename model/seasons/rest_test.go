package seasons

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"netrate/model"
)

// By hand, against article 3 of Directive 2003/88/EC: 11 hours at a stretch in each 24.
func TestShortRestsByHand(t *testing.T) {
	crew := model.Crew{Operators: 2, People: []model.Person{{Name: "Anna", Operators: 1}, {Name: "Ben", Operators: 1}}}
	calendar := &Calendar{Days: 5, Shifts: []ShiftTime{{Start: 6 * hour, Length: 8 * hour}, {Start: 14 * hour, Length: 8 * hour}, {Start: 22 * hour, Length: 2 * hour}}}
	off := func(name string, days []int, shifts ...int) Staffed {
		return Staffed{Name: name, Days: days, Shifts: shifts, Operators: AsElse, Absent: []string{name}}
	}
	rota := []Staffed{off("Anna", nil, 2, 3), off("Ben", nil, 1, 3)}
	for _, c := range []struct {
		name  string
		staff []Staffed
		short []ShortRest
	}{
		{"a rota", rota, nil},
		{"early and late: 8 hours until the next morning", []Staffed{off("Anna", nil, 3), off("Ben", nil, 1, 3)}, []ShortRest{{"Anna", 6 * hour, 16 * hour, 8 * hour}}},
		{
			"early and late on the last day alone",
			[]Staffed{off("Anna", []int{1, 2, 3, 4}, 2, 3), off("Anna", []int{5}, 3), off("Ben", nil, 1, 3)},
			[]ShortRest{{"Anna", 4*day + 6*hour, 16 * hour, 8 * hour}},
		},
		{"overtime after the late shift: 14 hours until 14:00, none too few", []Staffed{off("Anna", nil, 2, 3), off("Ben", nil, 1)}, nil},
		{"overtime after the early shift", []Staffed{off("Anna", nil, 2), off("Ben", nil, 1, 3)}, []ShortRest{{"Anna", 6 * hour, 10 * hour, 8 * hour}}},
		{
			"late, and early on the next day",
			[]Staffed{off("Anna", []int{1}, 1, 3), off("Anna", []int{2, 3, 4, 5}, 2, 3), off("Ben", nil, 1, 3)},
			[]ShortRest{{"Anna", 14 * hour, 16 * hour, 8 * hour}},
		},
	} {
		p := &Plan{Crew: crew, Calendar: calendar, Staffed: c.staff}
		assert.Equal(t, c.short, p.ShortRests(), c.name)
	}
	p := &Plan{Crew: crew, Calendar: calendar, Staffed: []Staffed{off("Anna", nil, 2, 3), off("Ben", nil, 1, 3)}, Jobs: []PlanJob{{Due: 4 * day}}}
	p.Staffed[0].Weeks = []int{1}
	assert.Empty(t, p.ShortRests(), "of the weeks after the last date nothing is said")
	nobody := &Plan{Crew: model.Crew{Operators: 2}, Calendar: calendar}
	assert.Empty(t, nobody.ShortRests(), "nobody is named")
}
