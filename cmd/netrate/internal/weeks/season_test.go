package weeks

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/golden"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/plots"
	"netrate/scenarios"
	"netrate/sim"
)

// sixJobs returns the scenario of the tests that has jobs, and its season run so often in
// each configuration.
func sixJobs(t *testing.T, reps int, service float64, order sequence) *seasons {
	t.Helper()
	text, err := os.ReadFile("../../testdata/jobs.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("jobs.yaml", text)
	require.NoError(t, err)
	about := desk.Subject{Scenario: sc, Source: text, Again: "netrate season jobs.yaml"}
	s := newSeasons(about, sim.Plan{Seed: 1, Min: reps, Max: reps}, service, order)
	done, _, err := s.simulate(t.Context(), nil)
	require.NoError(t, err)
	require.Equal(t, reps, done)
	return s
}

func TestSeasonGolden(t *testing.T) {
	s := sixJobs(t, 6, 0.5, "")
	text := s.answer()
	golden.Check(t, "testdata/jobs.season.txt", text)
	for line := range strings.Lines(text) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), say.Screen, line)
	}
	var out bytes.Buffer
	require.NoError(t, page.WriteDocument(&out, s.document()))
	var doc seasonDocument
	require.NoError(t, json.Unmarshal(out.Bytes(), &doc))
	require.Len(t, doc.Lines, 4)
	assert.Len(t, doc.Lines[0].Weeks, 3)
	assert.Len(t, doc.Lines[0].Jobs, 7)
	assert.Equal(t, 6, doc.Settings.Reps)
	assert.NotContains(t, strings.ReplaceAll(out.String(), doc.Scenario.Source, ""), "NaN")
}

// The order asked for goes before that of the file, and the best takes less than the
// other.
func TestSeasonOrder(t *testing.T) {
	given, best := sixJobs(t, 2, 0, "given").runs[0], sixJobs(t, 2, 0, "best").runs[0]
	assert.False(t, given.season.Best)
	assert.True(t, best.season.Best)
	hours, _ := given.changeHours()
	less, _ := best.changeHours()
	assert.Less(t, less, hours)
	assert.Contains(t, given.changeoverWords(), "--order best")
	assert.Contains(t, best.changeoverWords(), "That is in the best order, which is used; the order of the file would take 0.33 h more")
}

// ofSeasons returns a configuration whose seasons are all in time or not, as said.
func ofSeasons(name string, operators, late, all int) seasonRun {
	study := &model.SeasonStudy{Done: all, Weeks: make([]model.SeasonWeek, 2)}
	for r := range all {
		left := 0.0
		if r < late {
			left = 100
		}
		study.Weeks[0].Backlog = append(study.Weeks[0].Backlog, 0)
		study.Weeks[1].Backlog = append(study.Weeks[1].Backlog, left)
	}
	season := &model.Season{Line: &model.Line{Crew: model.Crew{Operators: operators}}}
	return seasonRun{name: name, season: season, study: study}
}

// A small crew in many shifts may be paid for more hours than a larger one in few.
func TestSeasonPaid(t *testing.T) {
	small, large := ofSeasons("three shifts", 2, 0, 400), ofSeasons("base", 3, 0, 400)
	small.study.Hours, large.study.Hours = 105, 35
	s := &seasons{runs: []seasonRun{large, small}, service: 0.95}
	assert.Contains(t, s.finding(), "is “three shifts”, with 2 operators in each shift: in 100 % (99.1 % to 100 %). It takes 210 operator hours a week; the base takes 105, the fewest.")
	small.study.Hours = 35
	assert.NotContains(t, s.finding(), "operator hours")
}

func TestSeasonService(t *testing.T) {
	for name, c := range map[string]struct {
		runs []seasonRun
		want string
	}{
		"fewest operators": {
			[]seasonRun{ofSeasons("base", 1, 300, 400), ofSeasons("three", 3, 0, 400), ofSeasons("two", 2, 2, 400)},
			"The smallest configuration that has all weeks done in time in 95 % of the seasons is “two”, with 2 operators in each shift: in 99.5 % (98.2 % to 99.9 %).",
		},
		"first in the file of equals": {
			[]seasonRun{ofSeasons("base", 1, 300, 400), ofSeasons("a", 1, 4, 400), ofSeasons("b", 1, 0, 400)},
			"is “a”, with 1 operator in each shift: in 99.0 %",
		},
		"none": {
			[]seasonRun{ofSeasons("base", 1, 300, 400), ofSeasons("two", 2, 200, 400)},
			"None has all weeks done in time in 95 % of the seasons: most often has “two”, in 50.0 % (45.0 % to 55.0 %).",
		},
		"not settled": {
			[]seasonRun{ofSeasons("base", 1, 22, 400), ofSeasons("two", 2, 18, 400)},
			"So many seasons do not settle it for the base and “two”: --reps takes more.",
		},
		"a larger one is no matter": {
			[]seasonRun{ofSeasons("base", 1, 0, 400), ofSeasons("two", 2, 18, 400)},
			"is the base, with 1 operator in each shift: in 100 % (99.1 % to 100 %).",
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := &seasons{runs: c.runs, service: 0.95}
			assert.Contains(t, s.finding(), c.want)
			if name != "not settled" {
				assert.NotContains(t, s.finding(), "settle")
			}
		})
	}
}

// A season is late if any of its weeks is, and each counts once.
func TestInTimeOfAllWeeks(t *testing.T) {
	x := ofSeasons("base", 1, 3, 10)
	x.study.Weeks[0].Backlog[0], x.study.Weeks[0].Backlog[9] = 5, 5
	assert.InDelta(t, 0.6, x.inTime().share, 1e-12)
}

// By hand, for two days of 08:00 to 16:00 with a break from 12:00 to 13:00.
func TestMoment(t *testing.T) {
	c := &model.Calendar{Days: 2, Shifts: []model.ShiftTime{{Start: 8 * 3600, Length: 8 * 3600}}, Breaks: []model.Break{{After: 4 * 3600, Length: 3600}}}
	for worked, want := range map[float64]string{
		0: "Mon 08:00 of week 1", 3.5: "Mon 11:30 of week 1", 4.25: "Mon 13:15 of week 1", 7: "Mon 16:00 of week 1",
		7.5: "Tue 08:30 of week 1", 14: "Tue 16:00 of week 1", 14.1: "Mon 08:06 of week 2", 29: "Mon 09:00 of week 3",
	} {
		t.Run(want, func(t *testing.T) { assert.Equal(t, want, moment(c.Clock(), worked)) })
	}
}

func TestSeasonCSV(t *testing.T) {
	s := sixJobs(t, 3, 0, "")
	var out bytes.Buffer
	require.NoError(t, s.writeCSV(&out))
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+4*3*3)
	work, err := strconv.ParseFloat(rows[1][5], 64)
	require.NoError(t, err)
	assert.InDelta(t, s.runs[0].study.Weeks[0].Work[0], work, 1e-12)
}

// All that a line does in a week fills its working time, once.
func TestStintsFillTheWeek(t *testing.T) {
	s := sixJobs(t, 3, 0, "")
	for i := range s.runs {
		x := &s.runs[i]
		for week := range x.study.Weeks {
			for r := range x.study.Done {
				worked, at := 0.0, 0.0
				for _, stint := range x.stints(week, r) {
					assert.GreaterOrEqual(t, stint.From, at-1e-9, "two stints at a time")
					at = stint.To
					if stint.Activity != plots.Pausing {
						worked += stint.To - stint.From
					}
				}
				assert.InDelta(t, x.study.Hours, worked, 1e-6)
			}
		}
	}
}

// By hand: a night shift goes on after midnight on the next day, and after Sunday.
func TestDays(t *testing.T) {
	c := &model.Calendar{Days: 1, Shifts: []model.ShiftTime{{Start: 22 * 3600, Length: 8 * 3600}}, Breaks: []model.Break{{After: 3 * 3600, Length: 1800}}}
	assert.Equal(t, []plots.Stint{{From: 25, To: 25.5, Activity: plots.Pausing}}, pauses(c))
	stints := []plots.Stint{{From: 22, To: 25, Job: "a"}, {From: 25.5, To: 30, Job: "b"}, {From: 167, To: 169, Job: "c"}}
	assert.Equal(t, []plots.Roster{
		{Name: "Mon", Stints: []plots.Stint{{From: 22, To: 24, Job: "a"}}},
		{Name: "Tue", Ends: []float64{6}, Stints: []plots.Stint{{From: 0, To: 1, Job: "a"}, {From: 1.5, To: 6, Job: "b"}}},
		{Name: "Sun", Stints: []plots.Stint{{From: 23, To: 24, Job: "c"}}},
		{Name: "after Sun", Stints: []plots.Stint{{From: 0, To: 1, Job: "c"}}},
	}, days(c, stints))
}

func TestSeasonReport(t *testing.T) {
	s := sixJobs(t, 3, 0, "")
	r, err := s.report()
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, r.Page.HTML(&page))
	for _, want := range []string{"Seasons of each line", "Is it done in time?", "Will it run?", "9 times in 10 by"} {
		assert.Contains(t, page.String(), want)
	}
	var names []string
	for _, f := range r.Figures {
		names = append(names, f.Name)
	}
	assert.Equal(t, []string{"backlog-base", "week-base", "completion-base", "coverage"}, names, "no variant is in time more often")
}

// A fixed number of seasons, unless a precision is asked for.
func TestSeasonPlan(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		want sim.Plan
	}{
		"usual":     {nil, sim.Plan{Seed: 3, Min: 400, Max: 400}},
		"fixed":     {[]string{"--reps", "7"}, sim.Plan{Seed: 3, Min: 7, Max: 7}},
		"precision": {[]string{"--precision", "1%"}, sim.Plan{Seed: 3, Min: 400, Max: 5000, Precision: 0.01}},
	} {
		t.Run(name, func(t *testing.T) {
			flags := desk.NewFlags("season")
			o := newSeasonFlags(flags)
			require.NoError(t, flags.Parse(c.args))
			plan, err := o.seasonPlan(desk.Env{Getenv: func(string) string { return "" }}, scenarios.Settings{Seed: 3, Precision: 0.005, Min: 1000, Max: 5000})
			require.NoError(t, err)
			assert.Equal(t, c.want, plan)
		})
	}
}

func TestSeasonEnding(t *testing.T) {
	for want, change := range map[string]func(*seasons){
		"Ended after the number of seasons asked for.":                        func(*seasons) {},
		"Ended once the work of all weeks was known to ± 1 %, as asked.":      func(s *seasons) { s.plan.Precision, s.runs[0].study.Ending = 0.01, sim.Precise },
		"NOT KNOWN TO ± 1 % AS ASKED: the most seasons allowed were run.":     func(s *seasons) { s.plan.Precision = 0.01 },
		"Interrupted after 2 seasons of the base.":                            func(s *seasons) { s.runs[3].study = nil },
		"PARTIAL ANSWER, interrupted: Six jobs (2 seasons of 3 weeks in each": func(s *seasons) { s.runs[3].study = nil },
		"Six jobs (2 seasons of 3 weeks)":                                     func(s *seasons) { s.runs = s.runs[:1] },
	} {
		t.Run(want, func(t *testing.T) {
			s := sixJobs(t, 2, 0, "")
			change(s)
			assert.Contains(t, s.answer(), want)
		})
	}
}
