package learn

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// workedDays simulates two jobs on each of some days, one after the other: letters, for which the
// card feeder is at rest, at 10,000 an hour, and cards for two sets of five at 6,000. It writes the
// log and the counts, with jobs and speeds or without.
func workedDays(t *testing.T, seed uint64, days int, told bool) (log, counts string) {
	t.Helper()
	var stops, feeds strings.Builder
	stops.WriteString("Start,Station,Cause,Duration (s),Job,Speed\n")
	feeds.WriteString("Day,Station,Job,Speed,Feeds\n")
	for day := range 2 * days {
		l := plainScenario(t).Line
		l.Shift = 2 * 3600
		job, speed := "letters", 10_000
		if day%2 == 0 {
			l.Stations = slices.Delete(l.Stations, 1, 2)
		} else {
			job, speed = "cards", 6000
			l.Stations[1].(*model.Feeder).Share = 0.4
		}
		l.Speed = float64(speed)
		s, err := model.New(l)
		require.NoError(t, err)
		var o model.Outcome
		stood, _, err := s.Record(seed, day, nil, &o)
		require.NoError(t, err)
		start := time.Date(2026, 3, 2+day/2, 6+4*(day%2), 0, 0, 0, time.UTC)
		if !told {
			start = time.Date(2026, 3, 2+day, 6, 0, 0, 0, time.UTC)
		}
		var rows strings.Builder
		writeStops(&rows, start, stood)
		of := fmt.Sprintf(",%s,%d\n", job, speed)
		if !told {
			of = ",,\n"
		}
		stops.WriteString(strings.ReplaceAll(rows.String(), "\n", of))
		for _, x := range o.Stations[:len(o.Stations)-1] {
			fmt.Fprintf(&feeds, "%s,%s%s,%d\n", start.Format(time.DateOnly), x.Name, strings.TrimSuffix(of, "\n"), x.Attempts)
		}
		if day%2 == 0 && told {
			fmt.Fprintf(&feeds, "%s,card%s,0\n", start.Format(time.DateOnly), strings.TrimSuffix(of, "\n"))
		}
	}
	directory := t.TempDir()
	log, counts = filepath.Join(directory, "stops.csv"), filepath.Join(directory, "counts.csv")
	require.NoError(t, os.WriteFile(log, []byte(stops.String()), 0o600))
	require.NoError(t, os.WriteFile(counts, []byte(feeds.String()), 0o600))
	return log, counts
}

// The line that wrote a log of two jobs is not contradicted by it, as each station is taken with
// its own feeds, job by job and speed by speed, or day by day where no job is given. With the
// inserter's count for all of them the log seems to have far fewer stops.
func TestAgainstJobs(t *testing.T) {
	for _, told := range []bool{true, false} {
		out := 0
		for round := range 6 {
			log, counts := workedDays(t, uint64(round), 5, told)
			x := compareWith(t, log, counts, uint64(100+round))
			if x.Tests[runs.AllStops].Out || x.Tests[runs.AllSeconds].Out {
				out++
			}
			idle, parts := x.Parted()
			assert.Equal(t, []string{"card"}, idle)
			assert.Equal(t, []string{"card"}, parts)
			if round > 0 {
				continue
			}
			old := &runs.Replay{Line: x.Line, Counts: x.Compares}
			for _, p := range x.Periods {
				old.Periods = append(old.Periods, p.Period)
			}
			drawn, _, err := old.Run(t.Context(), sim.Plan{Seed: 1, Min: 1, Max: 199}, nil)
			require.NoError(t, err)
			all := runs.CompareRecords(x.Logged, drawn, 0.05)[runs.AllStops]
			assert.True(t, all.Out, "the old answer")
			assert.Greater(t, all.Simulated.Mean(), 1.2*all.Log, "the old answer: far fewer stops than simulated")
		}
		assert.LessOrEqual(t, out, 1, "jobs told: %v", told)
	}
}
