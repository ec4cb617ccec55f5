package main

import (
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
// ISO 216 and ANSI/ASME Y14.1, less the margins of the report. So it is with eight people, each in a lane; the
// lanes of nine are in the appendix.
func TestPlanIsOnOneSheet(t *testing.T) {
	tab := browser.NewTab(browser.Start(t), t)
	for _, people := range []string{"3", "8", "9", "8, and thirteen jobs"} {
		people, long, _ := strings.Cut(people, ", ")
		dir := t.TempDir()
		file, week := filepath.Join(dir, "plan.html"), filepath.Join(dir, "week.yaml")
		text, err := exec.Command("netrate", "example", "nine-jobs").Output()
		require.NoError(t, err)
		last := "    - {name: accounts late,"
		more := ""
		for i := range 4 {
			more += fmt.Sprintf("    - {name: more %d, job: Account letter, sets: 20000, due: {day: 6, time: \"14:00\"}}\n", i)
		}
		if long == "" {
			more = ""
		}
		require.Contains(t, string(text), last)
		require.NoError(t, os.WriteFile(week, []byte(strings.Replace(string(text), last, more+last, 1)), 0o600))
		out, err := exec.Command("netrate", "plan", week, "--reps", "4", "--report", file, "--set", "crew.operators="+people,
			"--service", "99.5%").CombinedOutput() // which has more to say
		require.NoError(t, err, string(out))
		_, err = os.Stat(file)
		require.NoError(t, err)
		planIsOnOneSheet(t, tab, file)
		on := func(where string) string {
			text, err := chromedp.Run(tab, chromedp.Evaluate[string](`document.querySelector("`+where+`").textContent`))
			require.NoError(t, err)
			return text
		}
		assert.Equal(t, people != "9", strings.Contains(on(".board"), "operator 3"), people)
		assert.Contains(t, on("body"), "operator "+people)
	}
}

func planIsOnOneSheet(t *testing.T, tab context.Context, file string) {
	t.Helper()
	_, err := chromedp.Call(tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	require.NoError(t, err)
	const pixel = 25.4 / 96 // mm
	for paper, size := range map[string][2]float64{"A4": {210, 297}, "Letter": {215.9, 279.4}} {
		require.NoError(t, chromedp.Do(tab, chromedp.EmulateViewport(int64((size[0]-34)/pixel), 1000), chromedp.Navigate("file://"+file)))
		text, err := chromedp.Run(tab, chromedp.Evaluate[string](`document.querySelector(".board").innerText`))
		require.NoError(t, err)
		for _, has := range []string{"catalogue B", "Due", "9 in 10 by", "as usual: ", "guard"} {
			assert.Contains(t, text, has)
		}
		end, err := chromedp.Run(tab, chromedp.Evaluate[float64](`document.querySelector(".board").getBoundingClientRect().bottom + scrollY`))
		require.NoError(t, err)
		assert.Greater(t, end*pixel, 150.0)
		assert.Less(t, end*pixel, size[1]-32, paper)
	}
}
