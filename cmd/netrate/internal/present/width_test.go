package present

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/cmd/netrate/internal/small"
	"netrate/internal/golden"
	"netrate/model/study"
	"netrate/plots/terminal"
	"netrate/scenarios"
)

// Answers are as wide as the terminal, from 60 characters on, and no wider; commands apart, which
// are one line to be copied. A wider one shows more of a table, not longer lines of prose.
func TestAnswersFitTheTerminal(t *testing.T) {
	if golden.Raced {
		t.Skip("the width of the answers is not what the race detector looks at")
	}
	t.Cleanup(func() { say.Fit(0) })
	wide := map[int]int{}
	for _, x := range scenarios.Examples() {
		sc, err := scenarios.Load(x.Name, x.Data)
		require.NoError(t, err)
		from := page.Origin{Scenario: sc, Text: x.Data}
		texts := map[string]func() string{"check": func() string { return Checked(from) }}
		if len(sc.Products) > 0 {
			covered := study.Coverage{Alternatives: page.AlternativesOf(sc)}.Ask()
			texts["jobs"] = func() string { return CoverageText(covered) }
		}
		if !sc.NoWork && sc.LineGroup == nil {
			run := Run{RunAnswer: study.RunAnswerOf(small.Study(t, sc, 12), nil), Origin: from, Command: "netrate run"}
			texts["run"] = run.Text
			texts["strategy"] = chosen(t, desk.Subject{Scenario: sc, Again: "netrate strategy"}, "", 2).Text
		}
		if len(sc.Variants) > 0 && !sc.NoWork {
			c := compared(t, variantsOf(from, "netrate compare"), reps(12))
			texts["compare"] = c.Text
		}
		for name, text := range texts {
			for _, width := range []int{60, 80, 120, 200} {
				say.Fit(width)
				for line := range strings.Lines(text()) {
					line = strings.TrimSuffix(line, "\n")
					if strings.HasPrefix(line, "  netrate ") {
						continue
					}
					assert.LessOrEqual(t, terminal.Width(line), width, "%s of %s at %d: %s", name, x.Name, width, line)
					wide[width] = max(wide[width], terminal.Width(line))
				}
			}
			say.Fit(0)
		}
	}
	assert.Greater(t, wide[120], wide[80], "a wider terminal is made use of")
}
