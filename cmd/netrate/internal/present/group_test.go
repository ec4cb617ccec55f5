package present

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/internal/golden"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// twoLines returns the scenario of the tests with two lines, run a number of times.
func twoLines(t *testing.T, reps int) Group {
	t.Helper()
	text, err := os.ReadFile("../../testdata/group.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("group.yaml", text)
	require.NoError(t, err)
	return sharing(t, sc, text, reps, 0)
}

// sharing runs the lines of a scenario with one crew, in a number of shifts and draws.
func sharing(t *testing.T, sc *scenarios.Scenario, text []byte, reps, draws int) Group {
	t.Helper()
	q := study.GroupRun{
		Alternative: study.Alternative{Name: sc.Name, File: sc.File, Group: sc.LineGroup},
		Plan:        sim.Plan{Seed: 1, Min: reps, Max: reps}, Draws: draws,
	}
	a, err := q.Ask(t.Context(), nil)
	require.NoError(t, err)
	return Group{GroupRunAnswer: a, Origin: page.Origin{Scenario: sc, Text: text}, Command: "netrate run group.yaml"}
}

func TestLineGroupGolden(t *testing.T) {
	s := twoLines(t, 40)
	text := s.Text()
	golden.Check(t, "../../testdata/group.txt", text)
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	assert.LessOrEqual(t, len(lines), 28)
	for _, line := range lines {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), say.Screen(), line)
	}
}

// What is said of all lines is the sum of what is said of each, and sharing costs all what
// it costs each.
func TestLineGroupAddsUp(t *testing.T) {
	s := twoLines(t, 40)
	cost, rate := 0.0, 0.0
	for _, x := range s.Lines {
		cost += float64(x.Alone.Cost.Mean)
		rate += x.Study.NetRates().Mean()
		assert.Positive(t, x.Alone.Cost.Mean-x.Alone.Cost.Half, "sharing one operator is not free")
	}
	assert.InDelta(t, cost, float64(s.Cost.Mean), 1e-6)
	assert.InDelta(t, rate, s.Study.NetRates().Mean(), 1e-6)
	assert.InDelta(t, float64(s.CrewBusy.Mean), float64(s.Lines[0].CrewBusy.Mean+s.Lines[1].CrewBusy.Mean), 1e-9)
	var out bytes.Buffer
	require.NoError(t, page.WriteDocument(&out, s.Document("v0")))
	var doc study.GroupRunAnswer
	require.NoError(t, json.Unmarshal(out.Bytes(), &doc))
	require.Len(t, doc.Lines, 2)
	assert.InDelta(t, float64(doc.Cost.Mean), float64(doc.Lines[0].Alone.Cost.Mean+doc.Lines[1].Alone.Cost.Mean), 1e-6)
}

func TestLineGroupReport(t *testing.T) {
	s := twoLines(t, 5)
	r, err := s.Report("v0")
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, r.Page.HTML(&page))
	for _, want := range []string{"letters: inserter: jam", "cards: line.speed, as it runs", "What sharing the crew costs"} {
		assert.Contains(t, page.String(), want)
	}
	assert.Equal(t, 1, strings.Count(page.String(), "crew.walk"), "the crew is one")
}

// The variants of several lines are compared by what all their lines deliver together.
func TestCompareLineGroups(t *testing.T) {
	s := twoLines(t, 40)
	c := compared(t, variantsOf(s.Origin, "netrate compare group.yaml"), reps(40))
	assert.Equal(t, s.Study.NetRates(), c.Lines[0].Study.NetRates(), "the base is what run has")
	assert.Equal(t, 1, c.Leader, "a second operator is worth something")
	text := c.Text()
	assert.Contains(t, text, "2 configurations compared")
	assert.Contains(t, text, "Net rates are of all lines of a configuration together.")
	sum := 0.0
	for _, s := range c.Steps {
		sum += s.Change
	}
	assert.InDelta(t, c.Lines[1].Study.NetRates().Mean()-c.Lines[0].Study.NetRates().Mean(), sum, 1e-6)
	r, err := c.Report("v0")
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, r.Page.HTML(&page))
	assert.Contains(t, page.String(), "letters and cards with one crew of 1 operator")
}
