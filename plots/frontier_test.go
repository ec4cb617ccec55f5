package plots

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Expected places in this file follow from the data beside them by hand.

// dotAt returns the middle of the dot whose tip begins with tip.
func dotAt(t *testing.T, f *Figure, tip string) point {
	t.Helper()
	for _, m := range f.marks {
		if d, ok := m.(dot); ok && len(d.tip) >= len(tip) && d.tip[:len(tip)] == tip {
			return d.centre
		}
	}
	t.Fatalf("no dot %q", tip)
	return point{}
}

// risks returns strategies a, b, c … of the given risks, each better than the last.
func risks(xs ...float64) (points []FrontierPoint) {
	for i, x := range xs {
		points = append(points, FrontierPoint{Label: letter(i), X: Range{Value: x}, Y: estimate(100*float64(i), 10), Frontier: true})
	}
	return points
}

// Equal ratios lie equally far apart, and zero left of all, in a column of its own.
func TestFrontierOnLogarithms(t *testing.T) {
	f := made(t)(Frontier(FrontierData{Log: true, Points: risks(0, 0.1, 1, 10, 0.001), Limit: &Limit{1, "accepted"}}))
	zero, a, b, c, tiny := dotAt(t, f, "a:").x, dotAt(t, f, "b:").x, dotAt(t, f, "c:").x, dotAt(t, f, "d:").x, dotAt(t, f, "e:").x
	assert.InDelta(t, b-a, c-b, 1e-9)
	assert.InDelta(t, 2*(b-a), a-tiny, 1e-9)
	column := filled(f, tint(grid, 0.6))[0]
	assert.InDelta(t, (column.left+column.right)/2, zero, 1e-9)
	below := slices.IndexFunc(f.marks, func(m mark) bool {
		l, ok := m.(label)
		return ok && l.text == "0" && l.at.y > filled(f, veil)[0].bottom
	})
	assert.InDelta(t, zero, f.marks[below].(label).at.x, 1e-9, "the word below the column")
	assert.Less(t, column.right, tiny)
	assert.InDelta(t, b, labelled(t, f, "1").at.x, 1e-9, "a tick")
	assert.InDelta(t, b, filled(f, veil)[0].left, 1e-9, "the limit")
}

func TestFrontierFloor(t *testing.T) {
	for _, c := range []struct {
		name  string
		xs    []float64
		floor float64
		limit float64
		says  string // at the column
	}{
		{"nothing below", []float64{0.02, 5}, 0.01, 2, ""},
		{"at the floor", []float64{0.01, 5}, 0.01, 2, ""},
		{"below", []float64{0.002, 5}, 0.01, 2, "below 0.01"},
		{"zero and below", []float64{0, 0.002, 5}, 0.01, 2, "below 0.01"},
		{"zero alone", []float64{0, 5}, 0.01, 2, "0"},
		{"the limit is never hidden", []float64{0.0005, 0.002, 5}, 0.01, 0.001, "below 0.001"},
		{"no risk is accepted", []float64{0, 0.002, 5}, 0.01, 0, "0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := FrontierData{Log: true, Floor: c.floor, Points: risks(c.xs...), Limit: &Limit{c.limit, "accepted"}}
			f := made(t)(Frontier(d))
			columns := filled(f, tint(grid, 0.6))
			if c.says == "" {
				assert.Empty(t, columns)
				return
			}
			require.Len(t, columns, 1)
			assert.Contains(t, texts(f), c.says)
			line := filled(f, veil)[0].left
			for i, x := range c.xs {
				at := dotAt(t, f, letter(i)+":").x
				assert.Equal(t, x > c.limit, at > line, "the risk %v and the limit %v", x, c.limit)
			}
		})
	}
}

func TestFrontierSteps(t *testing.T) {
	g := plane{riskAxis{axis: axis{scale: scale{0, 10, 0, 100}}}, axis{scale: scale{0, 300, 300, 0}}}
	d := FrontierData{Points: risks(1, 4, 9)}
	d.Points[1].Frontier = false
	assert.Equal(t, []point{{10, 300}, {90, 300}, {90, 100}}, g.steps(d.edge()))
	d.Points[0], d.Points[2] = d.Points[2], d.Points[0]
	assert.Equal(t, []point{{10, 300}, {90, 300}, {90, 100}}, g.steps(d.edge()), "in any order")
	assert.Empty(t, g.steps(nil))
}

// Intervals end where their numbers stand; of an unknown one there is nothing.
func TestFrontierIntervals(t *testing.T) {
	g := plane{riskAxis{axis: axis{scale: scale{0, 10, 0, 100}}}, axis{scale: scale{0, 300, 300, 0}}}
	p := FrontierPoint{X: Range{5, 3, 9}, Y: estimate(100, 20)}
	assert.Equal(t, [][]point{{{50, 220}, {50, 180}}, {{30, 200}, {90, 200}}}, p.bars(g))
	assert.Equal(t, ": 100 ± 20 at a risk of 5.00 (3.00 to 9.00)", p.tip())
	assert.Empty(t, FrontierPoint{X: Range{Value: 5}, Y: estimate(100, math.Inf(1))}.bars(g))
}

// What is over the limit is under the veil, all else over it; the best has a ring.
func TestFrontierRefuses(t *testing.T) {
	d := FrontierData{Points: risks(1, 2, 3), Limit: &Limit{2, "accepted"}}
	d.Points[1].Best = true
	f := made(t)(Frontier(d))
	veiled := map[string]bool{}
	for _, m := range f.marks {
		switch m := m.(type) {
		case area:
			if m.fill == veil {
				veiled["veil"] = true
			}
		case dot:
			if m.tip != "" {
				veiled[m.tip[:1]] = !veiled["veil"]
			}
		}
	}
	assert.Equal(t, map[string]bool{"veil": true, "a": false, "b": false, "c": true}, veiled)
	assert.Contains(t, texts(f), "b best")
	assert.Equal(t, muted, labelled(t, f, "c").colour)
	assert.Equal(t, ink, labelled(t, f, "a").colour)
}

// Even 26 strategies in one place have each a label clear of all others, and of
// every dot.
func TestFrontierLabelsFindRoom(t *testing.T) {
	for _, x := range []float64{0, 7} {
		d := FrontierData{Log: true}
		for i := range mostPoints {
			d.Points = append(d.Points, FrontierPoint{Label: letter(i), X: Range{Value: x}, Y: estimate(100, 3)})
		}
		f := made(t)(Frontier(d))
		assert.Empty(t, misplaced(f))
		at, seen := dotAt(t, f, "a:"), map[string]bool{}
		for _, m := range f.marks {
			if l, ok := m.(label); ok && l.face == nameFace && l.at.y < at.y+200 {
				seen[l.text] = true
				assert.False(t, l.box().hits([]box{around([]point{at}, 2)}), "%s on its dot", l.text)
			}
		}
		assert.Len(t, seen, mostPoints)
	}
}

func TestCrowd(t *testing.T) {
	c := crowd{within: box{0, 0, 100, 100}}
	b, ok := c.place(point{50, 50}, 3, 10, 10)
	require.True(t, ok)
	assert.Less(t, b.right, 50.0, "the upper left comes first")
	assert.Less(t, b.bottom, 50.0)
	again, ok := c.place(point{50, 50}, 3, 10, 10)
	require.True(t, ok)
	assert.False(t, again.hits([]box{b}))
	_, ok = c.place(point{50, 50}, 3, 101, 10)
	assert.False(t, ok, "wider than the field")
	c.lines = []box{{0, 0, 100, 100}}
	_, ok = c.place(point{50, 50}, 3, 10, 10)
	assert.True(t, ok, "over a line rather than nowhere")

	wall := []box{{40, 0, 42, 100}}
	assert.True(t, crosses(point{50, 50}, point{20, 30}, wall))
	assert.False(t, crosses(point{50, 50}, point{80, 30}, wall))
}

// Ticks of logarithms are round and stand clear; the wider the range, the fewer.
func TestDecades(t *testing.T) {
	for _, c := range []struct {
		name      string
		low, high float64 // powers of ten
		want      []string
	}{
		{"one", 0, 1, []string{"1", "2", "5", "10"}},
		{"two", -1, 1, []string{"0.1", "0.2", "0.5", "1", "2", "5", "10"}},
		{"six", -2, 4, []string{"0.01", "0.1", "1", "10", "100", "1,000", "10,000"}},
		{"sixteen", -8, 8, []string{"0.000001", "0.001", "1", "1,000", "1,000,000"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := decades(scale{c.low, c.high, 0, 330})
			assert.Equal(t, c.want, a.labels)
			assert.True(t, a.clear())
		})
	}
	assert.False(t, axis{scale{0, 1, 0, 10}, []float64{0, 1}, []string{"1", "10"}}.clear(), "10 points apart")
}

func TestStrangeLabels(t *testing.T) {
	c := crowd{dots: []box{around([]point{{10, 10}}, 3), around([]point{{30, 10}}, 3)}}
	assert.False(t, c.strange(point{10, 10}, box{0, 0, 5, 5}))
	assert.True(t, c.strange(point{10, 10}, box{25, 0, 29, 5}))
}

// The floor itself is on the scale; what is below it is in the column.
func TestFloorIsOnTheScale(t *testing.T) {
	a := logarithmic([]float64{0.004, 0.01, 1}, 0.01, 100, 400)
	assert.InDelta(t, (100+a.column)/2, a.at(0.0099), 1e-9)
	assert.InDelta(t, a.at(0.1)-a.at(0.01), a.at(1)-a.at(0.1), 1e-9)
	assert.Greater(t, a.at(0.01), a.column)
}
