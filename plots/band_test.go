package plots

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The band holds from a value on, up to the next step and to the end of the axis, on the
// scale of the curve: the first two steps are 20 wide, the upper edge falls by a quarter.
func TestBandIsOnTheScaleOfTheCurve(t *testing.T) {
	f := made(t)(Cumulative(CumulativeData{
		Curves: []Values{{Name: "the log", Values: []float64{10, 30, 50}}},
		Band:   Band{"most", []BandStep{{10, 0, 0.5}, {30, 0.25, 0.75}, {50, 0.5, 1}}},
	}))
	bands := filled(f, bandFill)
	require.Len(t, bands, 2, "one in the legend")
	var outline []point
	var line []point
	for _, m := range f.marks {
		switch m := m.(type) {
		case area:
			if m.tip == "most" {
				outline = m.corners
			}
		case stroke:
			if m.tip == "the log" {
				line = m.points
			}
		}
	}
	require.Len(t, outline, 12)
	require.Len(t, line, 8, "from 0 up three steps to 1")
	foot, top := line[0].y, line[7].y
	share := func(p point) float64 { return (foot - p.y) / (foot - top) }
	for i, want := range []float64{0.5, 0.5, 0.75, 0.75, 1, 1, 0.5, 0.5, 0.25, 0.25, 0, 0} {
		assert.InDelta(t, want, share(outline[i]), 1e-9, "corner %d", i)
	}
	first, second, third, end := line[1].x, line[3].x, line[5].x, line[7].x
	for i, want := range []float64{first, second, second, third, third, end, end, third, third, second, second, first} {
		assert.InDelta(t, want, outline[i].x, 1e-9, "corner %d", i)
	}
	labelled(t, f, "most")
	labelled(t, f, "the log")
}

// Without a curve there is nothing to compare, and without steps there is no band.
func TestBandOfNothing(t *testing.T) {
	f := made(t)(Cumulative(CumulativeData{Band: Band{"most", []BandStep{{1, 0, 1}}}}))
	assert.Empty(t, filled(f, bandFill))
	f = made(t)(Cumulative(CumulativeData{Curves: []Values{{Name: "x", Values: []float64{1, 2}}}, Band: Band{Name: "most"}}))
	assert.Empty(t, filled(f, bandFill))
	assert.NotContains(t, texts(f), "most")
}
