package learn

import (
	_ "embed"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// replayOf sets a log beside a scenario, with a number of simulated records.
func replayOf(t *testing.T, sc *scenarios.Scenario, log, counts string, plan sim.Plan) present.Replay {
	t.Helper()
	l, err := (&mappingFlags{}).read(desk.Env{Err: os.Stderr}, log, counts, new(dayTime))
	require.NoError(t, err)
	a, err := replayed(desk.Env{Err: os.Stderr}, study.Replay{Line: sc.Line, File: sc.File, Log: l.Log, Plan: plan})
	require.NoError(t, err)
	return present.Replay{ReplayAnswer: a, Log: l, Origin: page.Origin{Scenario: sc, Text: []byte("as in line.yaml")}, Command: "netrate run line.yaml"}
}

// writtenFiles writes a log and counts that are given as text.
func writtenFiles(t *testing.T, log, counts string) (logFile, countFile string) {
	t.Helper()
	directory := t.TempDir()
	logFile, countFile = filepath.Join(directory, "stops.csv"), filepath.Join(directory, "counts.csv")
	require.NoError(t, os.WriteFile(logFile, []byte(log), 0o600))
	require.NoError(t, os.WriteFile(countFile, []byte(counts), 0o600))
	return logFile, countFile
}

func TestAgainstJSONGolden(t *testing.T) {
	t.Chdir("../../testdata/fitting")
	sc, _, err := desk.Load(desk.Env{}, "line.yaml")
	require.NoError(t, err)
	x := replayOf(t, sc, "stops.csv", "counts.csv", sim.Plan{Seed: 1, Min: 1, Max: 400})
	var out strings.Builder
	require.NoError(t, page.WriteDocument(&out, x.Document("v0")))
	golden.Check(t, "against.json", out.String())
}

// A run that fails has no answer, and one that is interrupted says that it is partial.
func TestAgainstFails(t *testing.T) {
	log, counts := daysWritten(t, 1, 2, func(int) *model.Line { return plainScenario(t).Line })
	x := compareWith(t, log, counts, 1)
	x.Ending = sim.Cancelled
	assert.Contains(t, x.Text(), "PARTIAL ANSWER, interrupted: ")
	document, err := json.Marshal(x.Document("v0"))
	require.NoError(t, err)
	assert.Contains(t, string(document), `"partial":true`)
	line := *x.Line
	line.Crew.Operators = 0
	a, err := replayed(desk.Env{Err: os.Stderr}, study.Replay{Line: &line, Log: x.Log.Log, Plan: x.Plan})
	require.ErrorContains(t, err, "operators")
	assert.Nil(t, a.Tests)
}

// Where clearing times are whole stops and the scenario has walk besides, it is said.
func TestAgainstHintsAtTimeTwice(t *testing.T) {
	log, counts := daysWritten(t, 1, 4, func(int) *model.Line { return plainScenario(t).Line })
	sc := plainScenario(t)
	plan := sim.Plan{Seed: 1, Min: 1, Max: 199}
	const hint = "they count twice"
	assert.NotContains(t, strings.Join(replayOf(t, sc, log, counts, plan).Notes(), " "), hint)
	sc.Line.Crew.Walk = sim.Constant(40)
	assert.Contains(t, strings.Join(replayOf(t, sc, log, counts, plan).Notes(), " "), hint)
}

// Six stops, of 1, 2, 4, 8, 16 and 32 s, so that a sum tells which of them are in it.
//
//go:embed testdata/six-stops.csv
var sixStops string

// One day alone shows nothing of how days differ.
func TestAgainstOfOneDay(t *testing.T) {
	log, counts := writtenFiles(t, sixStops, "Day,Station,Feeds\n2026-03-02,inserter,5000\n2026-03-02,letter,5000\n2026-03-02,card,5000\n")
	x := replayOf(t, plainScenario(t), log, counts, sim.Plan{Seed: 1, Min: 1, Max: 199})
	assert.Len(t, x.Tests, 2)
	assert.Contains(t, strings.Join(x.Notes(), " "), "With one day alone")
	assert.Contains(t, x.Finding(), "The model does not reproduce the log: it has")
	_, err := x.Report("v0")
	require.NoError(t, err)
}

func TestDayTime(t *testing.T) {
	var d dayTime
	require.NoError(t, d.Set("22:30"))
	assert.Equal(t, "22:30", d.String())
	require.NoError(t, d.Set("00:00"))
	assert.Equal(t, "00:00", d.String())
	for _, text := range []string{"", "24:00", "6", "06:60", "-1:00"} {
		assert.Error(t, d.Set(text), text)
	}
}

// 1 is what chance makes of the days of one line, and less is, where something is uncertain:
// the variance then holds the uncertainty too.
func TestAgainstSaysWhatDaysDifferBy(t *testing.T) {
	log, counts := daysWritten(t, 1, 4, func(int) *model.Line { return plainScenario(t).Line })
	x := compareWith(t, log, counts, 1)
	for _, test := range x.Tests[runs.VaryingStops:] {
		assert.InDelta(t, 1, test.Simulated.Mean(), 0.2) // 199 records of a chi-square with 3 degrees: ± 3.29 × 0.058
	}
	notes := strings.Join(x.Notes(), " ")
	assert.Contains(t, notes, "Where days differ, 1 is what chance makes on average. If the rates come from this log, its stops agree by construction, its seconds nearly so")
	assert.NotContains(t, notes, "less here")
	uncertainRun := *x.Line
	x.Line = &uncertainRun
	x.Line.UncertainInputs = make([]model.UncertainInput, 1)
	assert.Contains(t, strings.Join(x.Notes(), " "), "1 is what chance makes on average in one line; less here")
}
