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
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/internal/golden"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// sixJobs returns the scenario of the tests that has jobs, and its season run a number of times
// in each configuration.
func sixJobs(t *testing.T, reps int, service float64, order sequence) *present.Seasons {
	t.Helper()
	text, err := os.ReadFile("../../testdata/jobs.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("jobs.yaml", text)
	require.NoError(t, err)
	about := desk.Subject{Scenario: sc, Source: text, Again: "netrate season jobs.yaml"}
	plan := sim.Plan{Seed: 1, Min: reps, Max: reps}
	answer, err := newSeasons(about, plan, service, order).Ask(t.Context(), nil)
	require.NoError(t, err)
	require.Equal(t, reps, answer.Settings.Reps)
	return &present.Seasons{
		SeasonsAnswer: answer, Coverage: study.Coverage{Alternatives: page.AlternativesOf(sc)}.Ask(),
		Origin: page.OriginOf(about), Plan: plan, Order: string(order), Command: about.Again,
	}
}

func TestSeasonGolden(t *testing.T) {
	s := sixJobs(t, 6, 0.5, "")
	text := s.Text()
	golden.Check(t, "testdata/jobs.season.txt", text)
	for line := range strings.Lines(text) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), say.Screen(), line)
	}
	var out bytes.Buffer
	require.NoError(t, page.WriteDocument(&out, s.Document("v0")))
	var doc struct {
		Scenario page.ScenarioJSON
		Settings study.Settings
		Lines    []struct{ Weeks, Jobs []any }
	}
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
	given, best := &sixJobs(t, 2, 0, "given").Lines[0], &sixJobs(t, 2, 0, "best").Lines[0]
	assert.Equal(t, "given", given.Order)
	assert.Equal(t, "best", best.Order)
	assert.Less(t, best.Changing, given.Changing)
	assert.Contains(t, present.SeasonsChangeovers(given), "--order best")
	assert.Contains(t, present.SeasonsChangeovers(best), "That is in the best order, which is used; the order of the file would take 0.33 h more")
}

func TestSeasonCSV(t *testing.T) {
	s := sixJobs(t, 3, 0, "")
	var out bytes.Buffer
	require.NoError(t, page.Delivered(s).Data(&out))
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+4*3*3)
	work, err := strconv.ParseFloat(rows[1][5], 64)
	require.NoError(t, err)
	assert.InDelta(t, s.Lines[0].Study.Weeks[0].Work[0], work, 1e-12)
}

// All that a line does in a week fills its working time, once.
func TestStintsFillTheWeek(t *testing.T) {
	s := sixJobs(t, 3, 0, "")
	for i := range s.Lines {
		x := &s.Lines[i]
		for week := range x.Weeks {
			for r := range x.Study.Done {
				worked, at := 0.0, 0.0
				for _, stint := range x.Stints(week, r) {
					assert.GreaterOrEqual(t, stint.From, at-1e-9, "two stints at a time")
					at = stint.To
					if stint.Activity != study.SeasonsPausing {
						worked += stint.To - stint.From
					}
				}
				assert.InDelta(t, x.Study.Hours, worked, 1e-6)
			}
		}
	}
}

func TestSeasonReport(t *testing.T) {
	s := sixJobs(t, 3, 0, "")
	r, err := s.Report("v0")
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
	assert.Equal(t, []string{"backlog-base", "week-base", "completion-base", "backlog-three-days", "week-three-days", "completion-three-days", "coverage"}, names,
		"none is ever in time, and that one needs the least overtime")
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
	for want, change := range map[string]func(*present.Seasons){
		"Stopped after the number of seasons asked for.":                              func(*present.Seasons) {},
		"Stopped when the work of all weeks was known to ± 6.3 % (asked for: ± 1 %).": func(s *present.Seasons) { s.Plan.Precision, s.Lines[0].Study.Ending = 0.01, sim.Precise },
		"NOT KNOWN TO ± 1 % AS ASKED: stopped at the maximum number of seasons, at":   func(s *present.Seasons) { s.Plan.Precision = 0.01 },
		"Interrupted after 2 seasons of the base.":                                    func(s *present.Seasons) { s.Settings.Partial = true },
		"PARTIAL ANSWER, interrupted: Six jobs (2 seasons of 3 weeks, 4 conf":         func(s *present.Seasons) { s.Settings.Partial = true },
		"Six jobs (2 seasons of 3 weeks)":                                             func(s *present.Seasons) { s.Lines, s.Other = s.Lines[:1], 0 },
	} {
		t.Run(want, func(t *testing.T) {
			s := sixJobs(t, 2, 0, "")
			change(s)
			assert.Contains(t, s.Text(), want)
		})
	}
}
