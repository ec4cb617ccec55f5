package present

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/internal/golden"
	"netrate/plots"
	"netrate/scenarios"
)

// weighed compares the variants of the example with costs, after a change of its text.
func weighed(t *testing.T, old, with string, args ...ask) Comparison {
	t.Helper()
	x, err := scenarios.ExampleNamed("gate-worth")
	require.NoError(t, err)
	require.Contains(t, string(x.Data), old)
	text := []byte(strings.Replace(string(x.Data), old, with, 1))
	sc, err := scenarios.Load("costs.yaml", text)
	require.NoError(t, err)
	f := variantsOf(page.Origin{Scenario: sc, Text: text}, "netrate compare costs.yaml")
	c := compared(t, f, args...)
	return c
}

func TestMoneyGolden(t *testing.T) {
	c := weighed(t, "", "", reps(50))
	golden.Check(t, "../../testdata/costs.txt", c.Text())
	var doc bytes.Buffer
	require.NoError(t, page.WriteDocument(&doc, c.Money))
	golden.Check(t, "../../testdata/costs.json", doc.String())
	for line := range strings.Lines(c.Text()) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), say.Screen(), line)
	}
}

// The figures and tables of the report tell the same as the answer.
func TestMoneyReport(t *testing.T) {
	c := weighed(t, "", "", reps(50))
	r, err := c.Report("v0")
	require.NoError(t, err)
	var names []string
	for _, f := range r.Figures {
		names = append(names, f.Name)
	}
	assert.Subset(t, names, []string{"npv", "break-even", "cost"})
	var html bytes.Buffer
	require.NoError(t, r.Page.HTML(&html))
	assert.Contains(t, html.String(), "What it is worth")
	assert.Contains(t, html.String(), "not financial advice")

	tables := WorthTables(c.Money)
	parts, total := tables[1], c.Money.Worth.Lines[1].Cost.Mean()
	for _, row := range parts.Rows {
		total -= row[2].Number
	}
	assert.InDelta(t, 0, total, 1e-6*c.Money.Worth.Lines[1].Cost.Mean(), "the parts add up")

	prices := tables[len(tables)-1]
	row := func(said ...string) (entries []plots.Entry) {
		for _, text := range said {
			entries = append(entries, page.Words(text))
		}
		return entries
	}
	assert.Contains(t, prices.Rows, row("price", "0", "38,000 (32,000 to 50,000)"))
	assert.Contains(t, prices.Rows, row("pieces.card", "0.05", "0.05"))
	assert.Contains(t, prices.Rows, row("overtime", "1.5 times beyond 800 h", "1.5 times beyond 800 h"))

	none := weighed(t, "costs:", "costs:", best(0, say.Level))
	r, err = none.Report("v0")
	require.NoError(t, err)
	for _, s := range r.Page.Sections {
		assert.NotEqual(t, "What it is worth", s.Heading)
	}
}

func TestMoneyAside(t *testing.T) {
	for want, c := range map[string]struct {
		old, with string
		args      []ask
	}{
		"--best runs some lines for fewer shifts": {"", "", []ask{best(0, say.Level)}},
		"one shift alone does not say":            {"", "", []ask{reps(1)}},
		"one has a life of 8 years and another of 9": {
			"      - {set: costs.upkeep, to: 1500, source: an illustrative guess}", "      - {set: costs.life, to: 9}", []ask{reps(3)},
		},
		"one has its costs in EUR and another in USD": {
			"      - {set: costs.upkeep, to: 1500, source: an illustrative guess}", "      - {set: costs.currency, to: USD}", []ask{reps(3)},
		},
	} {
		t.Run(want, func(t *testing.T) {
			got := weighed(t, c.old, c.with, c.args...)
			assert.Nil(t, got.Money)
			said := strings.Join(strings.Fields(got.Text()), " ")
			assert.Contains(t, said, "Costs are not evaluated: ")
			assert.Contains(t, said, want)
		})
	}
	c := variants(t, reps(3))
	assert.Empty(t, c.worthBlock(), "no costs, no word of money")
}
