package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/browser"
)

// The week of the example is on one sheet, and the appendix follows: on A4 and Letter, whose sizes are those of
// ISO 216 and ANSI/ASME Y14.1. So it is with eight people, each in a lane, and with 18 jobs of long names. The lanes
// of nine people, or of eight beside so many jobs, are in the appendix, and so are more jobs.
func TestPlanIsOnOneSheet(t *testing.T) {
	tab := browser.NewTab(browser.Start(t), t)
	_, err := chromedp.Call(tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	require.NoError(t, err)
	calm := []string{"--set", "plan.staff.Saturday morning.optional=false"} // all dates are kept, and no order is searched for
	for _, c := range []struct {
		people string
		lanes  bool // of people
		more   int  // jobs
		flags  []string
	}{
		{"9", false, 0, []string{"--service", "99.5%"}}, // which has more to say
		{"8", true, 2, calm},
		{"8", false, 10, calm},
	} {
		file := filepath.Join(t.TempDir(), "plan.html")
		out, err := exec.Command("netrate", append([]string{"plan", longWeek(t, c.more), "--reps", "4", "--report", file, "--set", "crew.operators=" + c.people}, c.flags...)...).CombinedOutput()
		require.NoError(t, err, string(out))
		require.NoError(t, chromedp.Do(tab, chromedp.Navigate("file://"+file)))
		on := func(where string) string {
			text, err := chromedp.Run(tab, chromedp.Evaluate[string](`document.querySelector("`+where+`").textContent`))
			require.NoError(t, err)
			return text
		}
		assert.Equal(t, c.lanes, strings.Contains(on(".board"), "operator 3"), c)
		assert.Equal(t, !c.lanes, strings.Contains(on("#section-1"), "operator 3"), c)
		assert.Equal(t, c.more > 9, strings.Contains(on(".board"), "1 job more in the appendix"), c)
		planIsOnOneSheet(t, tab, file, c.more)
	}
}

// longWeek returns the file of the example with some jobs more, of the longest names that are taken.
func longWeek(t *testing.T, jobs int) string {
	t.Helper()
	text, err := exec.Command("netrate", "example", "nine-jobs").Output()
	require.NoError(t, err)
	const last = "    - {name: accounts late,"
	require.Contains(t, string(text), last)
	var more strings.Builder
	for i := range jobs {
		name := fmt.Sprintf("Jahresabrechnung %d der Stadtwerke, Gänsemarkt und Übersee", i)
		fmt.Fprintf(&more, "    - {name: %q, job: Account letter, sets: 5000, due: {week: 2, day: 5, time: \"14:00\"}}\n", name)
	}
	file := filepath.Join(t.TempDir(), "week.yaml")
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(string(text), last, more.String()+last, 1)), 0o600))
	return file
}

// planIsOnOneSheet prints the first part of a report alone, counts its sheets, and looks at what is on them: all is
// there, and the chart not so small that nobody can read it.
func planIsOnOneSheet(t *testing.T, tab context.Context, file string, more int) {
	t.Helper()
	const pixel = 25.4 / 96 // mm
	for paper, size := range map[chromedp.PaperSize][2]float64{chromedp.PaperA4: {210, 297}, chromedp.PaperLetter: {215.9, 279.4}} {
		require.NoError(t, chromedp.Do(tab, chromedp.EmulateViewport(int64((size[0]-34)/pixel), int64((size[1]-32)/pixel)), chromedp.Navigate("file://"+file)))
		text, err := chromedp.Run(tab, chromedp.Evaluate[string](`document.querySelector(".board").innerText`))
		require.NoError(t, err)
		for _, has := range []string{"catalogue B", "Due", "9 in 10 by", "Who is there", "06:00 to 14:00", "guard"} {
			assert.Contains(t, text, has)
		}
		share, err := chromedp.Run(tab, chromedp.Evaluate[float64](`{ const svg = document.querySelector(".board svg"), view = svg.viewBox.baseVal, box = svg.getBoundingClientRect();
			Math.min(box.width / view.width, box.height / view.height) * 72 / 96 }`))
		require.NoError(t, err)
		assert.Greater(t, share, 0.6, "of the size for which it is made: %v, %d jobs more", paper, more)
		_, err = chromedp.Run(tab, chromedp.Evaluate[bool](`document.querySelectorAll("main > :not(.board)").forEach(x => x.remove()), true`))
		require.NoError(t, err)
		pdf, err := chromedp.Run(tab, chromedp.PrintToPDF(chromedp.PDFPaper(paper)))
		require.NoError(t, err)
		assert.Equal(t, 1, bytes.Count(pdf, []byte("/Type /Page\n")), "sheets of %v, %d jobs more", paper, more)
	}
}
