package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/browser"
	"netrate/scenarios"
)

// planFile writes the nine jobs, each a fifth as large, so that they are simulated soon.
func planFile(t *testing.T) (name, text string) {
	t.Helper()
	x, err := scenarios.ExampleNamed("nine-jobs")
	require.NoError(t, err)
	text = regexp.MustCompile(`sets: \d{5,}`).ReplaceAllStringFunc(string(x.Data), func(sets string) string {
		n, err := strconv.Atoi(sets[len("sets: "):])
		require.NoError(t, err)
		return fmt.Sprint("sets: ", n/5)
	})
	name = filepath.Join(t.TempDir(), "plan.yaml")
	require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
	return name, text
}

// openPlan opens the page of a plan, and waits for its last answer.
func openPlan(t *testing.T, file string) *benchPage {
	t.Helper()
	p := visitPage(browser.Start(t), t, openBench(t, "", file))
	p.planned(-1)
	return p
}

// planned waits for the whole answer to a plan that was begun anew since a revision.
func (p *benchPage) planned(after int) {
	p.t.Helper()
	p.until(fmt.Sprintf(`document.querySelector("#planstate .settled") && +document.querySelector("#planstate p").dataset.rev > %d`, after))
}

func (p *benchPage) planRev() int {
	return evaluated[int](p, `+document.querySelector("#planstate p").dataset.rev`)
}

func jobBar(name string) string { return fmt.Sprintf(`#plan .job[data-name=%q]`, name) }

// jobsOf returns the jobs of a line in the order in which they are drawn.
func (p *benchPage) jobsOf(line string) []string {
	return evaluated[[]string](p, fmt.Sprintf(`[...document.querySelectorAll("#plan .job")].filter(g => g.dataset.line === %q).map(g => g.dataset.name)`, line))
}

// barAt returns the middle of a job's bar, once it is in the window.
func (p *benchPage) barAt(job string) (x, y float64) {
	p.t.Helper()
	evaluated[bool](p, `(() => { document.querySelector("#plansection").scrollIntoView(); return true })()`)
	return p.spot(jobBar(job) + " .box")
}

// drag takes hold of a job, and lets it go at a place of the window.
func (p *benchPage) drag(job string, toX, toY float64) {
	p.t.Helper()
	x, y := p.barAt(job)
	p.at(chromedp.DragAndDropXY(x, y, toX, toY, 8))
}

// Jobs are moved by hand, with the pointer and by keyboard, and the dates move; what comes of it is what
// netrate plan says of the file that is saved; all is undone to the same bytes.
func TestWorkbenchPlan(t *testing.T) {
	file, text := planFile(t)
	p := openPlan(t, file)
	letters, flats, table := p.jobsOf("letters"), p.jobsOf("flats"), p.text("#planned table")
	require.Len(t, append(letters, flats...), 9)
	require.Contains(t, flats, "catalogue A")

	t.Run("what is optional is switched", func(t *testing.T) {
		rev := p.planRev()
		p.at(click(`[data-optional="Saturday morning"]`))
		p.planned(rev - 1) // of the same text
		p.until(`document.querySelector("#planned .against")?.textContent.startsWith("With Saturday morning all dates")`)
		assert.Contains(t, p.text("#optional output"), "Together 620")
		p.at(click("#undo"))
		p.until(`!document.querySelector("#planned .against") && !document.querySelector("#optional input:checked")`)
		p.until(`document.querySelector("#planstate .settled")`)
	})
	t.Run("a job is dragged, and dates move", func(t *testing.T) {
		rev := p.planRev()
		_, y := p.barAt(letters[2])
		past := evaluated[float64](p, fmt.Sprintf(`document.querySelector(%q).getBoundingClientRect().right`, jobBar(letters[2])+" .box"))
		p.drag(letters[0], past, y) // by its middle, wherever that is when the job before it has gone
		p.until(fmt.Sprintf(`document.querySelector(%q).dataset.place === "2"`, jobBar(letters[0])))
		p.planned(rev)
		assert.Equal(t, letters[1], p.jobsOf("letters")[0])
		assert.NotEqual(t, table, p.text("#planned table"))
		assert.Contains(t, p.text("#planned .answer"), "Planned anew, without the order that is given")
		_, now := p.get("scenario.yaml")
		assert.Contains(t, now, "\n  order:\n    - {line: letters, jobs: ["+letters[1])
	})
	t.Run("it is dragged to another line", func(t *testing.T) {
		rev := p.planRev()
		_, y := p.barAt(flats[0])
		past := evaluated[float64](p, fmt.Sprintf(`document.querySelector(%q).getBoundingClientRect().right`, jobBar(flats[0])+" .box"))
		p.drag("offer club", past, y) // from the letters, which can do it too
		p.until(fmt.Sprintf(`document.querySelector(%q).dataset.line === "flats"`, jobBar("offer club")))
		p.planned(rev)
		assert.Equal(t, []string{flats[0], "offer club"}, p.jobsOf("flats")[:2])
		assert.NotContains(t, p.jobsOf("letters"), "offer club")
		p.at(click("#undo"))
		p.until(fmt.Sprintf(`document.querySelector(%q).dataset.line === "letters"`, jobBar("offer club")))
	})
	t.Run("what a line cannot do is refused beside the job", func(t *testing.T) {
		_, before := p.get("scenario.yaml")
		x, y := p.barAt(letters[1])
		p.drag("catalogue A", x, y)
		p.until(`document.querySelector("#planwrong").textContent.includes("letters cannot do catalogue A: ")`)
		require.Eventually(t, func() bool { _, now := p.get("scenario.yaml"); return now == before }, 10*time.Second, 20*time.Millisecond, "it goes back to where it was")
		assert.Contains(t, p.jobsOf("flats"), "catalogue A")
	})
	t.Run("it is moved by keyboard", func(t *testing.T) {
		rev := p.planRev()
		p.at(focus(jobBar("offer club")), chromedp.KeyEvent(kb.ArrowDown, chromedp.KeyModifiers(chromedp.ModifierShift)))
		p.until(fmt.Sprintf(`document.querySelector(%q).dataset.line === "flats"`, jobBar("offer club")))
		p.until(`document.activeElement.dataset.name === "offer club"`)
		place := evaluated[int](p, fmt.Sprintf(`+document.querySelector(%q).dataset.place`, jobBar("offer club")))
		p.at(chromedp.KeyEvent(kb.ArrowRight, chromedp.KeyModifiers(chromedp.ModifierShift)))
		p.until(fmt.Sprintf(`+document.querySelector(%q).dataset.place === %d`, jobBar("offer club"), place+1))
		p.planned(rev)
		p.at(chromedp.KeyEvent(kb.Home))
		p.until(fmt.Sprintf(`document.activeElement.dataset.name === %q`, p.jobsOf("flats")[0]))
	})
	t.Run("it is what netrate plan says of the file that is saved", func(t *testing.T) {
		p.at(click("#save"))
		p.until(`!document.querySelector("#bar .dirty")`)
		said, err := exec.Command("netrate", "plan", file, "--json").Output()
		require.NoError(t, err)
		var told, here struct {
			Plans  []json.RawMessage
			Change json.RawMessage
		}
		require.NoError(t, json.Unmarshal(said, &told))
		require.NoError(t, json.Unmarshal([]byte(p.whole("plan.json")), &here))
		assert.JSONEq(t, string(told.Plans[0]), string(here.Plans[0]))
		assert.JSONEq(t, string(told.Plans[1]), string(here.Plans[1]))
		assert.JSONEq(t, string(told.Change), string(here.Change))
	})
	t.Run("it is planned again", func(t *testing.T) {
		rev := p.planRev()
		p.at(click(`#planstate [data-act=anew]`))
		p.planned(rev)
		assert.Equal(t, letters, p.jobsOf("letters"))
		assert.Equal(t, table, p.text("#planned table"))
		_, now := p.get("scenario.yaml")
		assert.Equal(t, text, now)
	})
	t.Run("a drag that is broken off leaves nothing", func(t *testing.T) {
		x, y := p.barAt(letters[0])
		to, _ := p.barAt(letters[2])
		p.at(chromedp.MouseEvent("mousePressed", x, y, chromedp.ButtonLeft), chromedp.MouseEvent("mouseMoved", to+5, y, chromedp.ButtonLeft))
		p.until(fmt.Sprintf(`document.querySelector(%q).dataset.place === "2"`, jobBar(letters[0])))
		p.at(chromedp.KeyEvent(kb.Escape), chromedp.MouseEvent("mouseReleased", to+5, y, chromedp.ButtonLeft))
		p.until(fmt.Sprintf(`document.querySelector(%q).dataset.place === "0" && !document.querySelector("#planstate [data-act=anew]")`, jobBar(letters[0])))
	})
	t.Run("all is undone to the same bytes", func(t *testing.T) {
		n := 0
		for now := text; !evaluated[bool](p, `document.querySelector("#undo").disabled`); n++ {
			require.Less(t, n, 10)
			p.at(click("#undo"))
			before := now
			require.Eventually(t, func() bool { _, now = p.get("scenario.yaml"); return now != before }, 10*time.Second, 10*time.Millisecond)
			time.Sleep(100 * time.Millisecond) // the page hears of it
		}
		_, now := p.get("scenario.yaml")
		assert.Equal(t, text, now)
		assert.GreaterOrEqual(t, n, 3)
	})
	t.Run("it can be used by everybody", func(t *testing.T) {
		for _, scheme := range []string{"light", "dark"} {
			p.scheme(scheme)
			assert.Empty(t, p.Violations(t), scheme)
		}
		_, complaints := p.Heard()
		assert.Empty(t, complaints)
		p.at(chromedp.EmulateViewport(390, 844), chromedp.Sleep(100*time.Millisecond))
		assert.LessOrEqual(t, evaluated[int](p, `document.documentElement.scrollWidth`), 390)
	})
}

// TestWorkbenchPlanShots writes pictures of the plan of the example, with a job moved and another refused.
func TestWorkbenchPlanShots(t *testing.T) {
	if *benchShots == "" {
		t.Skip("pictures are asked for with -bench-shots")
	}
	p := visitPage(browser.Start(t), t, openBench(t, "", "--example", "nine-jobs"))
	p.planned(-1)
	rev := p.planRev()
	p.at(focus(jobBar("reminders A")), chromedp.KeyEvent(kb.ArrowRight, chromedp.KeyModifiers(chromedp.ModifierShift)))
	p.planned(rev)
	p.at(focus(jobBar("catalogue B")), chromedp.KeyEvent(kb.ArrowUp, chromedp.KeyModifiers(chromedp.ModifierShift)))
	p.until(`document.querySelector("#planwrong").textContent`)
	p.shootPlan(*benchShots)
}

// shootPlan writes pictures of the plan at three widths, light and dark.
func (p *benchPage) shootPlan(dir string) {
	for _, width := range []int64{390, 1024, 1440} {
		for _, scheme := range []string{"light", "dark"} {
			p.at(chromedp.EmulateViewport(width, 1100))
			p.scheme(scheme)
			p.at(chromedp.Sleep(200 * time.Millisecond))
			picture, err := chromedp.Run(p.Tab, chromedp.CaptureScreenshot())
			require.NoError(p.t, err)
			require.NoError(p.t, os.WriteFile(filepath.Join(dir, fmt.Sprintf("plan-%d-%s.png", width, scheme)), picture, 0o600))
		}
	}
}
