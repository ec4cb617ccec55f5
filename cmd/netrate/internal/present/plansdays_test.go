package present

import (
	"bytes"
	"testing"
	"time"

	ics "github.com/arran4/golang-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/scenarios"
)

// A plan with some days of a choice has them in its name, by the calendar; what is exact is said exactly.
func TestPlansDays(t *testing.T) {
	const week = 7 * 24 * 3600
	x := study.PlansPlan{
		Name: "with Saturday, overtime (week 1 day 4; week 2 day 1 shift 3)", Cost: 971.5, LateCost: 0.2,
		Prices: []study.PlansPrice{
			{Name: "Saturday", Each: 590.5, Times: 1},
			{Name: "overtime", Each: 190.5, Times: 2, Per: "shift", Of: []seasons.StaffDay{{Week: 1, Day: 4}, {Week: 2, Day: 1, Shift: 3}}},
		},
	}
	x.Last.P90.At = week
	s := Plans{PlansAnswer: &study.PlansAnswer{Plans: []study.PlansPlan{x}, Days: &study.PlansDays{Tried: 7}}, Origin: page.Origin{Scenario: &scenarios.Scenario{}}, Starts: time.Date(2026, 5, 4, 0, 0, 0, 0, time.UTC)}
	assert.Equal(t, "with Saturday, overtime (Thu 7 May and Mon 11 May shift 3)", s.name(&x))
	assert.Equal(t, "971.50 for what is chosen (Saturday, 590.50; overtime, 2 shifts at 190.50) and less than 1 for lateness, in the mean", s.price(&x))
	assert.Equal(t, []string{"Saturday", "overtime (Thu 7 May and Mon 11 May shift 3)"}, s.chosenItems(&x))
	assert.Equal(t, " Beside what is taken whole, 7 choices with fewer shifts were tried, one left out after another; another set of them may cost less.", s.daysTried())
	s.Days.Stopped = true
	assert.Contains(t, s.daysTried(), "as many as are tried")
	s.Days = nil
	assert.Empty(t, s.daysTried())
	assert.Equal(t, "1,234.50 1,234 0", exactSum(1234.5)+" "+exactSum(1234)+" "+meanSum(0))
}

// An answer that was cut short says so wherever it is handed on: on the sheet, in each row, and in each event, whose
// status is then TENTATIVE, by RFC 5545, section 3.8.1.11, read back by a library. What was tried is named.
func TestPartialPlan(t *testing.T) {
	s := nineJobs(t)
	read := func() (status, summary, partial, sheet string) {
		var b bytes.Buffer
		require.NoError(t, s.WriteCalendar(&b))
		cal, err := ics.ParseCalendar(&b)
		require.NoError(t, err)
		e := cal.Events()[0]
		if p := e.GetProperty(ics.ComponentPropertyStatus); p != nil {
			status = p.Value
		}
		rows := s.Rows()
		answer, _, _ := s.onSheet(s.shown())
		return status, e.GetProperty(ics.ComponentPropertySummary).Value, rows.Rows[0][len(rows.Columns)-1].Text, answer
	}
	status, summary, partial, sheet := read()
	assert.Empty(t, status)
	assert.Equal(t, "false", partial)
	assert.NotContains(t, summary+sheet, "artial")
	s.Settings.Partial, s.Service = true, 0.9
	s.Plans[0].Name = page.BaseName
	status, summary, partial, sheet = read()
	assert.Equal(t, "TENTATIVE", status)
	assert.Contains(t, summary, "(partial answer)")
	assert.Equal(t, "true", partial)
	assert.Contains(t, sheet, "PARTIAL ANSWER: the run was interrupted. ")
	assert.Equal(t, "Not all choices were tried, only the base", s.notAllTried())
}
