package present

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

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
	said := map[string][]string{} // as people read them
	for _, entries := range prices.Rows {
		for k, e := range entries[1:] {
			if !prices.Columns[k+1].Data {
				said[entries[0].Text] = append(said[entries[0].Text], cmp.Or(e.Text, e.Shown))
			}
		}
	}
	assert.Equal(t, []string{"0", "38,000 (32,000 to 50,000)"}, said["price"])
	assert.Equal(t, []string{"0.05", "0.05"}, said["pieces.card"])
	assert.Equal(t, []string{"1.5 times beyond 800 h", "1.5 times beyond 800 h"}, said["overtime"])
	assert.Equal(t, []float64{38000, 32000, 50000}, []float64{prices.Rows[0][4].Number, prices.Rows[0][5].Number, prices.Rows[0][6].Number}, "numbers in the workbook")

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

// The sheet to change works out what the report says, where no range and no overtime keeps the mean
// of the sums from being the sum of the means; and a price that is changed there changes the worth
// by as much. Its formulas are those of a spreadsheet, and worked out here by one.
func TestWorthCalculation(t *testing.T) {
	c := weighed(t, "overtime: {beyond: 800, factor: 1.5}", "overtime: {beyond: 8000, factor: 1.5}", reps(50))
	var b bytes.Buffer
	calculation := WorthCalculation(c.Money)
	require.NoError(t, plots.WriteXLSX(&b, []plots.Table{c.alternativesTable()}, calculation))
	book, err := excelize.OpenReader(&b)
	require.NoError(t, err)
	defer func() { require.NoError(t, book.Close()) }()
	row := func(key string) int {
		for i, r := range calculation.Rows {
			if r.Key == key {
				return 4 + i
			}
		}
		t.Fatal(key)
		return 0
	}
	at := func(column, key string) float64 {
		text, err := book.CalcCellValue(calculation.Name, fmt.Sprintf("%s%d", column, row(key)), excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		x, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err, "%s: %q", key, text)
		return x
	}
	line, w := &c.Money.Lines[1], c.Money.Worth
	assert.InEpsilon(t, float64(line.Hours.Mean), at("C", "hours"), 1e-9)
	assert.InEpsilon(t, float64(line.Cost.Mean), at("C", "cost"), 0.005, "wages and hours are drawn together")
	assert.InEpsilon(t, w.AllInPerThousand(1).Mean(), at("C", "allin"), 0.005)
	npv := w.Gains[1].NPV
	assert.InDelta(t, npv.Mean(), at("C", "npv"), 0.1*npv.SD(), "of what draws differ by")
	assert.Zero(t, at("B", "npv"), "of the base against itself")

	before := at("C", "npv")
	cell := fmt.Sprintf("C%d", row("price"))
	price := line.Of.Costs.Price.Mean()
	require.NoError(t, book.SetCellValue(calculation.Name, cell, price+5000))
	assert.InDelta(t, before-5000, at("C", "npv"), 1e-6)
	require.NoError(t, book.SetCellValue(calculation.Name, cell, at("C", "upto")))
	assert.InDelta(t, 0, at("C", "npv"), 1e-6, "at the price up to which it pays it is worth nothing")
	require.NoError(t, book.SetCellValue(calculation.Name, fmt.Sprintf("C%d", row("interest")), 0))
	assert.InDelta(t, at("C", "life"), at("C", "years"), 1e-12, "without interest a year is a year")
}

// A board reads the first paragraph alone: where there are costs it has what a thousand costs all in with each
// line, and what that is worth, also where the file asks for a net rate. The target stood there alone.
func TestMoneyIsInTheFirstParagraph(t *testing.T) {
	c := weighed(t, "costs:", "target: 100/h\ncosts:", reps(50))
	r, err := c.Report("v0")
	require.NoError(t, err)
	first, _, _ := strings.Cut(r.Page.Answer, "\n\n")
	first = strings.ReplaceAll(first, "\u00a0", " ")
	for i := range c.Lines {
		assert.Contains(t, first, worthAllIn(c.Money, i)+" ")
	}
	assert.Contains(t, first, "All in, a thousand good envelopes cost least with ")
	assert.Contains(t, first, "the net present value of ")
	assert.Contains(t, first, "the target of 100 an hour is reached")
}

// The screen, the page and the JSON begin with one headline, which is of money where the file has costs: the
// screen once named the fastest as the best where the page named the one that costs least.
func TestOneHeadlineOfMoney(t *testing.T) {
	c := weighed(t, "question: ", "question: Which line costs least? # ", reps(50))
	said := func(text string) string { return strings.Join(strings.Fields(text), " ") }
	r, err := c.Report("v0")
	require.NoError(t, err)
	var doc bytes.Buffer
	require.NoError(t, page.WriteDocument(&doc, c.Document("v0")))
	var read struct {
		Headline string `json:"headline"`
	}
	require.NoError(t, json.Unmarshal(doc.Bytes(), &read))
	want := said(c.headline())
	assert.True(t, strings.HasPrefix(want, "All in, a thousand good envelopes cost least with “with a track gate”"), want)
	_, text, _ := strings.Cut(c.Text(), "\n\n")
	assert.True(t, strings.HasPrefix(said(text), want), text)
	assert.True(t, strings.HasPrefix(said(r.Page.Answer), want), r.Page.Answer)
	assert.Equal(t, want, said(read.Headline))
	assert.NotRegexp(t, `\bbest\b`, strings.ReplaceAll(c.Text(), "“best”", ""), "the fastest is not the best where there are costs")
	assert.Contains(t, c.Text(), "to fastest")

	c.Origins[0].Scenario.Question = ""
	r, err = c.Report("v0")
	require.NoError(t, err)
	assert.Equal(t, "Which of these lines costs least over the life?", r.Page.Question)
}

// The sheet for a board has a row for each offer with what it costs and is worth, as the tables of money have
// it, and says that what it rests on is of speed.
func TestBoardSeesTheMoneyOfEachOffer(t *testing.T) {
	c := weighed(t, "", "", reps(50))
	board, years, gains := c.alternativesTable(), worthYears(c.Money, page.All(2)), worthGains(c.Money, page.All(2))
	shown := func(t plots.Table, row int, title string) string {
		for k := range t.Columns {
			if t.Columns[k].Title == title {
				return cmp.Or(t.Rows[row][k].Shown, t.Rows[row][k].Text)
			}
		}
		return "no column " + title
	}
	for i := range c.Lines {
		for _, title := range []string{"Price", "All-in cost", "Cheapest"} {
			assert.Equal(t, shown(years, i, title), shown(board, i, title), title)
		}
	}
	for _, title := range []string{"NPV", "5 % to 95 %"} {
		assert.Empty(t, shown(board, 0, title), "of the base against itself")
		assert.Equal(t, shown(gains, 0, title), shown(board, 1, title), title)
	}
	r, err := c.Report("v0")
	require.NoError(t, err)
	require.NotEmpty(t, r.Page.Decision.Matters)
	assert.True(t, strings.HasPrefix(r.Page.Decision.MattersBy, "Of the net rate, not of the money: "), r.Page.Decision.MattersBy)
}

// What was counted in shifts is not shown as 0 % or 100 %.
func TestWinsAreNoCertainty(t *testing.T) {
	for share, want := range map[float64]string{0: "none", 0.001: "under 1 %", 0.5: "50 %", 0.998: "over 99 %", 1: "all"} {
		assert.Equal(t, want, wins(share))
	}
}
