package learn

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/present"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
)

// daysWritten simulates a shift of the line of each day and writes the log and the counts.
func daysWritten(t *testing.T, seed uint64, days int, line func(day int) *model.Line) (log, counts string) {
	t.Helper()
	var stops, feeds strings.Builder
	stops.WriteString("Start,Station,Cause,Duration (s)\n")
	feeds.WriteString("Day,Station,Feeds\n")
	for day := range days {
		l := line(day)
		l.Shift = 2 * 3600
		s, err := model.New(l)
		require.NoError(t, err)
		var o model.Outcome
		stood, _, err := s.Record(seed, day, nil, &o)
		require.NoError(t, err)
		start := time.Date(2026, 3, 2+day, 6, 0, 0, 0, time.UTC)
		writeStops(&stops, start, stood)
		for _, x := range o.Stations[:3] {
			fmt.Fprintf(&feeds, "%s,%s,%d\n", start.Format(time.DateOnly), x.Name, x.Attempts)
		}
	}
	directory := t.TempDir()
	log, counts = filepath.Join(directory, "stops.csv"), filepath.Join(directory, "counts.csv")
	require.NoError(t, os.WriteFile(log, []byte(stops.String()), 0o600))
	require.NoError(t, os.WriteFile(counts, []byte(feeds.String()), 0o600))
	return log, counts
}

// compareWith compares the plain line with a log.
func compareWith(t *testing.T, log, counts string, seed uint64) present.Replay {
	t.Helper()
	return replayOf(t, plainScenario(t), log, counts, sim.Plan{Seed: seed, Min: 1, Max: 199})
}

// failing makes all faults a number of times as frequent.
func failing(l *model.Line, times float64) *model.Line {
	for _, s := range l.Stations {
		switch s := s.(type) {
		case *model.Feeder:
			s.Misfeed, s.Double, s.Jam = times*s.Misfeed, times*s.Double, times*s.Jam
		case *model.Inserter:
			s.EnvelopeMisfeed, s.Flap, s.Jam = times*s.EnvelopeMisfeed, times*s.Flap, times*s.Jam
		}
	}
	return l
}

// slower makes all clearing times half as long again.
func slower(l *model.Line) *model.Line {
	for _, s := range l.Stations {
		switch s := s.(type) {
		case *model.Feeder:
			s.Clear = sim.Scaled(s.Clear, 1.5)
		case *model.Inserter:
			s.Clear = sim.Scaled(s.Clear, 1.5)
		}
	}
	return l
}

// A log that the line itself has written is told apart from simulated ones as seldom as chance has
// it: P is 0.05 or less in one round of twenty, in each test.
func TestAgainstItself(t *testing.T) {
	if golden.Raced {
		t.Skip("what runs at once is watched in other tests")
	}
	low := map[runs.RecordFigure]int64{}
	out := int64(0)
	for round := range *macro {
		log, counts := daysWritten(t, uint64(5000+round), 8, func(int) *model.Line { return plainScenario(t).Line })
		x := compareWith(t, log, counts, uint64(round))
		odd := false
		for _, test := range x.Tests {
			if test.P <= 0.05 {
				low[test.Figure]++
			}
			odd = odd || test.Out
		}
		if odd {
			out++
		}
	}
	const surely = 1 - 0.001/5 // five checks share the 0.1 %
	for figure := range runs.VaryingSeconds + 1 {
		least, most := output.ExactInterval(low[figure], int64(*macro), surely)
		assert.True(t, least <= 0.05 && 0.05 <= most, "figure %d: P is 0.05 or less in %d of %d", figure, low[figure], *macro)
	}
	least, _ := output.ExactInterval(out, int64(*macro), surely)
	assert.LessOrEqual(t, least, 0.05, "out of line in %d of %d", out, *macro)
	t.Logf("P is 0.05 or less in %v of %d rounds, something is out of line in %d", low, *macro, out)
}

// What is wrong in a model is seen in every round, and where it should be.
func TestAgainstAnotherLine(t *testing.T) {
	for _, c := range []struct {
		name  string
		line  func(day int) *model.Line
		seen  []runs.RecordFigure
		words string
	}{
		{
			"twice as often", func(int) *model.Line { return failing(plainScenario(t).Line, 2) },
			[]runs.RecordFigure{runs.AllStops, runs.AllSeconds},
			"more seconds than simulated|times as many (stops|seconds) as simulated",
		},
		{
			"days that vary", func(day int) *model.Line { return failing(plainScenario(t).Line, 1+2*float64(day%2)) },
			[]runs.RecordFigure{runs.AllStops, runs.AllSeconds, runs.VaryingStops, runs.VaryingSeconds},
			"its days differ in stops with",
		},
		{
			"days that vary about the mean", func(day int) *model.Line { return failing(plainScenario(t).Line, 0.5+float64(day%2)) },
			[]runs.RecordFigure{runs.VaryingStops, runs.VaryingSeconds},
			"its days differ in stops with",
		},
		{
			"longer", func(int) *model.Line { return slower(plainScenario(t).Line) },
			[]runs.RecordFigure{runs.AllSeconds},
			"its line stood for (4[5-9]|5[0-5]) % more seconds than simulated",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			for round := range 3 {
				log, counts := daysWritten(t, uint64(round), 8, c.line)
				x := compareWith(t, log, counts, uint64(100+round))
				for _, figure := range c.seen {
					assert.True(t, x.Tests[figure].Out, "figure %d goes unseen, P = %.3f", figure, x.Tests[figure].P)
				}
				assert.Regexp(t, c.words, x.Finding())
			}
		})
	}
}
