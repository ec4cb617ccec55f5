package browser

import (
	"context"
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// leastText is the size of the smallest text that people are to read, pixels.
const leastText = 11

// Unusable returns what keeps people from using a page in windows that are so many pixels wide: what
// axe-core finds in the first and the last of them, text that is too small, and what lies beyond the
// right edge; none where nothing does.
func Unusable(ctx context.Context, t *testing.T, html string, widths ...int64) (all []string) {
	t.Helper()
	tab := NewTab(ctx, t)
	defer tab.Close()
	tab.Show(t, html)
	for i, width := range widths {
		require.NoError(t, chromedp.Do(tab.Context, chromedp.EmulateViewport(width, 900)))
		var found []string
		if i == 0 || i == len(widths)-1 { // between them it is laid out as in one or the other
			found = tab.Violations(t)
		}
		s, err := chromedp.Run(tab.Context, chromedp.Evaluate[sizes](measure))
		require.NoError(t, err)
		if s.Least < leastText {
			found = append(found, fmt.Sprintf("%.1f pixels: %s", s.Least, s.Smallest))
		}
		if s.Beyond > 0 {
			found = append(found, fmt.Sprintf("%.0f pixels wider than the window", s.Beyond))
		}
		for _, x := range found {
			all = append(all, fmt.Sprintf("%d: %s", width, x))
		}
	}
	return all
}

// sizes are those of what stands on a page, pixels.
type sizes struct {
	Least    float64 // of the smallest text
	Smallest string  // that text
	Beyond   float64 // by how much the page is wider than the window
}

const measure = `(() => {
	let least = 1e9, smallest = ""
	for (const e of document.querySelectorAll("body *")) {
		const said = [...e.childNodes].some(n => n.nodeType == 3 && n.data.trim())
		if (!said || !e.checkVisibility() || e.getBoundingClientRect().width == 0) continue
		const scale = e instanceof SVGElement && e.getScreenCTM ? e.getScreenCTM().a : 1
		const size = parseFloat(getComputedStyle(e).fontSize) * scale
		if (size < least) [least, smallest] = [size, e.textContent]
	}
	return {least, smallest, beyond: document.documentElement.scrollWidth - innerWidth}
})()`
