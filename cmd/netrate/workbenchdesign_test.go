package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/browser"
)

// What may be bought is there as switches; a design is pinned from them, and from the picture of what money
// buys, whose designs are those of netrate design. What a rule forbids is said.
func TestWorkbenchDesigns(t *testing.T) {
	p := openPage(browser.Start(t), t, openBench(t, "", "--example", "design-budget"))
	p.at(click(`#views [data-view=questions]`), click(`[data-choice="exit gate"]`))
	p.until(`document.querySelector("#designsum").textContent === "Together 16,000 of 90,000"`)
	p.at(click(`#designed button`))
	p.until(`document.querySelector("#live").textContent.includes("exit gate needs track gate")`)
	p.at(click(`[data-choice="track gate"]`), click(`#designed button`))
	p.until(`document.querySelector("#pins").textContent.includes("track gate, exit gate")`)

	p.at(click(`#views [data-view=questions]`))
	assert.True(t, evaluated[bool](p, `document.querySelector('[data-choice="exit gate"]').checked`), "the switches are as they were set")
	p.at(click(`[data-ask=design]`))
	p.until(`document.querySelector("#asked .frontier .best")`)
	assert.Contains(t, p.text("#asked .answer"), "Buy track gate, exit gate, rotary for the brochure")
	p.until(`document.querySelector("#asked iframe")`)
	if *benchShots != "" {
		evaluated[bool](p, `(() => { document.querySelector("#designed").scrollIntoView(); return true })()`)
		picture, err := chromedp.Run(p.Tab, chromedp.CaptureScreenshot())
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(*benchShots, "design.png"), picture, 0o600))
	}
	p.at(focus(`#asked .frontier [data-choices="[]"]`), chromedp.KeyEvent(kb.Enter)) // another one is in front of its middle
	p.until(`document.querySelector("#live").textContent.includes("that is the line as it is")`)
	assert.False(t, evaluated[bool](p, `document.querySelector('[data-choice="exit gate"]').checked`), "the switches are those of the design that was pressed")
	p.at(click(`[data-choice="exit gate"]`), chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	p.until(`!document.querySelector("#pins").textContent.includes("exit gate")`) // undo is not held back by a switch that was pressed
	p.at(click(`#asked .frontier .best`))
	p.until(`document.querySelector("#pins").textContent.includes("track gate and 3 more")`)
	assert.Equal(t, "Together 65,000 of 90,000", p.text("#designsum"))
	p.at(click(`#views [data-view=questions]`))
	assert.True(t, evaluated[bool](p, `document.querySelector('[data-choice="second operator"]').checked`))
	_, complaints := p.Heard()
	assert.Empty(t, complaints)
}
