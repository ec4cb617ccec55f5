package willrun

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/internal/golden"
	"netrate/scenarios"
)

// jobsOfFile returns the scenario of the tests that has jobs, and its text.
func jobsOfFile(t *testing.T) (*scenarios.Scenario, []byte) {
	t.Helper()
	sc, text, err := desk.Load(desk.Env{Err: t.Output()}, "../../testdata/jobs.yaml")
	require.NoError(t, err)
	return sc, text
}

func TestCoverageGolden(t *testing.T) {
	sc, _ := jobsOfFile(t)
	text := "\n" + present.CoverageText(covered(sc))
	golden.Check(t, "testdata/jobs.check.txt", text)
	lines := strings.Split(text, "\n")
	assert.LessOrEqual(t, len(lines), 48, "no more than a screen for six jobs on three lines")
	for _, line := range lines {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
	}
}

func TestCoverageReport(t *testing.T) {
	sc, text := jobsOfFile(t)
	a := covered(sc)
	r, err := present.Coverage{CoverageAnswer: a, Origin: page.Origin{Scenario: sc, Text: text}, Command: "netrate check jobs.yaml"}.Report("v0")
	require.NoError(t, err)
	var html bytes.Buffer
	require.NoError(t, r.Page.HTML(&html))
	assert.NotContains(t, html.String(), "Seed", "nothing was simulated")
	require.Len(t, r.Figures, 1)
	require.Len(t, a.Jobs, 6)
	assert.Equal(t, []string{scenarios.BaseName, "wider inserter", "faster card feeder"}, a.Lines)
	assert.Equal(t, map[string]string{"bill": "letter", "card": "card"}, a.Jobs[1].Fits[0].Feeders)
}
