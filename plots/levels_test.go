package plots

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func aStock(levels ...LevelAt) LevelsData {
	return LevelsData{Axis: "hours", Length: 8, Stocks: []StockLevels{{Name: "letter", Capacity: 400, Warn: 100, Levels: levels}}}
}

// A stock stands on the foot of its row, full at its top, and has a mark where nothing is left.
func TestLevelsAreToScale(t *testing.T) {
	f := made(t)(Levels(aStock(LevelAt{0, 400, 400}, LevelAt{4, 100, 100}, LevelAt{6, 0, 400}, LevelAt{8, 200, 200})))
	var outline []point
	for _, m := range f.marks {
		if a, ok := m.(area); ok && a.tip == "letter" {
			outline = a.corners
		}
	}
	require.Len(t, outline, 7)
	foot := outline[0].y
	full := foot - outline[1].y
	for i, want := range []float64{0, 1, 0.25, 0, 1, 0.5, 0} {
		assert.InDelta(t, want*full, foot-outline[i].y, 1e-9, "corner %d", i)
	}
	assert.InDelta(t, outline[1].x+(outline[5].x-outline[1].x)/2, outline[2].x, 1e-9, "4 of 8 hours")
	assert.InDelta(t, outline[3].x, outline[4].x, 1e-9, "filled at once")
	assert.Len(t, filled(f, ink), 2, "one in the legend, and one where nothing was left")
}

func TestLevelsRefuse(t *testing.T) {
	for want, d := range map[string]LevelsData{
		"goes from 10 to 5":       aStock(LevelAt{0, 10, 5}),
		"goes from 0 to 401":      aStock(LevelAt{0, 0, 401}),
		"a level at 9":            aStock(LevelAt{9, 0, 400}),
		"the time falls":          aStock(LevelAt{2, 0, 400}, LevelAt{1, 300, 300}),
		"0 levels":                aStock(),
		"in a stock of 400":       aStock(LevelAt{0, math.NaN(), 400}),
		"the shift is NaN long":   {Length: math.NaN(), Stocks: aStock(LevelAt{0, 400, 400}).Stocks},
		"somebody is called at 5": {Length: 8, Stocks: []StockLevels{{Capacity: 4, Warn: 5, Levels: []LevelAt{{0, 4, 4}}}}},
	} {
		_, err := Levels(d)
		assert.ErrorContains(t, err, want)
	}
}

func TestRasterRefuses(t *testing.T) {
	for want, d := range map[string]RasterData{
		"a mark at 3":                {From: 6, To: 8, Rows: []RasterRow{{At: []float64{3}}}},
		"a mark at NaN":              {From: 6, To: 8, Rows: []RasterRow{{At: []float64{math.NaN()}}}},
		"shaded from 7 to 6":         {From: 6, To: 8, Rows: []RasterRow{{Spans: []PlannedRange{{7, 6, "x"}}}}},
		"the axis is from 6 to 6":    {From: 6, To: 6, Rows: []RasterRow{{}}},
		"the end of the axis is NaN": {From: 6, To: math.NaN(), Rows: []RasterRow{{}}},
	} {
		_, err := Raster(d)
		assert.ErrorContains(t, err, want)
	}
}

// Where a value is to be reached the curve falls from all to none, and the value is marked where the
// share of those that reach it is.
func TestReachFalls(t *testing.T) {
	f := made(t)(Cumulative(CumulativeData{
		Curves: []Values{{Name: "base", Values: []float64{10, 20, 30, 40}}}, Reach: &Threshold{25, "target 25"},
	}))
	var line []point
	for _, m := range f.marks {
		if s, ok := m.(stroke); ok && s.tip == "base" {
			line = s.points
		}
	}
	require.Len(t, line, 10)
	assert.Less(t, line[0].y, line[9].y, "down the page from all to none")
	mark := labelled(t, f, "target 25").at.x
	assert.Greater(t, mark, line[4].x)
	assert.Contains(t, texts(f), "share of shifts that reach it")
	_, err := Cumulative(CumulativeData{Curves: []Values{{Name: "base", Values: []float64{1}}}, Reach: &Threshold{math.NaN(), "target"}})
	assert.ErrorContains(t, err, "target is NaN")
	_, err = Cumulative(CumulativeData{Curves: []Values{{Name: "base", Values: []float64{1}}}, Reach: &Threshold{1, "target"}, Band: Band{"most", []BandStep{{1, 0, 1}}}})
	assert.ErrorContains(t, err, "of what stays below")
}

// An interval that lies unevenly is drawn as it is: that of a share ends at 100 %.
func TestSweepWithinItsInterval(t *testing.T) {
	point := SweepPoint{X: 1, Y: estimate(100, 1.5), Within: &Within{97, 100}}
	f := made(t)(Sweep(SweepData{Curves: []SweepCurve{{Name: "x", Role: Recommended, Points: []SweepPoint{point, {X: 2, Y: estimate(99, 0)}}}}}))
	band := filled(f, Recommended.pale())[0]
	var dots []dot
	for _, m := range f.marks {
		if d, ok := m.(dot); ok {
			dots = append(dots, d)
		}
	}
	assert.InDelta(t, dots[0].centre.y, band.top, 1e-9, "nothing above 100 %")
	point.Within = &Within{101, 102}
	_, err := Sweep(SweepData{Curves: []SweepCurve{{Name: "x", Points: []SweepPoint{point}}}})
	assert.ErrorContains(t, err, "its interval falls")
}

// What is said of shades is what is said of the cells that have them.
func TestHeatSaysOneNumberAlike(t *testing.T) {
	f := made(t)(Heat(HeatData{
		Columns: []string{"1", "2"}, Rows: []string{"a"}, Cells: [][]float64{{10_621, 12_898}}, Says: [][]string{{"10,620", "12,900"}},
	}))
	assert.NotContains(t, texts(f), "10,621")
	assert.NotContains(t, texts(f), "12,898")
}

// An axis with room for one number has zero, if it is on it.
func TestLoneTickIsZero(t *testing.T) {
	a := across(scale{-1500, 900, 0, 40}, signed)
	assert.Equal(t, []string{"0"}, a.labels)
}
