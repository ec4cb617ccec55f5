package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/model"
	"netrate/sim"
)

// runIn runs the verb with the given input and returns what it prints.
func runIn(t *testing.T, args ...string) (string, error) {
	t.Helper()
	var out, says strings.Builder
	err := run(append([]string{"run"}, args...), env{in: strings.NewReader(""), out: &out, err: &says, getenv: func(string) string { return "" }})
	return out.String(), err
}

func TestAgainstGolden(t *testing.T) {
	t.Chdir("testdata/fitting")
	got, err := runIn(t, "line.yaml", "--against", "stops.csv", "--counts", "counts.csv")
	require.NoError(t, err)
	golden(t, "against.txt", got)
	lines := strings.Split(strings.TrimSuffix(got, "\n"), "\n")
	assert.LessOrEqual(t, len(lines), 45)
	for _, line := range lines {
		if !strings.HasPrefix(line, "  netrate ") {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), screen, line)
		}
	}
	again, _ := strings.CutPrefix(lines[len(lines)-1], "  netrate run ")
	repeated, err := runIn(t, strings.Fields(again)...)
	require.NoError(t, err)
	assert.Equal(t, got, repeated)
}

func TestAgainstJSONGolden(t *testing.T) {
	t.Chdir("testdata/fitting")
	sc, _, err := load(env{}, "line.yaml")
	require.NoError(t, err)
	x := &against{Scenario: sc, source: []byte("as in line.yaml"), line: *sc.Line, plan: sim.Plan{Seed: 1, Min: 1, Max: 400}, again: "netrate run line.yaml"}
	x.records, err = (&mappingFlags{}).read(env{err: os.Stderr}, "stops.csv", "counts.csv")
	require.NoError(t, err)
	require.NoError(t, x.arrange(0))
	require.NoError(t, x.simulate(env{err: os.Stderr}))
	var out strings.Builder
	require.NoError(t, writeDocument(&out, x.document("v0")))
	golden(t, "against.json", out.String())
}

// The document has what the answer has, from the command line too.
func TestAgainstJSON(t *testing.T) {
	t.Chdir("testdata/fitting")
	got, err := runIn(t, "line.yaml", "--against", "stops.csv", "--counts", "counts.csv", "--json")
	require.NoError(t, err)
	var document againstDocument
	require.NoError(t, json.Unmarshal([]byte(got), &document))
	assert.Equal(t, 1, document.Format)
	assert.Equal(t, "inserter", document.Work)
	assert.Len(t, document.Tests, 4)
	stops := 0.0
	for _, x := range document.Stops {
		stops += float64(x.Stops.Log)
	}
	assert.InDelta(t, float64(document.Tests[0].Log), stops, 1e-9)
	source, err := os.ReadFile("line.yaml")
	require.NoError(t, err)
	assert.Equal(t, string(source), document.Scenario.Source)
}

// A run that fails has no answer, and one that is interrupted says that it is partial.
func TestAgainstFails(t *testing.T) {
	log, counts := daysWritten(t, 1, 2, func(int) *model.Line { return plainScenario(t).Line })
	x := compareWith(t, log, counts, 1)
	x.ending = sim.Cancelled
	assert.Contains(t, x.title(), "PARTIAL ANSWER, interrupted: ")
	assert.True(t, x.document("v0").Partial)
	x.line.Stations, x.tests = nil, nil
	require.ErrorContains(t, x.simulate(env{err: os.Stderr}), "draw 1 of the line: ")
	assert.Nil(t, x.tests)
}

func TestAgainstWritesAReport(t *testing.T) {
	t.Chdir("testdata/fitting")
	directory := t.TempDir()
	page := filepath.Join(directory, "page.html")
	_, err := runIn(t, "line.yaml", "--against", "stops.csv", "--counts", "counts.csv", "--reps", "200", "--report", page, "--plots", directory, "--xlsx", filepath.Join(directory, "t.xlsx"))
	require.NoError(t, err)
	html, err := os.ReadFile(page)
	require.NoError(t, err)
	for _, want := range []string{"Does the model reproduce the log?", "feeder 2, misfeed", "95 % of simulated records, at each value", "the log of four days beside this file"} {
		assert.Contains(t, string(html), want)
	}
	assert.Regexp(t, `days differ: stops</th><td class="number">2\.\d\d</td>`, string(html))
	assert.FileExists(t, filepath.Join(directory, "periods.svg"))
	assert.FileExists(t, filepath.Join(directory, "t.xlsx"))
}

// Where clearing times are whole stops and the scenario has walk besides, it is said.
func TestAgainstHintsAtTimeTwice(t *testing.T) {
	log, counts := daysWritten(t, 1, 4, func(int) *model.Line { return plainScenario(t).Line })
	x := compareWith(t, log, counts, 1)
	const hint = "they count twice"
	assert.NotContains(t, strings.Join(x.notes(), " "), hint)
	x.line.Crew.Walk = sim.Constant(40)
	require.NoError(t, x.simulate(env{err: os.Stderr}))
	assert.Contains(t, strings.Join(x.notes(), " "), hint)
}

// Too few records can show nothing, and say so; so does one day alone.
func TestAgainstOfLittle(t *testing.T) {
	t.Chdir("testdata/fitting")
	got, err := runIn(t, "line.yaml", "--against", "stops.csv", "--counts", "counts.csv", "--reps", "20")
	require.NoError(t, err)
	said := strings.Join(strings.Fields(got), " ")
	assert.Contains(t, said, "20 simulated records cannot tell whether the model reproduces the log: no P can be below 0.095.")
	assert.Contains(t, said, "159 are the least that can.")
	x, err := logOf(t, plainScenario(t), sixStops, "Day,Station,Feeds\n2026-03-02,inserter,5000\n2026-03-02,letter,5000\n2026-03-02,card,5000\n", 0)
	require.NoError(t, err)
	x.plan = sim.Plan{Seed: 1, Min: 1, Max: 199}
	require.NoError(t, x.simulate(env{err: os.Stderr}))
	assert.Len(t, x.tests, 2)
	assert.Contains(t, strings.Join(x.notes(), " "), "With one day alone")
	assert.Contains(t, x.finding(), "The model does not reproduce the log: it has")
	_, err = x.report("v0")
	require.NoError(t, err)
}

func TestProbability(t *testing.T) {
	for p, want := range map[float64]string{1: "1.00", 0.5: "0.50", 0.0951: "0.10", 0.0499: "0.050", 2.0 / 401: "0.005", 0.0004: "<0.001"} {
		assert.Equal(t, want, probability(p))
	}
	assert.Equal(t, "P = 0.005", withP(0.005))
	assert.Equal(t, "P < 0.001", withP(0.0001))
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
