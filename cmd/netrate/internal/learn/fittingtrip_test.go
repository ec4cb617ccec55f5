package learn

import (
	_ "embed"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/present"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
	"netrate/sim/fit"
	"netrate/sim/output"
)

var macro = flag.Int("macro", 20, "logs of lines whose rates are known that are written, read and fitted")

// A plain line: every fault is noticed and stops it, nobody walks, nothing restarts. So the
// length of a stop is its clearing time, and the log holds every fault.
//
//go:embed testdata/plain.yaml
var plainLineText string

// plainTruths are the rates and the mean clearing times of the plain line.
var plainTruths = map[string]float64{
	"letter misfeed": 1.0 / 400, "letter double": 1.0 / 600, "letter jam": 1.0 / 700, "letter": 45,
	"card misfeed": 1.0 / 500, "card double": 1.0 / 900, "card jam": 1.0 / 800, "card": 30,
	"inserter envelope misfeed": 1.0 / 600, "inserter flap": 1.0 / 500, "inserter insertion jam": 1.0 / 700, "inserter": 60,
}

// writeStops writes the stops of a shift as rows of a log.
func writeStops(to *strings.Builder, start time.Time, stood []model.Span) {
	for i := 0; i < len(stood); i++ {
		first, last := stood[i], stood[i]
		for i+1 < len(stood) && stood[i+1].From == last.To && stood[i+1].Station == first.Station && stood[i+1].Cause == first.Cause {
			i++
			last = stood[i]
		}
		fmt.Fprintf(to, "%s,%s,%s,%.4f\n", start.Add(time.Duration(float64(first.From)*1e9)).Format("2006-01-02 15:04:05.000"),
			first.Station, first.Cause, float64(last.To-first.From))
	}
}

// written simulates a shift of a line and writes its log and its counts.
func written(t *testing.T, line *model.Line, seed uint64) (log, counts string) {
	t.Helper()
	s, err := model.New(line)
	require.NoError(t, err)
	var o model.Outcome
	stood, _, err := s.Record(seed, 0, nil, &o)
	require.NoError(t, err)
	var stops, feeds strings.Builder
	stops.WriteString("Start,Station,Cause,Duration (s)\n")
	writeStops(&stops, time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC), stood)
	feeds.WriteString("Station,Feeds\n")
	for _, x := range o.Stations[:3] {
		fmt.Fprintf(&feeds, "%s,%d\n", x.Name, x.Attempts)
	}
	directory := t.TempDir()
	log, counts = filepath.Join(directory, "stops.csv"), filepath.Join(directory, "counts.csv")
	require.NoError(t, os.WriteFile(log, []byte(stops.String()), 0o600))
	require.NoError(t, os.WriteFile(counts, []byte(feeds.String()), 0o600))
	return log, counts
}

// learntFrom reads and fits files.
func learntFrom(t *testing.T, log, counts string, quick bool) *fitting {
	t.Helper()
	l, err := (&mappingFlags{}).read(desk.Env{Err: os.Stderr}, log, counts, new(dayTime))
	require.NoError(t, err)
	return learntOf(t, l, quick)
}

// learntOf fits a log.
func learntOf(t *testing.T, l present.Log, quick bool) *fitting {
	t.Helper()
	draws := 99
	if quick {
		draws = 0
	}
	a, err := study.Fit{Log: l.Log, Draws: draws, Seed: 1, Quick: quick}.Ask(t.Context(), nil)
	require.NoError(t, err)
	return &fitting{Fit: present.Fit{FitAnswer: a, Log: l, Command: "netrate fit"}}
}

// eachInterval hands over every interval that was learnt, and that of the same middle three
// fifths as wide.
func (x *fitting) eachInterval(each func(what string, low, high, narrowLow, narrowHigh float64)) {
	for _, l := range x.Stations {
		for _, f := range l.Faults {
			r := f.Rate
			each(l.Name+" "+f.Called, r.Low, r.High, r.P-0.6*(r.P-r.Low), r.P+0.6*(r.High-r.P))
		}
		if c := l.Clearing.Chosen; c != nil {
			low, high := c.MeanInterval(0.95)
			narrow, wide := c.MeanInterval(0.7604) // 1.176 standard errors for 1.96
			each(l.Name, float64(low), float64(high), float64(narrow), float64(wide))
		}
	}
}

func plainScenario(t *testing.T) *scenarios.Scenario {
	t.Helper()
	sc, err := scenarios.Load("plain.yaml", []byte(plainLineText))
	require.NoError(t, err)
	return sc
}

// What a simulated line did tells its rates and its clearing times, and that they are as
// independent as they are.
func TestFitRoundTrip(t *testing.T) {
	if golden.Raced {
		t.Skip("what runs at once is watched in other tests")
	}
	log, counts := written(t, plainScenario(t).Line, 1)
	x := learntFrom(t, log, counts, false)
	seen := 0
	x.eachInterval(func(what string, low, high, _, _ float64) {
		seen++
		want, known := plainTruths[what]
		require.True(t, known, what)
		assert.True(t, low <= want && want <= high, "%s: %g to %g, want %g", what, low, high, want)
	})
	assert.Len(t, plainTruths, seen)
	for i := range x.Stations {
		l := &x.Stations[i]
		require.NotNil(t, l.Bursts, l.Name)
		assert.False(t, l.InBursts(), l.Name)
	}
	assert.Equal(t, fit.Gamma, x.Stations[1].Clearing.Chosen.Kind)
}

// Of the 95 % intervals 93 to 97 % hold the truth; those three fifths as wide do not. With
// few rounds chance is allowed for too.
func TestKnownTruthOfLogs(t *testing.T) {
	line := plainScenario(t).Line
	held, narrow, all := int64(0), int64(0), int64(0)
	for i := range *macro {
		log, counts := written(t, line, uint64(1000+i))
		learntFrom(t, log, counts, true).eachInterval(func(what string, low, high, narrowLow, narrowHigh float64) {
			want := plainTruths[what]
			all++
			if low <= want && want <= high {
				held++
			}
			if narrowLow <= want && want <= narrowHigh {
				narrow++
			}
		})
	}
	within := func(hits int64) bool {
		if *macro >= 300 {
			share := float64(hits) / float64(all)
			return share >= 0.93 && share <= 0.97
		}
		low, high := output.ExactInterval(hits, all, 0.999)
		return low <= 0.97 && high >= 0.93
	}
	assert.True(t, within(held), "%d of %d", held, all)
	assert.False(t, within(narrow), "intervals three fifths as wide go unseen: %d of %d", narrow, all)
	t.Logf("%.1f %% of %d intervals held, %.1f %% of those three fifths as wide", 100*float64(held)/float64(all), all, 100*float64(narrow)/float64(all))
}

// The fragment is what a scenario takes: with the place and the hopper of each station it is
// a line that has the rates and times that were learnt.
func TestFitFragmentLoads(t *testing.T) {
	log, counts := written(t, plainScenario(t).Line, 2)
	x := learntFrom(t, log, counts, true)
	fragment := stoplog.Fragment(x.FitAnswer)
	for i, name := range []string{"letter", "card", "inserter"} {
		head := fmt.Sprintf("    name: '%s'\n", name)
		require.Contains(t, fragment, head)
		fragment = strings.Replace(fragment, head, head+fmt.Sprintf("    at: %d\n    rated: 10000/h\n    hopper: {pieces: 500, warn: 50, refill: 20 s}\n", 2*i), 1)
	}
	stations := "  " + strings.ReplaceAll(strings.TrimSpace(fragment), "\n", "\n  ") + "\n    - {kind: delivery, name: belt, at: 8}\n"
	sc, err := scenarios.Load("pasted.yaml", []byte("name: Pasted\nline:\n  restart: 0 s\n"+stations+
		"policy: {misfeed: stop, double: stop, flap: stop}\ncrew: {operators: 1, walk: 0 s}\nwork: {shift: 1 h}\n"))
	require.NoError(t, err, stations)

	letter, is := sc.Line.Stations[0].(*model.Feeder)
	require.True(t, is)
	assert.Equal(t, x.Stations[0].Faults[0].Rate.P, letter.Misfeed)
	assert.Equal(t, x.Stations[0].Faults[2].Rate.P, letter.Jam)
	assert.InEpsilon(t, float64(x.Stations[0].Clearing.Chosen.Mean()), float64(letter.Clear.Mean()), 0.002)
	priors := map[string]output.Prior{}
	for _, d := range sc.Line.UncertainInputs {
		priors[d.Path()] = d.Of
	}
	assert.Len(t, priors, 3*(3+2), "three rates, a mean and a cv of each station")
	for _, l := range x.Stations {
		for i, f := range l.Faults {
			if key := l.As.Rates[i]; key != "" {
				assert.Equal(t, output.Counted{Seen: f.Rate.Faults, Of: f.Rate.Feeds}, priors["stations."+l.Name+"."+key])
			}
		}
		for part, want := range map[string]output.About{
			"mean": {Mean: float64(l.Clearing.Chosen.Mean()), Error: float64(l.Clearing.Chosen.MeanSE())},
			"cv":   {Mean: l.Clearing.Chosen.CV(), Error: l.Clearing.Chosen.CVSE()},
		} {
			got, is := priors["stations."+l.Name+".clear."+part].(output.About)
			require.True(t, is, "%s %s", l.Name, part)
			assert.InEpsilon(t, want.Mean, got.Mean, 0.002)
			assert.InEpsilon(t, want.Error, got.Error, 0.05)
		}
	}
	for _, station := range x.Stations {
		assert.True(t, slices.ContainsFunc(sc.Stated(), func(s scenarios.Statement) bool {
			return s.Station == station.Name && s.Key == "clear" && strings.Contains(s.Source, "misfeeds, ")
		}), station.Name)
	}
}
