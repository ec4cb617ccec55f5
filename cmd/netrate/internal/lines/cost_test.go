package lines

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/golden"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/money"
	"netrate/plots"
	"netrate/scenarios"
	"netrate/sim"
)

// weighed compares the variants of the example with costs, after a change of its text.
func weighed(t *testing.T, old, with string, args ...string) *contest {
	t.Helper()
	x, err := scenarios.ExampleNamed("gate-worth")
	require.NoError(t, err)
	require.Contains(t, string(x.Data), old)
	text := []byte(strings.Replace(string(x.Data), old, with, 1))
	sc, err := scenarios.Load("costs.yaml", text)
	require.NoError(t, err)
	f, err := variantsOf(page.Origin{Scenario: sc, Text: text}, "netrate compare costs.yaml", "costs.yaml")
	require.NoError(t, err)
	c := compared(t, f, args...)
	c.weigh()
	return c
}

func TestMoneyGolden(t *testing.T) {
	c := weighed(t, "", "", "--reps", "50")
	golden.Check(t, "../../testdata/costs.txt", c.answer())
	var doc bytes.Buffer
	require.NoError(t, page.WriteDocument(&doc, c.moneyDocument()))
	golden.Check(t, "../../testdata/costs.json", doc.String())
	for line := range strings.Lines(c.answer()) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), say.Screen, line)
	}
}

// The figures and tables of the report tell the same as the answer.
func TestMoneyReport(t *testing.T) {
	c := weighed(t, "", "", "--reps", "50")
	r, err := compareReport("v0", c)
	require.NoError(t, err)
	var names []string
	for _, f := range r.Figures {
		names = append(names, f.Name)
	}
	assert.Subset(t, names, []string{"npv", "break-even", "cost-1-with-a-track-gate"})
	var html bytes.Buffer
	require.NoError(t, r.Page.HTML(&html))
	assert.Contains(t, html.String(), "What it is worth")
	assert.Contains(t, html.String(), "not financial advice")

	parts, total := c.partsTable(), c.money.Lines[1].Cost.Mean()
	for _, row := range parts.Rows {
		total -= row[2].Number
	}
	assert.InDelta(t, 0, total, 1e-6*c.money.Lines[1].Cost.Mean(), "the parts add up")

	prices := c.pricesTable()
	row := func(said ...string) (entries []plots.Entry) {
		for _, text := range said {
			entries = append(entries, page.Words(text))
		}
		return entries
	}
	assert.Contains(t, prices.Rows, row("price", "0", "38,000 (32,000 to 50,000)"))
	assert.Contains(t, prices.Rows, row("pieces.card", "0.05", "0.05"))
	assert.Contains(t, prices.Rows, row("overtime", "1.5 times beyond 800 h", "1.5 times beyond 800 h"))

	none := weighed(t, "costs:", "costs:", "--best")
	r, err = compareReport("v0", none)
	require.NoError(t, err)
	for _, s := range r.Page.Sections {
		assert.NotEqual(t, "What it is worth", s.Heading)
	}
}

func TestMoneyAside(t *testing.T) {
	for want, c := range map[string]struct {
		old, with string
		args      []string
	}{
		"--best runs some lines for fewer shifts": {"", "", []string{"--best"}},
		"as many, 2 at least":                     {"", "", []string{"--reps", "1"}},
		"one has a life of 8 years and another of 9": {
			"      - {set: costs.upkeep, to: 1500}", "      - {set: costs.life, to: 9}", []string{"--reps", "3"},
		},
		"one has its costs in EUR and another in USD": {
			"      - {set: costs.upkeep, to: 1500}", "      - {set: costs.currency, to: USD}", []string{"--reps", "3"},
		},
	} {
		t.Run(want, func(t *testing.T) {
			got := weighed(t, c.old, c.with, c.args...)
			assert.Nil(t, got.money)
			assert.Nil(t, got.moneyDocument())
			said := strings.Join(strings.Fields(got.answer()), " ")
			assert.Contains(t, said, "No money is told: ")
			assert.Contains(t, said, want)
		})
	}
	c := variants(t, "--reps", "3")
	c.weigh()
	assert.Empty(t, c.moneyBlock(), "no costs, no word of money")
}

// valued returns a contest of two lines with one gain.
func valued(g model.Gain) *contest {
	c := sampled(noisy(1000, 5, 0), noisy(1010, 5, 1))
	c.money = &model.Worth{
		Currency: "EUR", Life: 8, Rate: 0.08, Draws: len(g.NPV), Gains: []model.Gain{{}, g},
		Volume: sim.Sample{1_000_000}, Lines: []model.YearOf{{Hours: sim.Sample{1000}}, {Hours: sim.Sample{500}}},
	}
	return c
}

// A year has 8,760 hours: the base makes 8,760,000 in it, and B twice as many.
func TestMoneyWithinTheYear(t *testing.T) {
	gain := model.Gain{NPV: sim.Sample{1, -2, -3, -4}, BreakEven: sim.Sample{17_600_000}}
	c := valued(gain)
	assert.Contains(t, c.moneySentence(), "and it pays at no volume that it can make in a year.")
	c.money.Gains[1].BreakEven = sim.Sample{17_400_000}
	assert.Contains(t, c.moneySentence(), "and it pays from 17,000,000 good envelopes a year on.")
	assert.NotContains(t, c.moneySentence(), "NOT POSSIBLE")
	c.money.Lines[0].Hours = sim.Sample{14_932}
	assert.Contains(t, c.moneySentence(), " NOT POSSIBLE on one line: a year has 8,760 hours, and it would take the base 15,000.")
}

// turned returns a sample whose signs are turned round.
func turned(s sim.Sample) sim.Sample {
	other := make(sim.Sample, len(s))
	for i, x := range s {
		other[i] = -x
	}
	return other
}

func TestMoneySentence(t *testing.T) {
	never := math.Inf(1)
	gain := func(npv, even sim.Sample) model.Gain {
		return model.Gain{NPV: npv, BreakEven: even, Chance: money.ChanceOfGain(npv, say.Level)}
	}
	mixed, up, down := make(sim.Sample, 100), make(sim.Sample, 100), make(sim.Sample, 100)
	for i := range mixed {
		mixed[i], up[i], down[i] = float64(i-40), 10, -10
	}
	for _, c := range []struct {
		npv  sim.Sample
		even float64
		says []string
	}{
		{mixed, 4_321_000, []string{"“B” may pay for itself", "over 8 years at 8 %", "above 0 with a probability of 60 % (50 % to 70 %), and it pays from 4,300,000 good envelopes a year on."}},
		{turned(mixed), 4_321_000, []string{"“B” is more likely not to pay for itself than to", "probability of 40 %"}},
		{up, 0, []string{"“B” pays for itself", "a probability of 100 % (96 % to 100 %), and it pays at any volume."}},
		{down, never, []string{"“B” does not pay for itself", "a probability of 0 % (0 % to 4 %), and no volume is large enough for it."}},
	} {
		got := valued(gain(c.npv, sim.Sample{c.even})).moneySentence()
		for _, says := range c.says {
			assert.Contains(t, got, says)
		}
	}
}

func TestMoneyFigures(t *testing.T) {
	c := valued(model.Gain{})
	never := math.Inf(1)
	assert.Equal(t, "over 8 years", c.years(sim.Sample{3, never, never}))
	assert.Equal(t, "3.2 years", c.years(sim.Sample{3.24, 1, never}))
	assert.Equal(t, "at once", c.years(sim.Sample{0, 0, 0}))
	assert.Equal(t, plots.Entry{Text: "never"}, reached(sim.Sample{never, never, 2}))
	assert.Equal(t, plots.Entry{Number: 2}, reached(sim.Sample{never, 1, 2}))

	assert.Equal(t, "1,234.57", averaged(sim.Sample{1234.5678, 1234.5679}))
	assert.Equal(t, "1,235", averaged(sim.Sample{1235, 1235}))
	assert.Equal(t, "-5,300", averaged(sim.Sample{-4321, -6234}))
	assert.Equal(t, "0", averaged(sim.Sample{-3, 2.9999}))

	assert.Equal(t, "0.005", rangeWords(money.Fixed(0.005)))

	assert.Zero(t, axisStart(50, 100))
	assert.Equal(t, 91.0, axisStart(95.4, 97.4))
	assert.Zero(t, axisStart(0.71, 1))
}
