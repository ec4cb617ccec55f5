package present

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/cmd/netrate/internal/small"
	"netrate/internal/browser"
	"netrate/internal/golden"
	"netrate/model/study"
	"netrate/scenarios"
)

// pageOf returns a report as HTML.
func pageOf(t *testing.T, r *page.Report, err error) string {
	t.Helper()
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, r.Page.HTML(&b))
	return b.String()
}

// headings returns the headings of the sections of a page.
func headings(page string) []string {
	var all []string
	for _, m := range regexp.MustCompile(`<h2>(.*?)</h2>`).FindAllStringSubmatch(page, -1) {
		all = append(all, m[1])
	}
	return all
}

func names(figures []desk.NamedFigure) []string {
	var all []string
	for _, f := range figures {
		all = append(all, f.Name)
	}
	return all
}

// What is seen at a glance is what the report says and draws.
func TestGlanceIsOfTheReport(t *testing.T) {
	sc, text, s := small.Scenario(t, 60)
	a := Run{RunAnswer: seen(t, study.RunAnswerOf(s, nil)), Origin: page.Origin{Scenario: sc, Text: text}, Command: "netrate run small.yaml"}
	whole, err := a.Report("v0")
	require.NoError(t, err)
	glance, err := a.Glance("v0")
	require.NoError(t, err)
	assert.Equal(t, whole.Page.Answer, glance.Page.Answer)
	assert.Equal(t, []string{"distribution", "waterfall", "stops"}, names(glance.Figures))
	for _, f := range glance.Figures {
		i := slices.IndexFunc(whole.Figures, func(x desk.NamedFigure) bool { return x.Name == f.Name })
		want, err := whole.Figures[i].Figure.Chart()
		require.NoError(t, err)
		got, err := f.Figure.Chart()
		require.NoError(t, err)
		assert.Equal(t, want, got, f.Name)
	}
}

func TestRunReport(t *testing.T) {
	sc, text, s := small.Scenario(t, 60)
	a := Run{RunAnswer: seen(t, study.RunAnswerOf(s, nil)), Origin: page.Origin{Scenario: sc, Text: text}, Command: "netrate run small.yaml"}
	r, err := a.Report("v0")
	page := pageOf(t, r, err)
	assert.Equal(t, []string{
		"The line", "What it delivers", "Where the rest goes", "How defective envelopes come", "How a shift goes", "What the model leaves out",
		"What it rests on", "To do it again", "Cautions",
	}, headings(page))
	assert.Equal(t, []string{"line", "distribution", "running-mean", "waterfall", "stops", "fan", "timeline", "stocks"}, names(r.Figures))
	for _, said := range []string{
		"How many good envelopes an hour does this line deliver?", "Net rate 5,6", sc.Digest,
		"netrate run small.yaml --seed 5 --reps 60", "letter: misfeed", "1/500 at the rated speed", "not stated", "1910.147",
	} {
		assert.Contains(t, page, said)
	}
	again, err := a.Report("v0")
	assert.Equal(t, page, pageOf(t, again, err), "the same input gives the same bytes")
	assert.NotContains(t, page, "more often than an attempt can")
	a.Slips = []study.Slip{{What: study.SlipDry}, {What: study.SlipCut, Path: "stations.letter", Size: 0.034, Most: 18}}
	r, err = a.Report("v0")
	assert.Contains(t, pageOf(t, r, err), "stations.letter: in its worst lots, or on the worst days, it would fail more often than an attempt can. "+
		"That is cut off at 18 times its rates, so that it has 3.4 % fewer faults than they say.")
}

func TestCompareReport(t *testing.T) {
	c := variants(t, pictured)
	r, err := c.Report("v0")
	page := pageOf(t, r, err)
	assert.Equal(t, []string{
		"What was compared", "Which delivers most, and by how much", "Why", "How defective envelopes come", "How a shift goes", "What the model leaves out",
		"What it rests on", "To do it again",
	}, headings(page))
	assert.Contains(t, page, "no licence to skip", "on the first page")
	assert.ElementsMatch(t, []string{
		"line", "differences", "distribution",
		"difference", "time", "stops",
		"fan-0-base", "timeline-0-base", "fan-1-two-operators", "timeline-1-two-operators",
	}, names(r.Figures))
	for _, said := range []string{
		"Is a second operator worth more than clearing faster?", "“two operators” delivers most", "crew.operators: 1 → 2",
		"Hsu’s method", "Bonferroni", "two operators: crew.operators", "slower, stopping less: line.speed",
	} {
		assert.Contains(t, page, said)
	}
	assert.NotContains(t, page, "two operators: letter: misfeed", "what is as in the base is not said again")
}

func TestSelectionReport(t *testing.T) {
	r, err := variants(t, best(0, say.Level), pictured).Report("v0")
	page := pageOf(t, r, err)
	assert.Contains(t, page, "after 64 shifts, by “two operators”")
	assert.Contains(t, page, "not 62 an hour or more ahead of it")
	assert.NotContains(t, page, "Bonferroni", "a selection has no intervals of differences")
	assert.NotContains(t, names(r.Figures), "differences")
}

// A choice that is not made, for want of shifts or since somebody ended it, has its report too.
func TestReportOfUndecidedSelection(t *testing.T) {
	for _, shifts := range []int{1, 2, 10} {
		c := variants(t, best(0, say.Level), reps(shifts), pictured)
		require.False(t, c.Best.Shown)
		r, err := c.Report("v0")
		page := pageOf(t, r, err)
		assert.Contains(t, page, "leads, but is not shown to deliver most")
		assert.Contains(t, page, "Nothing is promised.")
	}
}

// The workbook has a sheet for each table, with real numbers.
func TestOutputs(t *testing.T) {
	c := variants(t, reps(10), pictured)
	r, err := c.Report("v0")
	require.NoError(t, err)
	dir := t.TempDir()
	o := &desk.Outputs{
		Report: filepath.Join(dir, "r.html"), Workbook: filepath.Join(dir, "t.xlsx"), Pictures: filepath.Join(dir, "pictures"),
	}
	var says bytes.Buffer
	e := desk.Env{Out: &says}
	require.NoError(t, o.Begin(e))
	defer o.Drop()
	require.NoError(t, o.Deliver(e, desk.Answer{
		Text: desk.Text(func() string { return "" }),
		Page: func() (desk.Page, error) { return desk.Page{Report: r.Page, Tables: r.Tables, Figures: r.Figures}, nil },
	}))
	assert.Equal(t, 4, strings.Count(says.String(), "\n"))

	book, err := excelize.OpenFile(o.Workbook)
	require.NoError(t, err)
	defer func() { require.NoError(t, book.Close()) }()
	assert.Len(t, book.GetSheetList(), len(r.Tables))
	rows, err := book.GetRows("Net rates")
	require.NoError(t, err)
	assert.Equal(t, "two operators", rows[2][0])
	for _, f := range r.Figures {
		for _, ending := range []string{".svg", ".png"} {
			info, err := os.Stat(filepath.Join(o.Pictures, f.Name+ending))
			require.NoError(t, err)
			assert.Greater(t, info.Size(), int64(1000))
		}
	}
}

// The report of each example opens in a browser without a complaint, asks for nothing, and
// shows every figure.
func TestReportInBrowser(t *testing.T) {
	ctx := browser.Start(t)
	for _, x := range scenarios.Examples() {
		sc, err := scenarios.Load(x.Name, x.Data)
		require.NoError(t, err)
		if len(sc.Variants) == 0 || golden.Raced && x.Name != "divert-or-stop" { // one shows it what all would
			continue
		}
		t.Run(x.Name, func(t *testing.T) {
			f := variantsOf(page.Origin{Scenario: sc, Text: x.Data}, "netrate compare --example "+x.Name)
			r, err := compared(t, f, reps(60), pictured).Report("v0")
			page := pageOf(t, r, err)
			sizes := opened(ctx, t, page)
			assert.Len(t, sizes, len(r.Figures)+1, "and the picture of the first page")
			for _, size := range sizes {
				assert.Greater(t, min(size[0], size[1]), 60.0)
			}
		})
	}
	t.Run("faults are seen", func(t *testing.T) {
		_, complaints := look(ctx, t, `<title>bad</title><script>throw "planted"</script>`)
		assert.NotEmpty(t, complaints)
	})
}

// Nothing in the reports keeps anybody from using them, on a phone, on a small screen and on a large
// one. Those of other verbs: TestPagesAreForEverybody of the command.
func TestReportsAreForEverybody(t *testing.T) {
	ctx := browser.Start(t)
	sc, text, s := small.Scenario(t, 60)
	run, err := Run{RunAnswer: seen(t, study.RunAnswerOf(s, nil)), Origin: page.Origin{Scenario: sc, Text: text}, Command: "netrate run small.yaml"}.Report("v0")
	runPage := pageOf(t, run, err)
	compared, err := variants(t, pictured).Report("v0")
	for name, page := range map[string]string{"run": runPage, "compare": pageOf(t, compared, err)} {
		t.Run(name, func(t *testing.T) { assert.Empty(t, browser.Unusable(ctx, t, page, 360, 1024, 1440)) })
	}
	t.Run("faults are seen", func(t *testing.T) {
		bad := strings.Replace(runPage, `<html lang="en">`, "<html>", 1)
		bad = strings.Replace(bad, "</main>", `<p style="width: 400px; font-size: 10px">small and wide</p></main>`, 1)
		found := strings.Join(browser.Unusable(ctx, t, bad, 360), "\n")
		assert.Contains(t, found, "html-has-lang")
		assert.Contains(t, found, "10.0 pixels")
		assert.Contains(t, found, "wider than the window")
	})
}

// opened opens a page and returns the sizes of its figures, in pixels.
func opened(ctx context.Context, t *testing.T, page string) [][2]float64 {
	t.Helper()
	sizes, complaints := look(ctx, t, page)
	assert.Empty(t, complaints)
	return sizes
}

// look opens a page in a tab of its own and returns the sizes of its figures, and what the
// browser complained of or had to fetch.
func look(ctx context.Context, t *testing.T, page string) (sizes [][2]float64, complaints []string) {
	t.Helper()
	tab := browser.NewTab(ctx, t)
	defer tab.Close()
	at := tab.Show(t, page)
	sizes, err := chromedp.Run(tab, chromedp.Evaluate[[][2]float64](
		`[...document.querySelectorAll("figure .chart:not(.slim) svg")].map(e => { const r = e.getBoundingClientRect(); return [r.width, r.height] })`))
	require.NoError(t, err)
	fetched, complaints := tab.Heard()
	for _, other := range fetched {
		if other != at {
			complaints = append(complaints, "fetched "+other)
		}
	}
	return sizes, complaints
}
