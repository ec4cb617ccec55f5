package plots

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Expected numbers in this file follow from the data beside them by hand.

// made returns a figure that must succeed.
func made(t *testing.T) func(f *Figure, err error) *Figure {
	t.Helper()
	return func(f *Figure, err error) *Figure {
		t.Helper()
		require.NoError(t, err)
		return f
	}
}

// tipped returns the boxes of the areas whose tips begin with tip.
func tipped(f *Figure, tip string) (boxes []box) {
	for _, m := range f.marks {
		if a, ok := m.(area); ok && strings.HasPrefix(a.tip, tip) {
			boxes = append(boxes, a.box())
		}
	}
	return boxes
}

// labelled returns the first label with a text.
func labelled(t *testing.T, f *Figure, text string) label {
	t.Helper()
	for _, m := range f.marks {
		if l, ok := m.(label); ok && l.text == text {
			return l
		}
	}
	t.Fatalf("no label %q among %q", text, texts(f))
	return label{}
}

// texts returns the text of every label.
func texts(f *Figure) (all []string) {
	for _, m := range f.marks {
		if l, ok := m.(label); ok {
			all = append(all, l.text)
		}
	}
	return all
}

func (b box) width() float64 { return b.right - b.left }

func TestHistogramShares(t *testing.T) {
	b := bins{10}
	x := []float64{12, 19.9, 20, 41, -3}
	assert.Equal(t, -1, b.first(x))
	assert.InDeltaSlice(t, []float64{0.2, 0, 0.4, 0.2, 0, 0.2}, b.shares(x), 1e-12)
	low, high, tallest := b.extent([]Variant{{Values: x}, {Values: []float64{55, 55}}})
	assert.Equal(t, []float64{-10, 60, 1}, []float64{low, high, tallest})
}

// Bins are round, and from 1 to 2 times 2n^⅓ lie over the range of a variant: of
// 1,000 values over 1,000 units, 20 to 40.
func TestBinsAreRound(t *testing.T) {
	x := make([]float64, 1000)
	for i := range x {
		x[i] = 14000 + float64(i)*1000/999
	}
	assert.InDelta(t, 50, binsOf([]Variant{{Values: x}}).width, 1e-9)
	assert.Positive(t, binsOf([]Variant{{Values: []float64{7}}}).width, "equal values")
}

// The outline of a row is as high as its share; equal areas are equal numbers.
func TestRidgeHeights(t *testing.T) {
	p := Percentiles{0, 0, 50, 100, 100}
	f := made(t)(Distribution(DistributionData{Variants: []Variant{
		{Name: "narrow", Values: []float64{1, 1, 1, 1}, Spread: p, Mean: estimate(1, 1)},
		{Name: "wide", Values: []float64{1, 1, 1, 100}, Spread: p, Mean: estimate(25, 1)},
	}}))
	narrow, wide := tipped(f, "narrow")[0], tipped(f, "wide")[0]
	assert.InDelta(t, 34, narrow.bottom-narrow.top, 1e-9, "the tallest")
	assert.InDelta(t, 34*0.75, wide.bottom-wide.top, 1e-9, "three of four")
}

func TestStairs(t *testing.T) {
	assert.Equal(t, []point{{0, 0}, {1, 0}, {1, 0.5}, {3, 0.5}, {3, 1}, {9, 1}}, stairs([]float64{3, 1}, 0, 9))
	x := make([]float64, 5000)
	for i := range x {
		x[i] = float64(i)
	}
	many := stairs(x, -1, 5000)
	assert.Len(t, many, 402)
	assert.Equal(t, point{0, 0.0002}, many[2], "the least")
	assert.Equal(t, point{4999, 1}, many[400], "the largest")
	for i := 2; i < len(many)-1; i += 2 {
		assert.InDelta(t, (many[i].x+1)/5000, many[i].y, 1e-12, "the share at or below %v", many[i].x)
	}
	assert.InDelta(t, 2499, below(x, 0.5), 1e-9)
	assert.InDelta(t, 0, below(x, 0), 1e-9)
}

// Whiskers, box and dots stand in the proportion of their numbers.
func TestBoxPositions(t *testing.T) {
	f := made(t)(Boxes(BoxesData{Rows: []Box{{"x", Recommended, Percentiles{100, 120, 130, 140, 180}, 60, 200}}}))
	b := tipped(f, "x")[0]
	unit := b.width() / 20
	var dots, upright []float64
	for _, m := range f.marks {
		switch m := m.(type) {
		case dot:
			dots = append(dots, m.centre.x)
		case stroke:
			if m.points[0].x == m.points[1].x && m.pen.colour == blue {
				upright = append(upright, m.points[0].x)
			}
		}
	}
	at := func(x float64) float64 { return b.left + (x-120)*unit }
	assert.InDeltaSlice(t, []float64{at(60), at(200)}, dots, 1e-9)
	assert.InDeltaSlice(t, []float64{at(100), at(180), at(130)}, upright, 1e-9, "whiskers, median")
}

func TestDifferences(t *testing.T) {
	rows := []Difference{{"more", Recommended, estimate(100, 50)}, {"less", Base, estimate(-100, 50)}, {"same", Base, estimate(40, 50)}, {"edge", Base, estimate(50, 50)}, {"unknown", Recommended, estimate(9, math.Inf(1))}}
	var shown []bool
	for _, r := range rows {
		shown = append(shown, r.shown())
	}
	assert.Equal(t, []bool{true, true, false, false, false}, shown)
	f := made(t)(Differences(DifferencesData{Rows: rows}))
	more, less := tipped(f, "more")[0], tipped(f, "less")[0]
	assert.InDelta(t, more.width(), less.width(), 1e-9)
	assert.InDelta(t, 2*more.width(), more.right-less.right, 1e-9, "200 apart, intervals 100 wide")
	assert.Empty(t, tipped(f, "unknown"))
	assert.Subset(t, texts(f), []string{"+100 ± 50", minus + "100 ± 50", "+9.00 (interval unknown)"})
}

func TestWaterfallBars(t *testing.T) {
	d := WaterfallData{Steps: []Step{{Name: "rated", Amount: 100, Total: true}, {Name: "lost", Amount: -30}, {Name: "won", Amount: 10}, {Name: "good", Amount: 80, Total: true}}}
	var c check
	assert.Equal(t, []span{{0, 100}, {100, 70}, {70, 80}, {0, 80}}, d.bars(&c))
	require.NoError(t, c.err())
	f := made(t)(Waterfall(d))
	rated, lost, won, good := tipped(f, "rated")[0], tipped(f, "lost")[0], tipped(f, "won")[0], tipped(f, "good")[0]
	unit := rated.width() / 100
	assert.InDelta(t, 30*unit, lost.width(), 1e-9)
	assert.InDelta(t, 80*unit, good.width(), 1e-9)
	assert.InDelta(t, rated.right, lost.right, 1e-9)
	assert.InDelta(t, lost.left, won.left, 1e-9)
	assert.InDelta(t, won.right, good.right, 1e-9)
	assert.Empty(t, f.Subtitle)
}

// A waterfall of differences begins at zero, on either side of which its bars may lie; of costs it
// is what is added that has the colour of a loss.
func TestWaterfallOfDifferences(t *testing.T) {
	steps := []Step{{Name: "hours", Amount: -3}, {Name: "upkeep", Amount: 1}, {Name: "all", Amount: -2, Total: true}}
	fills := func(costs bool) (hours, upkeep colour) {
		f := made(t)(Waterfall(WaterfallData{Steps: steps, Costs: costs}))
		for _, m := range f.marks {
			if a, ok := m.(area); ok && strings.HasPrefix(a.tip, "hours") {
				hours = a.fill
			} else if ok && strings.HasPrefix(a.tip, "upkeep") {
				upkeep = a.fill
			}
		}
		return hours, upkeep
	}
	f := made(t)(Waterfall(WaterfallData{Steps: steps}))
	hours, upkeep, all := tipped(f, "hours")[0], tipped(f, "upkeep")[0], tipped(f, "all")[0]
	zero := labelled(t, f, "0.0").at.x
	assert.InDelta(t, zero, hours.right, 1e-9)
	assert.InDelta(t, zero, all.right, 1e-9)
	assert.InDelta(t, hours.left, upkeep.left, 1e-9)
	less, more := fills(false)
	assert.Equal(t, []colour{vermilion, sky}, []colour{less, more})
	less, more = fills(true)
	assert.Equal(t, []colour{sky, vermilion}, []colour{less, more})
}

// Figures that are given each other's numbers have one scale.
func TestFiguresShareAScale(t *testing.T) {
	small, large := waterfallOf(Head{}, 2, plainName), waterfallOf(Head{}, 2, plainName)
	for i := range small.Steps {
		small.Steps[i].Amount /= 2
	}
	small.Also, large.Also = []float64{18000}, []float64{9000}
	a, b := made(t)(Waterfall(small)), made(t)(Waterfall(large))
	assert.InDelta(t, tipped(b, "rated")[0].width(), 2*tipped(a, "rated")[0].width(), 1e-9)
	points := fanOf(Head{}, 3)
	points.Also = []float64{100000}
	f := made(t)(Fan(points))
	assert.Contains(t, texts(f), "100,000")
}

func TestParetoRanks(t *testing.T) {
	causes := ranked([]Cause{{"b", 10, ""}, {"a", 60, ""}, {"c", 10, ""}, {"d", 20, ""}})
	assert.Equal(t, []Cause{{"a", 60, ""}, {"d", 20, ""}, {"b", 10, ""}, {"c", 10, ""}}, causes)
	assert.InDeltaSlice(t, []float64{0.6, 0.8, 0.9, 1}, running(causes), 1e-12)
	f := made(t)(Pareto(ParetoData{Causes: causes}))
	assert.InDelta(t, 3, tipped(f, "a")[0].width()/tipped(f, "d")[0].width(), 1e-9)

	var dark []string
	for _, m := range f.marks {
		if a, ok := m.(area); ok && a.fill == blue {
			dark = append(dark, a.tip)
		}
	}
	assert.Equal(t, []string{"a: 60.0", "d: 20.0"}, dark, "the first 80 %")

	many := ranked(slices.Repeat([]Cause{{"x", 2, ""}}, 30))
	assert.Len(t, many, mostCauses)
	assert.Equal(t, Cause{"16 others", 32, ""}, many[mostCauses-1])
	given := []Cause{{"x", 1, ""}, {"y", 2, ""}}
	ranked(given)
	assert.Equal(t, "x", given[0].Name, "what was given stays as it is")
}

func TestFanBands(t *testing.T) {
	p := panel{axis{scale: scale{0, 10, 0, 100}}, axis{scale: scale{0, 10, 200, 100}}}
	points := []FanPoint{{Time: 0, Spread: Percentiles{1, 2, 3, 4, 5}}, {Time: 10, Spread: Percentiles{5, 6, 7, 8, 9}}}
	band := p.band(points, func(s Percentiles) (float64, float64) { return s.P5, s.P95 })
	assert.Equal(t, []point{{0, 150}, {100, 110}, {100, 150}, {0, 190}}, band)

	f := made(t)(Fan(FanData{Points: []FanPoint{{Time: 0, Spread: Percentiles{10, 20, 30, 50, 60}}, {Time: 1, Spread: Percentiles{10, 20, 30, 50, 60}}}}))
	outer, inner := filled(f, tint(blue, 0.18))[1], filled(f, tint(blue, 0.5))[1] // after the keys
	unit := (outer.bottom - outer.top) / 50
	assert.InDelta(t, 30*unit, inner.bottom-inner.top, 1e-9)
	assert.InDelta(t, 10*unit, inner.top-outer.top, 1e-9)
}

func TestTimelineSpans(t *testing.T) {
	a := axis{scale: scale{0, 8, 100, 500}}
	for _, c := range []struct {
		name     string
		span     Span
		from, to float64
	}{
		{"plain", Span{2, 4, Running}, 200, 300},
		{"too short to see", Span{2, 2.001, Waiting}, 200, 200 + narrowest},
		{"short, at the end", Span{8, 8, Waiting}, 500 - narrowest, 500},
	} {
		t.Run(c.name, func(t *testing.T) {
			from, to := c.span.drawn(a)
			assert.InDeltaSlice(t, []float64{c.from, c.to}, []float64{from, to}, 1e-9)
		})
	}
}

func TestSweepMarksThePeak(t *testing.T) {
	f := made(t)(Sweep(sweepOf(Head{}, 1, plainName)))
	assert.Contains(t, texts(f), "Dashed line: best at 14,000; shaded: from 13,000 to 16,000.")
	var dashed float64
	for _, m := range f.marks {
		if s, ok := m.(stroke); ok && s.pen.colour == ink && s.pen.dashes != nil {
			dashed = s.points[0].x
		}
	}
	shaded := filled(f, tint(grid, 0.7))[0]
	assert.InDelta(t, 1.0/3, (dashed-shaded.left)/shaded.width(), 1e-9)
}

// filled returns the boxes of the areas of a colour.
func filled(f *Figure, fill colour) (boxes []box) {
	for _, m := range f.marks {
		if a, ok := m.(area); ok && a.fill == fill {
			boxes = append(boxes, a.box())
		}
	}
	return boxes
}

// A band reaches a half-width up and down; a point of unknown interval has none.
func TestSweepBand(t *testing.T) {
	f := made(t)(Sweep(SweepData{Curves: []SweepCurve{{Name: "x", Role: Recommended, Points: []SweepPoint{{X: 1, Y: estimate(100, 20)}, {X: 2, Y: estimate(100, math.Inf(1))}}}}}))
	band := filled(f, Recommended.pale())[0]
	var dots []point
	for _, m := range f.marks {
		if d, ok := m.(dot); ok {
			dots = append(dots, d.centre)
		}
	}
	assert.InDelta(t, dots[0].y, (band.top+band.bottom)/2, 1e-9)
	tick := labelled(t, f, "90").at.y - labelled(t, f, "110").at.y // 20 apart
	assert.InDelta(t, 2*tick, band.bottom-band.top, 1e-9)
}

// The lines that lead to the part enlarged keep clear of the axis above and its title.
func TestTimelineBracketCrossesNoWords(t *testing.T) {
	lanes := []Lane{{Name: "line", Spans: []Span{{0, 8, Running}}}}
	f := made(t)(Timeline(TimelineData{Axis: "hours of the shift", Length: 8, Lanes: lanes, Close: &Closeup{From: 4, To: 5, Axis: "enlarged", Lanes: lanes}}))
	title := labelled(t, f, "hours of the shift")
	for _, m := range f.marks {
		s, ok := m.(stroke)
		if !ok || s.pen.colour != muted {
			continue
		}
		for i, p := range s.points[1:] {
			before := s.points[i]
			assert.False(t, min(p.y, before.y) < title.at.y-2 && max(p.y, before.y) > title.at.y+1, "from %v to %v", before, p)
		}
	}
}

// In steps there is no slanted line, no band, and an interval at each point whose interval is known.
func TestSweepSteps(t *testing.T) {
	points := []SweepPoint{{X: 1, Y: estimate(100, 20)}, {X: 2, Y: estimate(150, 10)}, {X: 3, Y: estimate(180, math.Inf(1))}}
	f := made(t)(Sweep(SweepData{Curves: []SweepCurve{{Name: "x", Role: Recommended, Points: points, Steps: true}}}))
	assert.Empty(t, filled(f, Recommended.pale()))
	assert.Contains(t, texts(f), "Marks: the values computed. Upright line: confidence interval.")
	drawn := made(t)(Sweep(SweepData{Curves: []SweepCurve{{Name: "x", Role: Recommended, Points: points, Steps: true}}, Interval: "what was drawn"}))
	assert.Contains(t, texts(drawn), "Marks: the values computed. Upright line: what was drawn.")
	intervals := 0
	for _, m := range f.marks {
		s, ok := m.(stroke)
		if !ok {
			continue
		}
		for i, p := range s.points[1:] {
			before := s.points[i]
			assert.True(t, p.x == before.x || p.y == before.y, "from %v to %v", before, p)
		}
		if s.pen.colour == ink && s.pen.width == 1 && len(s.points) == 2 && s.points[0].x == s.points[1].x && s.points[0].y != s.points[1].y {
			intervals++
		}
	}
	assert.Equal(t, 2, intervals)
}

// Two points that lie so near to each other that their names would touch share one; and where steps lead down, a name
// stands clear of the step that leads to its point.
func TestSweepNamesApart(t *testing.T) {
	named := func(points ...SweepPoint) (names []label) {
		f := made(t)(Sweep(SweepData{Curves: []SweepCurve{{Name: "x", Points: points, Steps: true}}}))
		for _, m := range f.marks {
			if l, is := m.(label); is && l.face == bold(smallFace) {
				names = append(names, l)
			}
		}
		return names
	}
	point := func(name string, x, y float64) SweepPoint { return SweepPoint{Name: name, X: x, Y: estimate(y, 0.1)} }
	var texts []string
	for _, l := range named(point("A", 0, 0), point("B", 50, 60), point("F", 99.7, 98), point("G", 100, 100)) {
		texts = append(texts, l.text)
	}
	assert.Equal(t, []string{"A", "B", "F, G"}, texts)
	falling := named(point("A", 0, 100), point("B", 50, 98), point("C", 100, 0))
	require.Len(t, falling, 3)
	assert.Zero(t, falling[1].align, "to the right of its point, and the step down to it on the left")
}

// Cells overlap by 0.3 points, and are the darker the larger their number.
func TestHeatCells(t *testing.T) {
	f := made(t)(Heat(HeatData{Columns: []string{"a", "b"}, Rows: []string{"1"}, Cells: [][]float64{{5, 7}}}))
	a, b := tipped(f, "1, a: 5.00")[0], tipped(f, "1, b: 7.00")[0]
	assert.InDelta(t, 0.3, a.right-b.left, 1e-9)
	for i := range 20 {
		light, dark := shade(float64(i), 0, 20), shade(float64(i+1), 0, 20)
		assert.Less(t, lightness(dark), lightness(light)-2, "from %d to %d of 20", i, i+1)
	}
}

func TestTornadoBars(t *testing.T) {
	f := made(t)(Tornado(TornadoData{Inputs: []Input{
		{"jam", Change{Setting: "×½", By: estimate(50, 5)}, Change{Setting: "1/30000 × 1.3", By: estimate(-100, 5)}},
		{"speed", Change{By: estimate(-20, 2)}, Change{By: estimate(-10, 1)}},
		{"none", Change{By: estimate(2, 3)}, Change{Not: "not run", Setting: "0"}},
	}, LeftOut: 27}))
	jam, speed := tipped(f, "jam"), tipped(f, "speed")
	assert.InDelta(t, jam[1].right, jam[0].left, 1e-9, "both from zero")
	assert.InDelta(t, 2*jam[0].width(), jam[1].width(), 1e-9)
	assert.InDelta(t, speed[0].right, speed[1].right, 1e-9)
	assert.LessOrEqual(t, speed[0].bottom, speed[1].top, "one above the other")
	assert.Subset(t, texts(f), []string{"+50 ± 5 (×½)", minus + "100 ± 5 (1/30000 × 1.3)", minus + "20 ± 2", "not run (0)", "27 more, which change less, have no row."})
}

// The part of a timeline that is enlarged stands on the whole width, and those who wait as steps: two
// are twice as high as one.
func TestTimelineEnlarges(t *testing.T) {
	f := made(t)(Timeline(TimelineData{
		Length: 8, Lanes: []Lane{{Name: "the line", Spans: []Span{{0, 8, Running}}}},
		Close: &Closeup{From: 2, To: 3, Lanes: []Lane{
			{Name: "the line", Spans: []Span{{2.5, 3.5, Waiting}, {4, 5, Working}}},
			{Name: "calls", Queue: []Count{{1, 1}, {2.5, 2}, {2.75, 0}}},
		}},
	}))
	whole := filled(f, looks[Running].fill)[1] // after the key
	assert.Empty(t, filled(f, looks[Working].fill)[1:], "outside the part")
	dark := filled(f, ink)[1:]
	require.Len(t, dark, 3)
	assert.InDelta(t, whole.width()/2, dark[0].width(), 1, "half an hour of one")
	assert.InDelta(t, 2*(dark[1].bottom-dark[1].top), dark[2].bottom-dark[2].top, 1e-9)
	assert.InDelta(t, dark[1].width(), 2*dark[2].width(), 1e-9)
}
