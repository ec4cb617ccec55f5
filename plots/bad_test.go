package plots

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var nan = math.NaN()

// Without data a figure says so.
func TestNoData(t *testing.T) {
	for _, d := range draws(head, 0, plainName) {
		if d.name == "heat" || d.name == "waterfall" {
			continue // their data are never empty there: see below
		}
		t.Run(d.name, func(t *testing.T) { saysNoData(t, d.figure) })
	}
	t.Run("heat", func(t *testing.T) {
		saysNoData(t, func() (*Figure, error) { return Heat(HeatData{Head: head}) })
	})
	t.Run("heat of nothing simulated", func(t *testing.T) {
		saysNoData(t, func() (*Figure, error) {
			return Heat(HeatData{Head: head, Columns: []string{"1"}, Rows: []string{"1"}, Cells: [][]float64{{nan}}})
		})
	})
	t.Run("waterfall", func(t *testing.T) {
		saysNoData(t, func() (*Figure, error) { return Waterfall(WaterfallData{Head: head}) })
	})
	t.Run("causes that cost nothing", func(t *testing.T) {
		saysNoData(t, func() (*Figure, error) { return Pareto(ParetoData{Head: head, Causes: []Cause{{Name: "jam"}}}) })
	})
	t.Run("variants without values", func(t *testing.T) {
		saysNoData(t, func() (*Figure, error) { return Distribution(DistributionData{Head: head, Variants: []Variant{{}}}) })
	})
	t.Run("curves without points", func(t *testing.T) {
		saysNoData(t, func() (*Figure, error) { return Sweep(SweepData{Head: head, Curves: []SweepCurve{{}}}) })
	})
}

func saysNoData(t *testing.T, figure func() (*Figure, error)) {
	t.Helper()
	f, err := figure()
	require.NoError(t, err)
	svg, err := f.SVG()
	require.NoError(t, err)
	assert.Contains(t, string(svg), "no data")
	assert.Empty(t, misplaced(f))
}

// wrongData are charts that cannot be drawn, and what must be said of each.
var wrongData = []struct {
	name   string
	figure func() (*Figure, error)
	want   string
}{
	{"NaN value", func() (*Figure, error) {
		d := DistributionData{Variants: variants(2, plainName)}
		d.Variants[1].Values[3] = nan
		return Distribution(d)
	}, "variant 2: a value is NaN, want a number up to 10⁹"},
	{"percentiles out of order", func() (*Figure, error) {
		d := boxesOf(head, 2, plainName)
		d.Rows[0].Spread.P25 = 13000
		return Boxes(d)
	}, "variant 1: a percentile falls from 13820 to 13000"},
	{"infinite value", func() (*Figure, error) {
		d := cumulativeOf(head, 2, plainName)
		d.Curves[0].Values[0] = math.Inf(1)
		return Cumulative(d)
	}, "variant 1: a value is +Inf"},
	{"NaN half-width", func() (*Figure, error) {
		d := differencesOf(head, 2, plainName)
		d.Rows[0].Mean.Half = nan
		return Differences(d)
	}, "variant 1: the difference: half-width is NaN"},
	{"bars that do not add up", func() (*Figure, error) {
		d := waterfallOf(head, 2, plainName)
		d.Steps[3].Amount++
		return Waterfall(d)
	}, `the steps before "good" add up to 16280, not to 16281`},
	{"bars below the axis", func() (*Figure, error) {
		d := waterfallOf(head, 2, plainName)
		d.From = 17000
		return Waterfall(d)
	}, `step "variant 2" reaches down to 16280, and the axis starts at 17000`},
	{"negative start", func() (*Figure, error) {
		d := waterfallOf(head, 2, plainName)
		d.From = -1
		return Waterfall(d)
	}, "the axis starts at -1, want 0 or more"},
	{"negative cost", func() (*Figure, error) {
		return Pareto(ParetoData{Causes: []Cause{{Name: "jam", Amount: -1}}})
	}, `cause "jam" costs -1, want 0 or more`},
	{"time runs back", func() (*Figure, error) {
		d := fanOf(head, 3)
		d.Points[2].Time = 0.5
		return Fan(d)
	}, "the time falls from 1 to 0.5"},
	{"span past the end", func() (*Figure, error) {
		d := timelineOf(head, 1, plainName)
		d.Length = 7.9
		return Timeline(d)
	}, "variant 1: a span from 7.5 to 8, in a shift of 7.9"},
	{"no such state", func() (*Figure, error) {
		return Timeline(TimelineData{Length: 1, Lanes: []Lane{{Spans: []Span{{State: states}}}}})
	}, "state 6, and there is none"},
	{"no length", func() (*Figure, error) { return Timeline(TimelineData{Length: nan}) }, "the shift is NaN long"},
	{"peak outside its interval", func() (*Figure, error) {
		d := sweepOf(head, 1, plainName)
		d.Peak.X = 17000
		return Sweep(d)
	}, "the peak and its interval falls from 17000 to 16000"},
	{"ragged table", func() (*Figure, error) {
		d := heatOf(head, 2, plainName)
		d.Cells[1] = d.Cells[1][:1]
		return Heat(d)
	}, "1 cells in row 1, want 2"},
	{"best cell outside", func() (*Figure, error) {
		d := heatOf(head, 2, plainName)
		d.Best = &Cell{2, 0}
		return Heat(d)
	}, "the best cell {2 0} is not in the table"},
	{"NaN change", func() (*Figure, error) {
		d := tornadoOf(head, 2, plainName)
		d.Inputs[1].IfHigher = nan
		return Tornado(d)
	}, "variant 2, set higher is NaN"},
	{"no width", func() (*Figure, error) { return Fan(FanData{Head: Head{Width: nan}}) }, "the width is NaN inches"},
}

// What cannot be drawn is an error that names it.
func TestWrongData(t *testing.T) {
	for _, c := range wrongData {
		t.Run(c.name, func(t *testing.T) {
			f, err := c.figure()
			require.ErrorContains(t, err, c.want)
			assert.Nil(t, f)
		})
	}
}

// Numbers of any size, equal ones and lone ones too, are drawn on the page or
// refused.
func TestAnyNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Custom(func(t *rapid.T) float64 {
			return rapid.OneOf(
				rapid.SampledFrom([]float64{0, 1, -1, 1e-12, 1e9, -1e9, 1e9 - 1e-3, 5e-324, 1e10, nan, math.Inf(1)}),
				rapid.Float64Range(-1e9, 1e9), rapid.Float64Range(-1, 1)).Draw(t, "x")
		})
		xs := rapid.SliceOfN(x, 1, 6).Draw(t, "xs")
		for name, figure := range ofNumbers(xs) {
			f, err := figure()
			if err != nil {
				continue
			}
			if wrong := misplaced(f); len(wrong) > 0 {
				t.Fatalf("%s of %v: %v", name, xs, wrong)
			}
		}
	})
}

// Long numbers at the edge of the page, which must move inwards, hide no others.
func TestEdgeOfThePage(t *testing.T) {
	for name, figure := range ofNumbers([]float64{-3.958120942115784e-09}) {
		f, err := figure()
		if err == nil { // a waterfall below zero is refused
			assert.Empty(t, misplaced(f), name)
		}
	}
	f, err := Heat(HeatData{Across: "speed at the left edge of the page", Columns: []string{""}, Rows: []string{""}, Cells: [][]float64{{1}}})
	require.NoError(t, err)
	assert.Empty(t, misplaced(f))
	assert.GreaterOrEqual(t, labelled(t, f, "speed at the left edge of the page").box().left, margin/2)
}

// ofNumbers returns charts of the given numbers.
func ofNumbers(xs []float64) map[string]func() (*Figure, error) {
	n, first := len(xs), xs[0]
	all := Percentiles{first, first, first, first, first}
	return map[string]func() (*Figure, error){
		"distribution": func() (*Figure, error) {
			return Distribution(DistributionData{Variants: []Variant{{"x", xs, all, estimate(first, math.Abs(xs[n-1]))}, {"y", xs[:1], all, estimate(0, 1)}}})
		},
		"cumulative": func() (*Figure, error) { return Cumulative(CumulativeData{Curves: []Values{{"x", xs}}}) },
		"boxes":      func() (*Figure, error) { return Boxes(BoxesData{Rows: []Box{{"x", all, first, first}}}) },
		"fan":        func() (*Figure, error) { return Fan(FanData{Points: []FanPoint{{first, all}}}) },
		"waterfall": func() (*Figure, error) {
			return Waterfall(WaterfallData{Steps: []Step{{"x", first, true}, {Name: "y", Amount: xs[n-1]}}})
		},
		"differences": func() (*Figure, error) {
			var d DifferencesData
			for _, x := range xs {
				d.Rows = append(d.Rows, Difference{"x", estimate(x, math.Abs(first))})
			}
			return Differences(d)
		},
		"pareto": func() (*Figure, error) {
			var d ParetoData
			for _, x := range xs {
				d.Causes = append(d.Causes, Cause{"x", math.Abs(x), "y"})
			}
			return Pareto(d)
		},
		"sweep": func() (*Figure, error) {
			return Sweep(SweepData{Curves: []SweepCurve{{"x", []SweepPoint{{first, estimate(xs[n-1], 1)}}}}})
		},
		"heat": func() (*Figure, error) {
			return Heat(HeatData{Rows: []string{""}, Columns: make([]string, n), Cells: [][]float64{xs}})
		},
		"tornado": func() (*Figure, error) {
			return Tornado(TornadoData{Head: Head{Width: 6}, Inputs: []Input{{"a long name for an input of this line", "low setting", "high setting", first, xs[n-1]}}})
		},
	}
}
