package lines

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/golden"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
)

// twoLines returns the scenario of the tests with two lines, run so often.
func twoLines(t *testing.T, reps int) *shared {
	t.Helper()
	text, err := os.ReadFile("../../testdata/hall.yaml")
	require.NoError(t, err)
	sc, err := scenarios.Load("hall.yaml", text)
	require.NoError(t, err)
	halls := []*model.Hall{sc.Hall}
	for _, l := range sc.Hall.Lines {
		halls = append(halls, &model.Hall{Lines: []*model.Line{l}, Crew: sc.Hall.Crew})
	}
	studies, err := model.RunHalls(t.Context(), halls, sim.Plan{Seed: 1, Min: reps, Max: reps}, nil)
	require.NoError(t, err)
	return newShared(sc, text, "netrate run hall.yaml", studies)
}

func TestHallGolden(t *testing.T) {
	s := twoLines(t, 40)
	text := s.answer()
	golden.Check(t, "../../testdata/hall.txt", text)
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	assert.LessOrEqual(t, len(lines), 28)
	for _, line := range lines {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), say.Screen, line)
	}
}

// What is said of all lines is the sum of what is said of each, and sharing costs all what
// it costs each.
func TestHallAddsUp(t *testing.T) {
	s := twoLines(t, 40)
	cost, rate := 0.0, 0.0
	for i, study := range s.lines {
		cost += s.cost(i).Mean
		rate += study.NetRates().Mean()
		assert.Positive(t, s.cost(i).Low(), "sharing one operator is not free")
	}
	assert.InDelta(t, cost, s.costOfAll().Mean, 1e-6)
	assert.InDelta(t, rate, s.all.NetRates().Mean(), 1e-6)
	assert.InDelta(t, crewBusy(s.all).Mean, crewBusy(s.lines[0]).Mean+crewBusy(s.lines[1]).Mean, 1e-9)
	doc := s.document()
	require.Len(t, doc.Lines, 2)
	assert.InDelta(t, float64(doc.Cost.Mean), float64(doc.Lines[0].Alone.Cost.Mean+doc.Lines[1].Alone.Cost.Mean), 1e-6)
}

func TestHallReport(t *testing.T) {
	s := twoLines(t, 5)
	r, err := s.report()
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, r.Page.HTML(&page))
	for _, want := range []string{"letters: inserter: jam", "cards: line.speed, as it runs", "What sharing the crew costs"} {
		assert.Contains(t, page.String(), want)
	}
	assert.Equal(t, 1, strings.Count(page.String(), "crew.walk"), "the crew is one")
}

// The variants of several lines are compared by what all their lines deliver together.
func TestCompareHalls(t *testing.T) {
	s := twoLines(t, 40)
	f, err := variantsOf(s.field.origins[0], "netrate compare hall.yaml", "hall.yaml")
	require.NoError(t, err)
	c := compared(t, f, "--reps", "40")
	assert.Equal(t, s.all.NetRates(), c.entrants[0].study.NetRates(), "the base is what run has")
	assert.Equal(t, 1, c.best, "a second operator is worth something")
	text := c.answer()
	assert.Contains(t, text, "2 configurations compared")
	assert.Contains(t, text, "Net rates are of all lines of a configuration together.")
	sum := 0.0
	for _, s := range c.steps() {
		sum += s.change
	}
	assert.InDelta(t, c.entrants[1].study.NetRates().Mean()-c.entrants[0].study.NetRates().Mean(), sum, 1e-6)
	r, err := compareReport("v0", c)
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, r.Page.HTML(&page))
	assert.Contains(t, page.String(), "letters and cards with one crew of 1 operator")
}
