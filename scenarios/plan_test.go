package scenarios

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/sim"
)

// planFile is groupFile with every key of the format that speaks of a plan.
var planFile = strings.Replace(groupFile, "variants:\n", `jobs:
  - {name: Letters, envelope: C5, inserts: [{name: letter, size: A4, fold: half, paper: 80 g/m2}]}
  - {name: Bills, envelope: C5, documents: {stream: documents, pages: 2, size: A4, fold: half, paper: 80 g/m2}}
calendar: {days: 6, shifts: [{start: "06:00", length: 8 h}]}
plan:
  starts: "2026-03-23"
  zone: Europe/Paris
  goal: makespan
  late: 40
  remakes: {by_hand: 200/h}
  hoppers: 60%
  jobs:
    - {name: first, job: Letters, sets: 9000, not_before: {week: 2, day: 1, time: "06:00"}, due: {day: 3, time: "14:30"}, priority: 2.5, on: [v1.0 flats]}
    - {name: second, job: Letters, sets: 100}
  staff:
    - {name: sick, weeks: [1, 3], days: [1, 2], shifts: [1], operators: 2}
    - {name: Saturday, days: [6], operators: 0, weeks: [2, 3], optional: true, cost: 300, per: day}
  down: [{line: letters, week: 2, day: 5, start: "10:00", length: 2 h}]
  order: [{line: v1.0 flats, jobs: [second, first]}, {line: letters, jobs: []}]
variants:
  - {name: alone, changes: [{set: plan.staff.sick.operators, to: 1}, {set: plan.jobs.first.due.day, to: 4}]}
`, 1)

func TestPlan(t *testing.T) {
	s, err := Load("plan.yaml", []byte(planFile))
	require.NoError(t, err)
	p := s.Plan
	assert.Equal(t, "Europe/Paris", p.Zone)
	assert.Equal(t, "2026-03-23", p.Starts.Format(time.DateOnly))
	assert.Len(t, p.Lines, 2)
	assert.True(t, p.Shortest)
	assert.Equal(t, 40.0, p.Late)
	const day = 24 * 3600
	require.Len(t, p.Jobs, 2)
	assert.Equal(t, seasons.PlanJob{Name: "first", Sets: 9000, NotBefore: 7*day + 6*3600, Due: 2*day + 14.5*3600, Priority: 2.5, Lines: []int{1}, InHand: -1}, p.Jobs[0])
	assert.Equal(t, []seasons.Staffed{
		{Name: "sick", Weeks: []int{1, 3}, Days: []int{1, 2}, Shifts: []int{1}, Operators: 2},
		{Name: "Saturday", Weeks: []int{2, 3}, Days: []int{6}, Optional: true, Cost: 300, Per: seasons.PerDay},
	}, p.Staffed)
	assert.Equal(t, []seasons.LineDown{{Line: 0, Window: seasons.Window{From: 11*day + 10*3600, To: 11*day + 12*3600}}}, p.Down)
	assert.Equal(t, [][]int{nil, {1, 0}}, p.Order)
	assert.Equal(t, 200.0, p.Closing.PerHour)
	assert.Equal(t, model.Begins{Level: 0.6}, p.Begins)
	v := s.Variants[0].Plan
	assert.Equal(t, 1, v.Staffed[0].Operators)
	assert.Equal(t, sim.Seconds(3*day+14.5*3600), v.Jobs[0].Due)
}

func TestPlanIsRefused(t *testing.T) {
	for text, change := range map[string][2]string{
		"no job is named \"Leters\": did you mean Letters?":           {"name: first, job: Letters", "name: first, job: Leters"},
		"no line is named \"flats\"":                                  {"on: [v1.0 flats]", "on: [flats]"},
		"say which line is down":                                      {"{line: letters, week: 2", "{week: 2"},
		"no line is named \"lettrs\": did you mean letters?":          {"{line: letters, jobs", "{line: lettrs, jobs"},
		"say whose order it is":                                       {"{line: letters, jobs", "{jobs"},
		"the order of this line stands in line":                       {"{line: letters, jobs", "{line: v1.0 flats, jobs"},
		"no job of the plan is named \"secnd\": did you mean second?": {"[second, first]", "[secnd, first]"},
		"job second is missing in the order":                          {"[second, first]", "[first]"},
		"job first stands in line":                                    {"[second, first]", "[second, first, first]"},
		"an item of order has no jobs":                                {", jobs: []", ""},
		"two jobs are named \"first\"":                                {"name: second", "name: first"},
		"want lateness or makespan":                                   {"goal: makespan", "goal: profit"},
		"the database of time zones has no such name":                 {"Europe/Paris", "Europe/Nowhere"},
		"want a date such as":                                         {`"2026-03-23"`, `"23.3.2026"`},
		"want a whole number from 1 to 104":                           {"week: 2, day: 1", "week: 0, day: 1"},
		"want a number from 0 to 1000":                                {"priority: 2.5", "priority: 1e300"},
		"plan goes with calendar, which is not given":                 {"calendar: {days: 6, shifts: [{start: \"06:00\", length: 8 h}]}\n", ""},
		"want a whole number from 0 to 100":                           {"shifts: [1], operators: 2", "shifts: [1], operators: 1000"},
		"a job of the plan has no sets":                               {"job: Letters, sets: 100", "job: Letters"},
		"cost goes with optional, which is not given":                 {"optional: true, cost", "cost"},
		"per goes with cost and weeks":                                {"weeks: [2, 3], optional", "optional"},
		"want day or shift":                                           {"per: day", "per: hour"},
		"day 7 is no working day: the calendar has 6":                 {"days: [6], operators: 0", "days: [6, 7], operators: 0"},
		"there is no shift 2: the calendar has 1":                     {"shifts: [1], operators: 2", "shifts: [1, 2], operators: 2"},
	} {
		require.Contains(t, planFile, change[0])
		_, err := Load("plan.yaml", []byte(strings.Replace(planFile, change[0], change[1], 1)))
		assert.ErrorContains(t, err, text)
	}
}

// A line whose name is misspelt is no other's order.
func TestMisspeltLineOfAnOrder(t *testing.T) {
	const order = "[{line: v1.0 flats, jobs: [second, first]}, {line: letters, jobs: []}]"
	require.Contains(t, planFile, order)
	_, err := Load("plan.yaml", []byte(strings.Replace(planFile, order, "[{line: letters, jobs: []}, {line: v1.0 flat, jobs: [second, first]}]", 1)))
	assert.ErrorContains(t, err, `no line is named "v1.0 flat": did you mean v1.0 flats?`)
	assert.NotContains(t, err.Error(), "stands in line")
}

func TestSchemaOfPlans(t *testing.T) {
	assert.NoError(t, compiled(t).Validate(asJSON(t, planFile)))
}

// A date is by the clock on the wall: 29 March 2026, with its change to summer time, is a day as any other. The
// weekdays are those of the calendar of 2026, of which 1 January is a Thursday.
func TestPlanDates(t *testing.T) {
	file := strings.Replace(planFile, ", {set: plan.jobs.first.due.day, to: 4}", "", 1)
	with := func(due string) (*Scenario, error) {
		return Load("plan.yaml", []byte(strings.Replace(file, `due: {day: 3, time: "14:30"}`, "due: "+due, 1)))
	}
	planOf := func(due string) *Plan {
		s, err := with(due)
		require.NoError(t, err, due)
		return s.Plan
	}
	const day = 24 * 3600
	for due, want := range map[string]sim.Seconds{
		`2026-03-25 14:30`: 2*day + 14.5*3600, `"Wed 2026-03-25 14:30"`: 2*day + 14.5*3600,
		`2026-03-23 00:00`: 0, `Mon 2026-03-30 06:00`: 7*day + 6*3600, `2026-03-29 03:00`: 6*day + 3*3600,
	} {
		assert.Equal(t, want, planOf(due).Jobs[0].Due, due)
	}
	for due, text := range map[string]string{
		`2026-03-25`:             "want a time such as \"2026-03-25 14:00\", with its weekday or without: \"Wed 2026-03-25 14:00\", or week, day and time",
		`2026-02-30 14:30`:       "there is no such day",
		`2026-03-25 25:00`:       "no such time of day",
		`Thu 2026-03-25 14:30`:   "that day is a Wednesday",
		`2026-03-22 14:30`:       "is before week 1 starts, on 2026-03-23",
		`2028-03-20 00:00`:       "is later than a plan looks ahead: 104 weeks from 2026-03-23 on",
		`2026-03-29 02:30`:       "does not come in Europe/Paris: the clocks go forward then",
		`25.3.2026 14:30`:        "want a time such as",
		`[1]`:                    "want a mapping with week, day, time",
		`2026-03-25T14:30:00Z`:   "want a time such as",
		`"  2026-03-25 14:30"`:   "want a time such as",
		`2026-03-25 14:30 +0100`: "want a time such as",
	} {
		_, err := with(due)
		assert.ErrorContains(t, err, text, due)
	}
	_, err := Load("plan.yaml", []byte(strings.Replace(strings.Replace(file, `due: {day: 3, time: "14:30"}`, "due: 2026-03-25 14:30", 1), "  starts: \"2026-03-23\"\n", "", 1)))
	require.ErrorContains(t, err, "the plan does not say when week 1 starts")
	assert.NoError(t, compiled(t).Validate(asJSON(t, strings.Replace(file, `due: {day: 3, time: "14:30"}`, `due: "Wed 2026-03-25 14:30"`, 1))))
}

// Remakes are of personalised sets: where no job has any, that is said of the key. Of one line they are
// closed as work says, as in a run of it, unless the plan or the season says how.
func TestRemakesOfPlans(t *testing.T) {
	plain := strings.Replace(planFile, ", documents: {stream: documents, pages: 2, size: A4, fold: half, paper: 80 g/m2}", "", 1)
	_, err := Load("plan.yaml", []byte(plain))
	require.ErrorContains(t, err, "none of the jobs has documents or a stream")
	_, err = Load("plan.yaml", []byte(strings.Replace(plain, "  remakes: {by_hand: 200/h}\n", "", 1)))
	require.NoError(t, err)

	work := strings.Replace(seasonal, "season:\n", "work: {sets: 900, remakes: {by_hand: 40/h}}\nseason:\n", 1)
	s, err := Load("season.yaml", []byte(work))
	require.NoError(t, err)
	assert.Equal(t, model.SecondPass, s.Season.Closing.Closing, "as the season says")
	before, after, _ := strings.Cut(work, "  remakes: {second_pass: {setup: 10 min}}\n")
	s, err = Load("season.yaml", []byte(before+after))
	require.NoError(t, err)
	assert.Equal(t, model.Job{Closing: model.ByHand, PerHour: 40}, s.Season.Closing, "as work says")
}

// The season of several lines has dates, and shifts in which nobody works; that of one has neither.
func TestSeasonOfLinesHasDates(t *testing.T) {
	file := strings.Replace(groupFile, "variants:\n", `jobs:
  - {name: Letters, envelope: C5, inserts: [{name: letter, size: A4, fold: half, paper: 80 g/m2}]}
calendar: {days: 6, shifts: [{start: "06:00", length: 8 h}]}
season:
  starts: "2026-03-23"
  staff: [{name: no Saturdays, days: [6], operators: 0}]
  weeks: [{name: one, sets: {Letters: 900}}]
variants:
`, 1)
	s, err := Load("season.yaml", []byte(file))
	require.NoError(t, err)
	assert.Equal(t, "2026-03-23", s.SeasonPlan.Starts.Format(time.DateOnly))
	assert.Equal(t, []seasons.Staffed{{Name: "no Saturdays", Days: []int{6}}}, s.SeasonPlan.Staffed)
	assert.Equal(t, []string{"one"}, s.SeasonPlan.Weeks)
	for text, c := range map[string][2]string{
		"starts is for the season of several lines": {"season:\n", "season:\n  starts: \"2026-03-23\"\n"},
		"operators is 0: in the season of one line": {"season:\n", "season:\n  staff: [{name: nobody, days: [2], operators: 0}]\n"},
	} {
		_, err := Load("season.yaml", []byte(strings.Replace(seasonal, c[0], c[1], 1)))
		assert.ErrorContains(t, err, text)
	}
}
