package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/browser"
	"netrate/scenarios"
)

// Every task by keyboard: nothing but keys is sent to the page, and wherever one gets by them it is seen
// where one is. What the system shows, the dialog in which a file is chosen, is answered for it.
func TestWorkbenchByKeyboard(t *testing.T) {
	dir := t.TempDir()
	x, err := scenarios.ExampleNamed("seventh-feeder")
	require.NoError(t, err)
	plain, err := scenarios.EditedWithout("x.yaml", x.Data, "variants")
	require.NoError(t, err)
	file := filepath.Join(dir, "line.yaml")
	require.NoError(t, os.WriteFile(file, bytes.Replace(plain, []byte("work: {shift: 8 h}"), []byte("work: {shift: 8 h}\nrun: {min: 40, max: 40}"), 1), 0o600))
	for _, part := range []struct {
		name string
		do   func(k keyboard)
	}{
		{"the line", keyboard.line},
		{"numbers, the text, and undo across both", keyboard.numbers},
		{"alternatives and their film", keyboard.alternatives},
		{"questions, and a stop log", keyboard.questions},
		{"money", keyboard.money},
		{"what is taken away, and files", keyboard.files},
	} {
		t.Run(part.name, func(t *testing.T) {
			k := keyboard{openPage(browser.Start(t), t, openBench(t, "", file)), dir}
			part.do(k)
			_, complaints := k.Heard()
			assert.Empty(t, complaints)
		})
	}
}

// keyboard is a page to which keys are sent, and nothing else.
type keyboard struct {
	*benchPage
	dir string // of its file
}

const (
	shift = chromedp.ModifierShift
	ctrl  = chromedp.ModifierCtrl
)

// key presses keys.
func (k keyboard) key(keys string, with ...chromedp.Modifier) {
	k.t.Helper()
	k.at(chromedp.KeyEvent(keys, chromedp.KeyModifiers(with...)))
}

// to goes to an element by Tab, or backwards, and sees there where it is.
func (k keyboard) to(of string) {
	k.t.Helper()
	k.tabbed(of, kb.Tab)
}

func (k keyboard) backTo(of string) {
	k.t.Helper()
	k.tabbed(of, kb.Tab, shift)
}

func (k keyboard) tabbed(of, tab string, with ...chromedp.Modifier) {
	k.t.Helper()
	const most = 150
	for range most {
		if evaluated[bool](k.benchPage, fmt.Sprintf(`document.activeElement.matches(%q)`, of)) {
			assert.True(k.t, evaluated[bool](k.benchPage, focusSeen), "%s: it is not seen where one is", of)
			return
		}
		k.key(tab, with...)
	}
	require.Fail(k.t, "out of reach", "%s; at %s", of, evaluated[string](k.benchPage, `document.activeElement.outerHTML.slice(0, 200)`))
}

// focusSeen is whether it is seen where one is: by an outline, also around a frame and in the shadow in which the
// editor is.
const focusSeen = `(x => x.matches(":focus-visible") || parseFloat(getComputedStyle(x.shadowRoot?.querySelector(".cm-focused") ?? x).outlineWidth) >= 2)(document.activeElement)`

// skipTo goes to the beginning of the page, as in a page that was just opened, and from there to a part of it.
func (k keyboard) skipTo(words string) {
	k.t.Helper()
	evaluated[bool](k.benchPage, `(() => { document.activeElement.blur(); getSelection().removeAllRanges(); return true })()`)
	k.to(fmt.Sprintf(`#skips a[href=%q]`, words))
	k.key(kb.Enter)
}

// reads waits for the text to have words, or, with "!" before them, not to have them.
func (k keyboard) reads(words string) {
	k.t.Helper()
	words, not := strings.CutPrefix(words, "!")
	require.Eventually(k.t, func() bool { _, text := k.get("scenario.yaml"); return strings.Contains(text, words) != not }, 20*time.Second, 20*time.Millisecond, words)
}

// does presses Enter at an element.
func (k keyboard) does(at string) {
	k.t.Helper()
	k.to(at)
	k.key(kb.Enter)
}

// tab goes from the tab that is chosen in a list to another one of it.
func (k keyboard) tab(list, is string) {
	k.t.Helper()
	k.skipTo(map[string]string{"#parts": "#track", "#views": "#right"}[list])
	k.to(list + ` [aria-selected=true]`)
	for !evaluated[bool](k.benchPage, fmt.Sprintf(`document.activeElement.matches(%q)`, is)) {
		k.key(kb.ArrowRight)
	}
}

// chooses answers the system's dialog in which files are chosen.
func (k keyboard) chooses(files ...string) {
	k.t.Helper()
	_, err := chromedp.Call(k.Tab, page.SetInterceptFileChooserDialog, page.SetInterceptFileChooserDialogParams{Enabled: true})
	require.NoError(k.t, err)
	ctx, end := context.WithCancel(k.Tab)
	require.NoError(k.t, chromedp.Listen(ctx, func(event any) {
		if e, is := event.(*page.EventFileChooserOpened); is {
			end()
			go func() {
				_, err := chromedp.Call(k.Tab, dom.SetFileInputFiles, dom.SetFileInputFilesParams{Files: files, BackendNodeID: e.BackendNodeID})
				assert.NoError(k.t, err)
			}()
		}
	}))
}

func (k keyboard) line() {
	k.skipTo("#track")
	k.to(station("letter"))
	k.key(kb.ArrowRight)
	k.until(`document.activeElement.dataset.name === "reply envelope"`)
	k.key(kb.Insert)
	k.until(`document.activeElement.dataset.name === "new feeder"`)
	k.reads("name: new feeder, at: 4")
	k.key(kb.ArrowRight, shift)
	k.reads("name: new feeder, at: 5")
	k.until(`document.activeElement.dataset.name === "new feeder" && document.activeElement.dataset.at === "5"`)
	k.key(kb.Delete)
	k.reads("!new feeder")
	k.until(`document.activeElement.matches(".station")`)
	k.backTo(`.part[data-part="feeder friction"]`)
	k.key(kb.Enter)
	k.reads("preset: friction")
	k.to(station("new feeder"))
	k.key(kb.Enter)
	k.until(`document.activeElement.closest("#form[data-path='stations.new feeder']")`)
	k.does(`[data-act=remove]`)
	k.reads("!new feeder")
	k.until(`document.activeElement.matches(".station")`)

	k.key(kb.Insert) // and what does it cost?
	k.reads("new feeder")
	k.until(`document.querySelector("#gain [data-act=before]")`)
	k.skipTo("#right")
	k.does(`#gain [data-act=before]`)
	k.until(`document.querySelector("#pins tbody th")?.textContent === "as it was" && document.querySelector("#gain strong")`)
	k.until(`document.activeElement.id === "view-alternatives"`)
}

func (k keyboard) numbers() {
	k.skipTo("#panel")
	k.to(`#form [name="stations.letter.misfeed"]`)
	k.key("7")
	k.until(`document.activeElement.matches(".refused") && document.querySelector("#form .refused ~ .wrong").textContent.includes("misfeed is 7, want a probability")`)
	k.key(kb.Backspace + "1/2500")
	k.reads("misfeed: 1/2500")
	k.to(`#form [name="stations.letter.jam"]`)
	k.key("1/9000")
	k.reads("jam: 1/9000")
	k.backTo(`#form select[name="stations.letter.preset"]`)
	k.key("f")
	k.reads("preset: friction")

	k.tab("#parts", "#tab-file")
	k.to("#editor")
	k.key(kb.End, ctrl)
	k.key("  # seen")
	k.reads("# seen")
	for _, gone := range []string{"!# seen", "!preset: friction", "!jam: 1/9000", "!misfeed: 1/2500"} {
		k.key("z", ctrl)
		k.reads(gone)
	}
	k.key(kb.Tab)
	assert.False(k.t, evaluated[bool](k.benchPage, `document.activeElement.matches("#editor")`), "Tab leads on")
	for _, back := range []string{"misfeed: 1/2500", "jam: 1/9000", "preset: friction", "# seen"} {
		k.key("y", ctrl)
		k.reads(back)
	}
	k.backTo("#undo")
	k.key(kb.Enter)
	k.reads("!# seen")
}

func (k keyboard) alternatives() {
	k.to("#pin")
	k.key(kb.Enter)
	k.key("mine" + kb.Enter)
	k.until(`document.querySelector("#pins").textContent.includes("mine") && !document.querySelector("#alternatives").hidden`)
	k.to("#pin")
	k.key(kb.Enter)
	k.key(kb.Escape)
	k.skipTo("#track")
	k.to(station("letter"))
	k.key(kb.Insert)
	k.reads("new feeder")
	k.backTo("#pin")
	k.key(kb.Enter)
	k.key("two" + kb.Enter)
	k.until(`document.querySelectorAll("#pins [data-act=drop]").length === 2`)
	k.skipTo("#right")
	k.does(`[data-act=rename][data-pin="1"]`)
	k.key("three" + kb.Enter)
	k.until(`document.querySelector("#pins").textContent.includes("three")`)
	k.does(`[data-act=base][data-pin="1"]`)
	k.until(`document.querySelector("#pins tbody th").textContent === "three"`)
	k.skipTo("#right")
	k.does(`[data-act=take][data-pin="1"]`)
	k.reads("!new feeder")
	k.until(`document.activeElement.matches('[data-act=take][data-pin="1"]')`)

	evaluated[bool](k.benchPage, `(() => { window.loads = 0; filmframe.onload = () => loads++; return true })()`)
	assert.Empty(k.t, k.Violations(k.t))
	k.to(`[data-act=take][data-pin="1"]`)
	k.does(`[data-film="1"]`)
	k.until(`filmframe.src.includes("pin=1") && loads && document.activeElement.id === "view-film"`)
	k.to("#filmset")
	k.key("120")
	evaluated[bool](k.benchPage, `(() => { loads = 0; return true })()`)
	k.does("#filmed button")
	k.until(`filmframe.src.includes("set=120") && loads`)
	k.to("#filmframe")
	for range 40 { // and through it
		k.key(kb.Tab)
	}
	k.until(`!document.activeElement.matches("#filmframe")`)

	k.tab("#views", "#view-alternatives")
	k.does(`[data-act=drop][data-pin="0"]`)
	k.until(`document.querySelectorAll("#pins [data-act=drop]").length === 1`)
	k.until(`document.activeElement.closest("#pins")`)
}

func (k keyboard) questions() {
	k.tab("#views", "#view-questions")
	k.does(`[data-ask=speed]`)
	k.until(`document.querySelector("#asked iframe")`)
	for _, long := range []string{"sensitivity", "strategy"} {
		k.skipTo("#right")
		k.does(fmt.Sprintf(`[data-ask=%s]`, long))
		k.until(`document.querySelector("#stop")`)
		k.does("#stop")
		k.until(`!document.querySelector("#stop")`)
		assert.Contains(k.t, k.text("#asked .wrong"), "interrupted")
	}
	log, counts := filepath.Join(k.dir, "stops.csv"), filepath.Join(k.dir, "counts.csv")
	require.NoError(k.t, os.WriteFile(log, []byte("start,station,cause,seconds\n2026-03-02 06:10:00,letter,misfeed,40\n2026-03-02 07:40:00,letter,misfeed,35\n2026-03-02 08:10:00,letter,jam,90\n"), 0o600))
	require.NoError(k.t, os.WriteFile(counts, []byte("station,feeds\nletter,20000\n"), 0o600))
	k.chooses(log, counts)
	k.skipTo("#right")
	k.does("#log")
	k.until(`document.querySelector("#fitted")`)
	k.does("#fitted")
	k.reads("seen: 2, of: 20000")
	k.key("z", ctrl)
	k.reads("!seen: 2")

	k.skipTo("#right") // that of a season, which this line has not
	k.backTo("#examples summary")
	k.key(kb.Enter)
	k.does(`[data-example=flats-season]`)
	k.until(`document.querySelector("[data-ask=season]")`)
	k.skipTo("#right")
	k.does(`[data-ask=season]`)
	k.until(`document.querySelector("#stop, #asked iframe")`)
}

func (k keyboard) money() {
	k.tab("#parts", `#parts [data-path=costs]`)
	for _, x := range [][2]string{{"currency", "EUR"}, {"life", "7"}, {"rate", "5 %"}, {"volume", "20000000"}} {
		k.to("#begin-" + x[0])
		k.key(x[1])
	}
	k.does("[data-act=begin]")
	k.reads("volume: 20000000")
	k.until(`document.querySelector("#form [name='costs.operator_hour']")`)
}

func (k keyboard) files() {
	taken := filepath.Join(k.dir, "taken")
	_, err := chromedp.Call(k.Tab, cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: taken})
	require.NoError(k.t, err)
	k.to("#takeaway summary")
	k.key(kb.Enter)
	for _, name := range []string{"scenario.yaml", "report.html", "workbook.xlsx", "figures.zip"} {
		k.does(fmt.Sprintf(`a[href=%q]`, name))
		require.Eventually(k.t, func() bool { x, err := os.Stat(filepath.Join(taken, name)); return err == nil && x.Size() > 0 }, 20*time.Second, 50*time.Millisecond, name)
	}
	k.does("#command")
	k.until(`document.querySelector("#live").textContent.includes("netrate run ")`)
	k.key(kb.Escape)
	k.until(`!document.querySelector("#takeaway").open && document.activeElement.matches("#takeaway summary")`)

	k.skipTo("#track")
	k.to(station("letter"))
	k.key(kb.Insert)
	k.reads("new feeder")
	k.key("s", ctrl)
	require.Eventually(k.t, func() bool {
		data, err := os.ReadFile(filepath.Join(k.dir, "line.yaml"))
		return err == nil && bytes.Contains(data, []byte("new feeder"))
	}, 10*time.Second, 20*time.Millisecond)
	k.backTo("#saveas")
	k.key(kb.Enter)
	k.key("other.yaml" + kb.Enter)
	k.until(`document.querySelector("#bar h1").textContent.includes("other.yaml")`)

	x, err := scenarios.ExampleNamed("small-shop")
	require.NoError(k.t, err)
	theirs := filepath.Join(k.dir, "theirs.yaml")
	require.NoError(k.t, os.WriteFile(theirs, x.Data, 0o600))
	k.chooses(theirs)
	k.does("#open")
	k.until(`document.querySelector("#bar h1").textContent.includes("theirs.yaml")`)
	k.does("#examples summary")
	k.does(`[data-example=three-offers]`)
	k.until(`document.querySelector("#bar h1").textContent.includes("three-offers") && document.activeElement.matches("#examples summary")`)
	k.until(`document.querySelector("#gain [data-act=alternatives]")`) // which of them is best, is said
	k.skipTo("#right")
	k.does(`#gain [data-act=alternatives]`)
	k.until(`document.activeElement.id === "view-alternatives" && document.querySelectorAll("#pins tbody tr").length === 4`)
}
