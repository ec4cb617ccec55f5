package plots

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Stations stand to scale: equal pitches are equal on the page, in all lines of the figure, and
// each station of the line has its letter.
func TestLayoutIsToScale(t *testing.T) {
	d := LayoutData{Stations: []Placed{
		{Name: "a", Kind: "feeder", At: 0}, {Name: "b", Kind: "feeder", At: 2}, {Name: "c", Kind: "feeder", At: 7},
	}}
	d.Others = []OtherLayout{{Name: "other", Stations: slices.Clone(d.Stations)}}
	d.Others[0].Stations[1].Change, d.Others[0].Stations[1].Before, d.Others[0].Stations[1].At = Moved, 2, 5
	f := made(t)(Layout(d))
	places := map[string][]float64{}
	for _, m := range f.marks {
		if x, ok := m.(area); ok && x.tip != "" {
			b := x.box()
			places[x.tip[:1]] = append(places[x.tip[:1]], (b.left+b.right)/2)
		}
	}
	require.Len(t, places["b"], 2)
	pitch := (places["c"][0] - places["a"][0]) / 7
	assert.InDelta(t, places["a"][0]+2*pitch, places["b"][0], 1e-9)
	assert.InDelta(t, places["a"][0]+5*pitch, places["b"][1], 1e-9)
	assert.Equal(t, places["c"][0], places["c"][1])
	labelled(t, f, "3→")
	for _, letter := range []string{"a", "b", "c"} {
		labelled(t, f, letter)
	}
}

// Two stations at one place stand on both sides of the track, and what was taken away does not
// hide what has its place now.
func TestLayoutHidesNothing(t *testing.T) {
	stations := []Placed{
		{Name: "a", Kind: "feeder", At: 0},
		{Name: "r", Kind: "reader", Look: ReaderLook, At: 0},
		{Name: "b", Kind: "feeder", At: 4, Change: TakenAway},
		{Name: "c", Kind: "feeder", At: 4, Before: 6, Change: Moved},
	}
	f := made(t)(Layout(LayoutData{Stations: stations[:2], Others: []OtherLayout{{Name: "other", Stations: stations}}}))
	boxes := map[string]box{}
	for _, m := range f.marks {
		if x, ok := m.(area); ok && x.tip != "" {
			boxes[x.tip[:1]] = x.box() // of the other line, which is drawn last
		}
	}
	require.Len(t, boxes, 4)
	apart := func(a, b box) bool { return a.bottom <= b.top || b.bottom <= a.top }
	assert.True(t, apart(boxes["a"], boxes["r"]))
	assert.True(t, apart(boxes["b"], boxes["c"]))
}

// The drawing of a line is there for a narrow page too: there its smallest text has 11 pixels.
func TestNarrowLayout(t *testing.T) {
	f := made(t)(Layout(layoutOf(head, 9, plainName)))
	require.NotNil(t, f.slim)
	smallest := math.Inf(1)
	for _, m := range f.slim.marks {
		if l, ok := m.(label); ok {
			smallest = min(smallest, l.face.size)
			assert.GreaterOrEqual(t, l.box().left, 0.0, l.text)
			assert.LessOrEqual(t, l.box().right, f.slim.width, l.text)
		}
	}
	const phone = 360 - 40 // pixels between the margins of the page; the drawing has half of its own
	assert.GreaterOrEqual(t, smallest*phone/(f.slim.width-margin), 11.0)
	page := pageOf(t, &Report{Title: "T", Question: "Q", Answer: "A", Sections: []Section{{Heading: "The line", Figures: []*Figure{f}}}})
	assert.Equal(t, 2, strings.Count(page, "<svg "))
}
