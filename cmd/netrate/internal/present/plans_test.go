package present

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"

	ics "github.com/arran4/golang-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// nineJobs returns the plan of the example.
func nineJobs(t *testing.T) Plans {
	t.Helper()
	for _, x := range scenarios.Examples() {
		if x.Name != "nine-jobs" {
			continue
		}
		s, err := scenarios.Load(x.Name, x.Data)
		require.NoError(t, err)
		plan := sim.Plan{Seed: 1, Min: 10, Max: 10}
		q := study.Plans{Configurations: []study.PlansConfiguration{{Name: "base", Plan: s.Plan.Plan}}, Plan: plan}
		a, err := q.Ask(context.Background(), nil)
		require.NoError(t, err)
		zone, err := time.LoadLocation(s.Plan.Zone)
		require.NoError(t, err)
		y, m, d := s.Plan.Starts.Date()
		return Plans{PlansAnswer: a, Origin: page.Origin{Scenario: s, Text: x.Data}, Plan: plan, Starts: time.Date(y, m, d, 0, 0, 0, 0, zone)}
	}
	t.Fatal("there is no such example")
	return Plans{}
}

// The calendar file is read back by a library, and has each job at its time on the wall, before and
// after the change to summer time on 29 March 2026: in the European Union at 01:00 UTC on the last
// Sunday of March (Directive 2000/84/EC).
func TestPlanCalendar(t *testing.T) {
	s := nineJobs(t)
	var b bytes.Buffer
	require.NoError(t, s.WriteCalendar(&b))
	var again bytes.Buffer
	require.NoError(t, s.WriteCalendar(&again))
	assert.Equal(t, b.String(), again.String(), "the same plan is the same file")
	for line := range strings.SplitSeq(b.String(), "\r\n") {
		assert.LessOrEqual(t, len(line), 75, "RFC 5545, section 3.1: a line has 75 octets at most")
	}
	cal, err := ics.ParseCalendar(&b)
	require.NoError(t, err)
	jobs := map[string]*study.PlansJob{}
	for _, j := range s.shown().Jobs() {
		jobs[j.Name] = j
	}
	require.Len(t, cal.Events(), len(jobs))
	summer := 0
	for _, e := range cal.Events() {
		_, name, _ := strings.Cut(e.GetProperty(ics.ComponentPropertySummary).Value, ": ")
		j := jobs[name]
		require.NotNil(t, j, name)
		end, err := e.GetEndAt()
		require.NoError(t, err)
		_, _, hour, minute := j.Finished.P50.Parts()
		local := end.In(s.Starts.Location())
		assert.Equal(t, [2]int{hour, minute}, [2]int{local.Hour(), local.Minute()}, name)
		if _, offset := local.Zone(); offset == 2*3600 {
			summer++
		}
		assert.Equal(t, time.UTC, end.Location())
	}
	assert.Positive(t, summer, "a plan that ends before the change shows nothing")
	assert.Less(t, summer, len(jobs))
}
