package plots

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/browser"
)

// A visit is what a browser did with a page.
type visit struct {
	requests, complaints []string
	seen                 seen
	a4, letter           []byte // the page printed, as PDF
}

// seen is what stands on the page.
type seen struct {
	Title  string
	Charts [][2]float64 // width and height of each drawing, pixels
	Hidden []string     // what is there but cannot be seen
	Wider  float64      // by how many pixels the page is wider than the window
	Cut    []string     // tables that do not show all their columns at once
}

const look = `(() => {
	const size = e => { const r = e.getBoundingClientRect(); return [r.width, r.height] }
	const what = [...document.querySelectorAll('h1, h2, p, figcaption, td, th, caption, ul li, svg text')]
		.filter(e => !e.closest('.again') && !(e.tagName == 'CAPTION' && e.parentNode.querySelector('.again'))) // shown in print, in the place of the caption
	return {
		title: document.title,
		charts: [...document.querySelectorAll('figure .chart:not(.slim) svg')].map(size),
		hidden: what.filter(e => !e.closest('.slim') && e.textContent && !size(e).every(x => x > 0)).map(e => e.textContent),
		wider: document.documentElement.scrollWidth - innerWidth,
		cut: [...document.querySelectorAll(".table")].filter(e => e.scrollWidth > e.clientWidth).map(e => e.ariaLabel),
	}
})()`

// open opens a page in a tab of its own, width pixels wide, on a medium (screen or
// print), looks at it and prints it.
func open(ctx context.Context, t *testing.T, html string, width int64, medium string) (*visit, string) {
	t.Helper()
	tab := browser.NewTab(ctx, t)
	defer tab.Close()
	v := &visit{}
	require.NoError(t, chromedp.Do(tab, chromedp.EmulateViewport(width, 900)))
	showOn := func(medium string) {
		_, err := chromedp.Call(tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: medium})
		require.NoError(t, err)
	}
	showOn(medium)
	at := tab.Show(t, html)
	var errs [3]error
	v.seen, errs[0] = chromedp.Run(tab, chromedp.Evaluate[seen](look))
	showOn("") // otherwise it prints what it shows on a screen
	v.a4, errs[1] = chromedp.Run(tab, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4)))
	v.letter, errs[2] = chromedp.Run(tab, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperLetter)))
	require.NoError(t, errors.Join(errs[:]...))
	v.requests, v.complaints = tab.Heard()
	return v, at
}

// sizeOf returns the width and the height of the first page of a PDF, in
// millimetres.
func sizeOf(pdf []byte) string {
	var width, height float64
	_, box, _ := bytes.Cut(pdf, []byte("/MediaBox"))
	if _, err := fmt.Sscanf(string(box), " [0 0 %g %g]", &width, &height); err != nil {
		return "no PDF: " + err.Error()
	}
	return fmt.Sprintf("%.0f × %.0f", width*25.4/72, height*25.4/72)
}

// pagesOf returns how many pages a PDF has.
func pagesOf(pdf []byte) int { return len(regexp.MustCompile(`/Type /Page\b`).FindAll(pdf, -1)) }

// longReport returns a report with all that takes paper.
func longReport(t *testing.T) *Report {
	t.Helper()
	r := sampleReport(t)
	for range 3 {
		f, err := Waterfall(waterfallOf(head, 8, plainName))
		require.NoError(t, err)
		r.Sections[0].Figures = append(r.Sections[0].Figures, f)
	}
	long := wideTable(7)
	for len(long.Rows) < 60 {
		long.Rows = append(long.Rows, append([]Entry{{Text: fmt.Sprintf("feeder %d", len(long.Rows)+1)}}, long.Rows[0][1:]...))
	}
	r.Sections[1].Tables = append(r.Sections[1].Tables, long)
	for i := range 80 {
		r.Assumptions = append(r.Assumptions, Assumption{fmt.Sprintf("stations.feeder %d.misfeed", i+1), "1 in 4,000", ""})
	}
	return r
}

// The report opens in a browser without a complaint, asks for nothing, shows all
// that is in it and prints.
func TestReportInBrowser(t *testing.T) {
	ctx := browser.Start(t)
	r := sampleReport(t)
	r.Sections[1].Tables = append(r.Sections[1].Tables, wideTable(14))
	html := pageOf(t, r)
	for _, c := range []struct {
		name, medium string
		width        int64
		cut          []string
	}{
		{"desk", "screen", 1280, []string{}},
		{"phone", "screen", 390, []string{"Variants", "Variants", "Wide"}},
		{"paper", "print", 665, []string{}}, // 176 mm between the margins of A4
	} {
		t.Run(c.name, func(t *testing.T) {
			v, at := open(ctx, t, html, c.width, c.medium)
			assert.Equal(t, []string{at}, v.requests)
			assert.Empty(t, v.complaints)
			assert.Equal(t, "Does a gate pay?", v.seen.Title)
			assert.Len(t, v.seen.Charts, 3)
			for _, size := range v.seen.Charts {
				assert.Greater(t, size[0], 300.0)
				assert.Greater(t, size[1], 60.0)
			}
			assert.Empty(t, v.seen.Hidden)
			assert.Equal(t, c.cut, v.seen.Cut)
			assert.LessOrEqual(t, v.seen.Wider, 0.0, "the page scrolls sideways")
			assert.Equal(t, "210 × 297", sizeOf(v.a4))
			assert.Equal(t, "216 × 279", sizeOf(v.letter))
		})
	}
	t.Run("few pages", func(t *testing.T) {
		long := pageOf(t, longReport(t))
		v, _ := open(ctx, t, long, 665, "print")
		plain, _ := open(ctx, t, strings.Replace(long, "@media print", "@media none", 1), 665, "print")
		assert.Less(t, pagesOf(v.a4), pagesOf(plain.a4)*3/4+1, "the rules for print spare a quarter of the pages")
		assert.Greater(t, pagesOf(v.a4), 2, "the pages are counted")
	})
	t.Run("faults are seen", func(t *testing.T) {
		const planted = `<img src="missing.png" alt=""><p style="width:2000px">wide</p><p style="display:none">gone</p>`
		bad := strings.Replace(html, "</main>", planted+"</main>", 1)
		v, _ := open(ctx, t, bad, 800, "screen")
		assert.Contains(t, strings.Join(v.complaints, "\n"), "Content Security Policy")
		assert.Equal(t, []string{"gone"}, v.seen.Hidden)
		assert.Greater(t, v.seen.Wider, 1000.0)

		v, _ = open(ctx, t, strings.Replace(bad, policy, "", 1), 800, "screen")
		assert.Contains(t, strings.Join(v.requests, "\n"), "missing.png")
	})
}
