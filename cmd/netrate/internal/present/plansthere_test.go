package present

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/sim"
)

// By hand: Anna early, Ben late, from Thursday to Tuesday but for the weekend; Anna is sick on Friday, on which Carl comes
// in the evening by choice. The exceptions come first, and a weekend on which the plan has no shift is named within a stretch.
func TestWhoIsThere(t *testing.T) {
	const hour, day = 3600, 24 * 3600
	at := func(d, from, to sim.Seconds, presence study.PlansPresence, by string) study.PlansShift {
		return study.PlansShift{From: study.PlansMoment{At: d*day + from*hour}, To: study.PlansMoment{At: d*day + to*hour}, Presence: presence, By: by}
	}
	var anna, ben []study.PlansShift
	for _, d := range []sim.Seconds{0, 1, 4, 5} {
		anna = append(anna, at(d, 6, 14, study.PlansOfCrew, ""))
		ben = append(ben, at(d, 14, 22, study.PlansOfCrew, ""))
	}
	anna[1].Presence, anna[1].By = study.PlansAbsent, "sick"
	evening := at(1, 22, 24, study.PlansChosen, "evening")
	evening.Extra = true
	plan := seasons.Plan{Crew: model.Crew{People: []model.Person{{Name: "Anna", Operators: 1}, {Name: "Ben", Operators: 1}}}}
	x := study.PlansPlan{
		Made:   &seasons.Made{Plan: &plan},
		People: []study.PlansPerson{{Name: "Anna", Shifts: anna}, {Name: "Ben", Shifts: ben}, {Name: "Carl", Shifts: []study.PlansShift{evening}}},
	}
	x.Last.P90.At = 5 * day
	s := Plans{PlansAnswer: &study.PlansAnswer{Plans: []study.PlansPlan{x}}, Starts: time.Date(2026, 3, 19, 0, 0, 0, 0, time.UTC)}
	said := func() (rows []string) {
		for _, row := range s.there(&x).Rows {
			var words []string
			for _, cell := range row {
				words = append(words, cell.Text)
			}
			rows = append(rows, strings.Join(words, " | "))
		}
		return rows
	}
	assert.Equal(t, []string{
		"Thu and Mon to Tue | 06:00 to 14:00 | Anna |  | ",
		"Thu to Tue (not Sat and Sun) | 14:00 to 22:00 | Ben |  | ",
		"Fri | 06:00 to 14:00 | nobody |  | without Anna: sick",
		"Fri | 22:00 to 00:00 | Carl |  | evening, chosen",
	}, said())
	x.Lines, plan.Down = []study.PlansLine{{Name: "flats"}}, []seasons.LineDown{{Window: seasons.Window{From: 4*day + 8*hour, To: 4*day + 12*hour}}, {Window: seasons.Window{From: 6 * day, To: 7 * day}}}
	assert.Equal(t, []string{"Not to be used: flats, Mon, 08:00 to 12:00"}, s.downs(&x), "the other is after the last job")

	var rows []string
	for _, row := range s.people(&x).Rows {
		rows = append(rows, row[0].Text+" "+row[3].Text)
	}
	assert.Len(t, rows, 8, "Friday has no early shift, and an evening")
	assert.Equal(t, []string{"Thu 06:00 Anna", "Thu 14:00 Ben", "Fri 14:00 Ben", "Fri 22:00 Carl"}, rows[:4])

	assert.Nil(t, s.twice(&x))
	x.People[2].Shifts = append([]study.PlansShift{anna[0]}, ben[0], anna[2], ben[2], anna[1], ben[1])
	assert.Equal(t, []string{"In two shifts of a day: Carl, Thu and Mon"}, s.twice(&x), "who is absent from one is not")
	x.People[2].Shifts = []study.PlansShift{evening}

	plan.Crew.People = nil
	assert.Equal(t, "Fri | 06:00 to 14:00 | nobody |  | without 1 operator: sick", said()[2])

	// Ben and Carl have their breaks together, at the fourth hour of each shift, on the first day with Anna, who is there
	// alone before, so that the lines stand.
	plan.Crew.People = []model.Person{{Name: "Anna", Operators: 1}, {Name: "Ben", Operators: 1}, {Name: "Carl", Operators: 1}}
	for k := range ben {
		from := ben[k].From.At + 4*hour
		ben[k].Own = []study.PlansBreak{{From: study.PlansMoment{At: from}, To: study.PlansMoment{At: from + hour/2}}}
	}
	anna[0].Breaks = []study.PlansBreak{{From: study.PlansMoment{At: 9 * hour}, To: study.PlansMoment{At: 9.5 * hour}}}
	x.People = []study.PlansPerson{{Name: "Anna", Shifts: anna}, {Name: "Ben", Shifts: ben}, {Name: "Carl", Shifts: ben}}
	assert.Equal(t, []string{
		"Thu | 06:00 to 14:00 | Anna | 09:00 to 09:30 all | ",
		"Thu to Tue (not Sat and Sun) | 14:00 to 22:00 | Ben and Carl | 18:00 to 18:30 Ben and Carl | ",
	}, said()[:2])
}

// Hours of people add up: five shifts of 7.5 h are not 38 h, nor are seven 52 h, beside 90 h in all.
func TestHoursOfPeopleAddUp(t *testing.T) {
	assert.Equal(t, "37.5 h", plansAttendance(&study.PlansPerson{There: 37.5}))
	assert.Equal(t, "52.5 h, absent 7.5 h", plansAttendance(&study.PlansPerson{There: 52.5, Absent: 7.5}))
	assert.Equal(t, "absent 40 h", plansAttendance(&study.PlansPerson{Absent: 40}))
}

// Where another plan is better on paper, the figures are those of the one that is taken, and are said to be.
func TestPaperOfAPlanThatIsNotBestThere(t *testing.T) {
	x := &study.PlansPlan{Paper: study.PlansPaper{Hours: 94.8, HoursBound: 77.9, Late: 91, Tried: 11}, Made: &seasons.Made{Plan: &seasons.Plan{Calendar: &seasons.Calendar{}}}}
	assert.Contains(t, Plans{}.paper(x), "better than this one, whose lateness there, with means, in hours times priorities, is 91.0, and which takes 94.8 h")
}

// Days within a stretch on which nobody works are named, a weekday that is so in all weeks by its name.
func TestDaysOnWhichNobodyWorks(t *testing.T) {
	s := Plans{Starts: time.Date(2026, 5, 11, 0, 0, 0, 0, time.UTC)} // a Monday
	for _, x := range []struct {
		days []int
		want string
	}{
		{[]int{0, 1, 2, 3, 4}, ""},
		{[]int{0, 1, 2, 4}, " (not Thu)"},
		{[]int{0, 1, 2, 3, 4, 7}, " (not Sat and Sun)"},
		{[]int{0, 1, 2, 3, 4, 7, 8, 10, 11, 14}, " (not Saturdays, Sundays and Wed)"},
	} {
		s.PlansAnswer = &study.PlansAnswer{}
		assert.Equal(t, x.want, s.butFor(x.days, x.days[0], x.days[len(x.days)-1]), "%v", x.days)
	}
	assert.Equal(t, " (not day 6 of a week and day 7 of a week)", Plans{}.butFor([]int{0, 1, 2, 3, 4, 7, 8, 9, 10, 11, 14}, 0, 14))
}
