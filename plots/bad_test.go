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
	t.Run("recovery without stations", func(t *testing.T) {
		saysNoData(t, func() (*Figure, error) { return Recovery(RecoveryData{Head: head, Cycles: []Cycle{{}}}) })
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
	}, "variant 2: a value is NaN, want a number up to 10¹³"},
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
	{"a band below nothing", func() (*Figure, error) {
		d := bandedOf(head, 3, plainName)
		d.Band.Steps[2].Low = -0.01
		return Cumulative(d)
	}, "it is from -0.01 to 0.9"},
	{"a band upside down", func() (*Figure, error) {
		d := bandedOf(head, 3, plainName)
		d.Band.Steps[1].High = 0.1
		return Cumulative(d)
	}, "to 0.1, want shares from 0 to 1"},
	{"a lower edge that falls", func() (*Figure, error) {
		d := bandedOf(head, 3, plainName)
		d.Band.Steps[2].Low = 0.1
		return Cumulative(d)
	}, "95 % of variant 4: its lower edge falls from 0.1"},
	{"NaN step", func() (*Figure, error) {
		d := bandedOf(head, 3, plainName)
		d.Band.Steps[1].From = nan
		return Cumulative(d)
	}, "95 % of variant 4: a value is NaN"},
	{"NaN edge", func() (*Figure, error) {
		d := bandedOf(head, 3, plainName)
		d.Band.Steps[1].High = nan
		return Cumulative(d)
	}, "want shares from 0 to 1"},
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
	{"a shared scale without a number", func() (*Figure, error) {
		d := waterfallOf(head, 2, plainName)
		d.Also = []float64{nan}
		return Waterfall(d)
	}, "a number that shall have room is NaN"},
	{"a negative stop", func() (*Figure, error) {
		d := stopsOf(head, 2, plainName)
		d.Causes[1].Amounts[0] = -1
		return Stops(d)
	}, `cause "variant 2" costs -1, want 0 or more`},
	{"an amount too few", func() (*Figure, error) {
		d := stopsOf(head, 2, plainName)
		d.Causes[1].Amounts = d.Causes[1].Amounts[1:]
		return Stops(d)
	}, `cause "variant 2": 1 amounts for 2 lines`},
	{"no such state", func() (*Figure, error) {
		d := statesOf(head, 1, plainName)
		d.Rows[0].Times[states] = 1
		return States(d)
	}, "variant 1: state 6, and there is none"},
	{"a part enlarged that is not in the shift", func() (*Figure, error) {
		d := timelineOf(head, 2, plainName)
		d.Close.To = 9
		return Timeline(d)
	}, "the part enlarged is from 2 to 9, in a shift of 8"},
	{"a queue of less than none", func() (*Figure, error) {
		d := timelineOf(head, 2, plainName)
		d.Close.Lanes[2].Queue[0].Number = -1
		return Timeline(d)
	}, "variant 1: -1 wait at 0, want a number of 0 or more and times that rise"},
	{"a quantile that is no number", func() (*Figure, error) {
		d := quantilesOf(head, 1)
		d.Points[0].Seen = nan
		return Quantiles(d)
	}, "what was seen is NaN"},
	{"a rate that is no number", func() (*Figure, error) {
		d := ratesOf(head, 1, plainName)
		d.Rows[0].Rate.High = nan
		return Rates(d)
	}, "variant 1: its rate is NaN"},
	{"no target", func() (*Figure, error) {
		return Distribution(DistributionData{Head: head, Variants: variants(1, plainName), Mark: &Threshold{At: nan}})
	}, "what is marked is NaN"},
	{"a plan that falls", func() (*Figure, error) {
		d := sweepOf(head, 1, plainName)
		d.Planned = &PlannedRange{2, 1, "planned"}
		return Sweep(d)
	}, "planned falls from 2 to 1, want it rising"},
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
	{"a place that is none", func() (*Figure, error) {
		d := layoutOf(head, 2, plainName)
		d.Stations[1].At = nan
		return Layout(d)
	}, "variant 2: its place"},
	{"a look that there is not", func() (*Figure, error) {
		return Layout(LayoutData{Stations: []Placed{{Name: "x", Look: looksOfStations}}})
	}, "x: look 9, and there is none"},
	{"a change that there is not", func() (*Figure, error) {
		return Layout(LayoutData{Stations: []Placed{{Name: "x", Change: -1}}})
	}, "x: change -1, and there is none"},
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
		d.Inputs[1].Higher.By.Mean = nan
		return Tornado(d)
	}, "variant 2, set higher is NaN"},
	{"two points of one label", func() (*Figure, error) {
		d := frontierOf(head, 3, plainName)
		d.Points[2].Label = "a"
		return Frontier(d)
	}, `point 3 has the label "a" of another`},
	{"too many points", func() (*Figure, error) {
		return Frontier(FrontierData{Points: make([]FrontierPoint, 27)})
	}, "27 points, want 26 at most"},
	{"NaN risk", func() (*Figure, error) {
		d := frontierOf(head, 3, plainName)
		d.Points[1].X.High = nan
		return Frontier(d)
	}, "b: the risk and its interval is NaN"},
	{"risk outside its interval", func() (*Figure, error) {
		d := frontierOf(head, 3, plainName)
		d.Points[1].X.Low = 0.4
		return Frontier(d)
	}, "b: the risk and its interval falls from 0.4 to 0.3"},
	{"NaN rate", func() (*Figure, error) {
		d := frontierOf(head, 3, plainName)
		d.Points[1].Y.Mean = nan
		return Frontier(d)
	}, "b is NaN"},
	{"risk without a logarithm", func() (*Figure, error) {
		d := frontierOf(head, 3, plainName)
		d.Points[1].X = Range{Value: -1}
		return Frontier(d)
	}, "b: a risk of -1 on an axis of logarithms, want 0 or more"},
	{"best over the limit", func() (*Figure, error) {
		d := frontierOf(head, 3, plainName)
		d.Limit.X = 0.5
		return Frontier(d)
	}, "c is the best, and its risk of 0.66 is over the limit of 0.5"},
	{"two best", func() (*Figure, error) {
		d := frontierOf(head, 3, plainName)
		d.Points[0].Best = true
		return Frontier(d)
	}, "2 points are the best, want one at most"},
	{"NaN limit", func() (*Figure, error) {
		return Frontier(FrontierData{Limit: &Limit{X: nan}})
	}, "the limit is NaN"},
	{"NaN floor", func() (*Figure, error) {
		return Frontier(FrontierData{Floor: nan})
	}, "the floor is NaN, want a number from 0 to 10⁹"},
	{"amounts missing", func() (*Figure, error) {
		d := fatesOf(head, 3, plainName)
		d.Bars[1].Amounts = d.Bars[1].Amounts[:2]
		return Fates(d)
	}, "variant 2: 2 amounts for 3 parts"},
	{"negative amount", func() (*Figure, error) {
		d := fatesOf(head, 3, plainName)
		d.Bars[1].Amounts[2] = -1
		return Fates(d)
	}, "variant 2: outsorted, variant 3 is -1, want 0 or more"},
	{"NaN amount", func() (*Figure, error) {
		d := fatesOf(head, 3, plainName)
		d.Bars[1].Amounts[2] = nan
		return Fates(d)
	}, "variant 2: outsorted, variant 3 is NaN"},
	{"too many parts", func() (*Figure, error) {
		return Fates(FatesData{Parts: make([]Part, 27)})
	}, "27 parts, want 26 at most"},
	{"too many fates", func() (*Figure, error) {
		return Fates(FatesData{Parts: []Part{{"1", ""}, {"2", ""}, {"3", ""}, {"4", ""}, {"5", ""}, {"6", ""}}})
	}, "6 fates, want 5 at most"},
	{"pockets missing", func() (*Figure, error) {
		d := recoveryOf(head, 3, plainName)
		d.Cycles[1].Pockets = nil
		return Recovery(d)
	}, "0 pockets in cycle 2, want 3"},
	{"no such condition", func() (*Figure, error) {
		d := recoveryOf(head, 3, plainName)
		d.Cycles[1].Pockets[2].Condition = conditions
		return Recovery(d)
	}, "cycle 2, pocket 3: condition 6, and there is none"},
	{"a set in two places", func() (*Figure, error) {
		d := recoveryOf(head, 3, plainName)
		d.Cycles[1].Pockets[2].Set = "set 2"
		return Recovery(d)
	}, "cycle 2: set 2 stands at two stations"},
	{"too many stations", func() (*Figure, error) {
		return Recovery(RecoveryData{Stations: make([]string, 13)})
	}, "13 stations, want 12 at most"},
	{"cells missing", func() (*Figure, error) {
		d := coverageOf(head, 3, plainName)
		d.Cells[1] = d.Cells[1][:1]
		return Coverage(d)
	}, "variant 2: 1 cells for 3 lines"},
	{"a row missing", func() (*Figure, error) {
		d := coverageOf(head, 3, plainName)
		d.Cells = d.Cells[:2]
		return Coverage(d)
	}, "2 rows of cells for 3 jobs"},
	{"too many lines", func() (*Figure, error) {
		return Coverage(CoverageData{Lines: make([]string, 9)})
	}, "9 lines, want 8 at most"},
	{"a week without a name", func() (*Figure, error) {
		d := backlogOf(head, 3, plainName)
		d.Points[1].Name = ""
		return Fan(d)
	}, "2 of 3 times have a name, want all or none"},
	{"stints that overlap", func() (*Figure, error) {
		d := weekOf(head, 1, plainName)
		d.Lanes[0].Stints[1].From = 0.5
		return Week(d)
	}, "variant 1: a stint from 0.5 to 5.6, want it from 0.8 to 10"},
	{"NaN stint", func() (*Figure, error) {
		d := weekOf(head, 1, plainName)
		d.Lanes[0].Stints[1].To = nan
		return Week(d)
	}, "variant 1: a stint from 0.8 to NaN"},
	{"no such activity", func() (*Figure, error) {
		d := weekOf(head, 1, plainName)
		d.Lanes[0].Stints[1].Activity = activities
		return Week(d)
	}, "variant 1: activity 7, and there is none"},
	{"a shift ends after the lane", func() (*Figure, error) {
		d := weekOf(head, 1, plainName)
		d.Lanes[0].Ends[0] = 11
		return Week(d)
	}, "variant 1: a shift ends at 11, in a lane of 10"},
	{"a tick outside", func() (*Figure, error) {
		d := weekOf(head, 1, plainName)
		d.Ticks = []Tick{{nan, "Monday"}}
		return Week(d)
	}, `the tick "Monday" at NaN, in a lane of 10`},
	{"a shift of a person outside", func() (*Figure, error) {
		d := peopleOf(head, 1, plainName)
		d.People[0].Shifts[4].To = 11
		return Week(d)
	}, "variant 1: a shift from 8 to 11, want it from 8 to 10"},
	{"a break that is NaN", func() (*Figure, error) {
		d := peopleOf(head, 1, plainName)
		d.People[0].Breaks[0] = nan
		return Week(d)
	}, "variant 1: a break at NaN, in a lane of 10"},
	{"no such presence", func() (*Figure, error) {
		d := peopleOf(head, 1, plainName)
		d.People[0].Shifts[0].Presence = presences
		return Week(d)
	}, "variant 1: presence 4, and there is none"},
	{"a lane of no length", func() (*Figure, error) { return Week(WeekData{Length: nan}) }, "a lane is NaN long"},
	{"finished before the start", func() (*Figure, error) {
		d := completionOf(head, 1, plainName)
		d.Jobs[0].Min = -1
		return Completion(d)
	}, "variant 1: a time falls from 0 to -1"},
	{"NaN time", func() (*Figure, error) {
		d := completionOf(head, 1, plainName)
		d.Jobs[0].Spread.P50 = nan
		return Completion(d)
	}, "variant 1: a time is NaN"},
	{"finished after never", func() (*Figure, error) {
		d := completionOf(head, 1, plainName)
		d.Jobs[0].Spread.P75 = math.Inf(1)
		return Completion(d)
	}, "variant 1: a time is +Inf"},
	{"due before the start", func() (*Figure, error) {
		d := completionOf(head, 1, plainName)
		d.Jobs[0].Due = -2
		return Completion(d)
	}, "variant 1 is due at -2, want a time after 0, or 0 for none"},
	{"NaN due", func() (*Figure, error) {
		d := completionOf(head, 1, plainName)
		d.Jobs[0].Due = nan
		return Completion(d)
	}, "variant 1: when it is due is NaN"},
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
			return Distribution(DistributionData{Variants: []Variant{
				{Name: "x", Values: xs, Spread: all, Mean: estimate(first, math.Abs(xs[n-1]))}, {Name: "y", Values: xs[:1], Spread: all, Mean: estimate(0, 1)},
			}})
		},
		"cumulative": func() (*Figure, error) { return Cumulative(CumulativeData{Curves: []Values{{Name: "x", Values: xs}}}) },
		"band": func() (*Figure, error) {
			return Cumulative(CumulativeData{Curves: []Values{{Name: "x", Values: xs}}, Band: Band{"y", []BandStep{{first, 0, 0.5}, {first, 0, 1}}}})
		},
		"boxes": func() (*Figure, error) {
			return Boxes(BoxesData{Rows: []Box{{Name: "x", Spread: all, Min: first, Max: first}}})
		},
		"fan": func() (*Figure, error) { return Fan(FanData{Points: []FanPoint{{Time: first, Spread: all}}}) },
		"waterfall": func() (*Figure, error) {
			return Waterfall(WaterfallData{Steps: []Step{{Name: "x", Amount: first, Total: true}, {Name: "y", Amount: xs[n-1]}}})
		},
		"differences": func() (*Figure, error) {
			var d DifferencesData
			for _, x := range xs {
				d.Rows = append(d.Rows, Difference{"x", Recommended, estimate(x, math.Abs(first))})
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
			return Sweep(SweepData{Curves: []SweepCurve{{Points: []SweepPoint{{X: first, Y: estimate(xs[n-1], 1)}}}}})
		},
		"frontier": func() (*Figure, error) {
			d := FrontierData{Log: n > 1, Floor: math.Abs(first), Limit: &Limit{first, "limit"}}
			for i, x := range xs {
				d.Points = append(d.Points, FrontierPoint{Label: letter(i), X: Range{Value: x}, Y: estimate(first, math.Abs(x))})
			}
			return Frontier(d)
		},
		"backlog": func() (*Figure, error) {
			return Fan(FanData{Zero: "all done", Points: []FanPoint{{first, "week 1", all}}})
		},
		"week": func() (*Figure, error) {
			end := math.Abs(first)
			return Week(WeekData{Length: end, Lanes: []Roster{{Name: "x", Ends: []float64{end}, Stints: []Stint{
				{0, 0, ChangingOver, "y", false}, {0, end, Producing, "y", false}, {end, end, Remaking, "z", true},
			}}}})
		},
		"completion": func() (*Figure, error) {
			return Completion(CompletionData{Jobs: []Finish{{Box{Name: "x", Spread: all, Min: first, Max: math.Inf(1)}, math.Abs(xs[n-1]), "y"}}})
		},
		"fates": func() (*Figure, error) {
			return Fates(FatesData{Parts: make([]Part, n), Bars: []FateBar{{"x", xs}}})
		},
		"heat": func() (*Figure, error) {
			return Heat(HeatData{Rows: []string{""}, Columns: make([]string, n), Cells: [][]float64{xs}})
		},
		"tornado": func() (*Figure, error) {
			return Tornado(TornadoData{Head: Head{Width: 6}, Inputs: []Input{{
				Name: "a long name for an input of this line", Lower: Change{Setting: "low setting", By: estimate(first, 1)}, Higher: Change{Setting: "high setting", By: estimate(xs[n-1], 1)},
			}}})
		},
	}
}
