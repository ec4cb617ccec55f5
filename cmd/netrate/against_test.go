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

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/internal/golden"
	"netrate/model/study"
)

// runIn runs the verb with the given input and returns what it prints.
func runIn(t *testing.T, args ...string) (string, error) {
	t.Helper()
	var out, says strings.Builder
	err := run(append([]string{"run"}, args...), desk.Env{In: strings.NewReader(""), Out: &out, Err: &says, Getenv: func(string) string { return "" }})
	return out.String(), err
}

func TestAgainstGolden(t *testing.T) {
	t.Chdir("testdata/fitting")
	got, err := runIn(t, "line.yaml", "--against", "stops.csv", "--counts", "counts.csv")
	require.NoError(t, err)
	golden.Check(t, "against.txt", got)
	lines := strings.Split(strings.TrimSuffix(got, "\n"), "\n")
	assert.LessOrEqual(t, len(lines), 45)
	for _, line := range lines {
		if !strings.HasPrefix(line, "  netrate ") {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), say.Screen(), line)
		}
	}
	again, _ := strings.CutPrefix(lines[len(lines)-1], "  netrate run ")
	repeated, err := runIn(t, strings.Fields(again)...)
	require.NoError(t, err)
	assert.Equal(t, got, repeated)
}

// The document has what the answer has, from the command line too.
func TestAgainstJSON(t *testing.T) {
	t.Chdir("testdata/fitting")
	got, err := runIn(t, "line.yaml", "--against", "stops.csv", "--counts", "counts.csv", "--json")
	require.NoError(t, err)
	var document struct {
		Format   int                                          `json:"netrate_against_json"`
		Work     string                                       `json:"work"`
		Scenario page.ScenarioJSON                            `json:"scenario"`
		Tests    []struct{ Log study.Number }                 `json:"tests"`
		Stops    []struct{ Stops struct{ Log study.Number } } `json:"stops"`
	}
	require.NoError(t, json.Unmarshal([]byte(got), &document))
	assert.Equal(t, 2, document.Format)
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

// Too few records can show nothing, and say so.
func TestAgainstOfLittle(t *testing.T) {
	t.Chdir("testdata/fitting")
	got, err := runIn(t, "line.yaml", "--against", "stops.csv", "--counts", "counts.csv", "--reps", "20")
	require.NoError(t, err)
	said := strings.Join(strings.Fields(got), " ")
	assert.Contains(t, said, "20 simulated records cannot tell whether the model reproduces the log: no P can be below 0.095.")
	assert.Contains(t, said, "no test can be out of line: it takes 159 or more.")
}
