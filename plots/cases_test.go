package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/sim"
)

// The data of these tests are invented. A draw is one chart of them.
type draw struct {
	name   string
	figure func() (*Figure, error)
}

// draws returns every chart with n variants, rows or points, named by name.
func draws(h Head, n int, name func(i int) string) []draw {
	return []draw{
		{"distribution", func() (*Figure, error) {
			return Distribution(DistributionData{Head: h, Axis: "envelopes an hour", Variants: variants(n, name)})
		}},
		{"cumulative", func() (*Figure, error) { return Cumulative(cumulativeOf(h, n, name)) }},
		{"band", func() (*Figure, error) { return Cumulative(bandedOf(h, n, name)) }},
		{"boxes", func() (*Figure, error) { return Boxes(boxesOf(h, n, name)) }},
		{"differences", func() (*Figure, error) { return Differences(differencesOf(h, n, name)) }},
		{"waterfall", func() (*Figure, error) { return Waterfall(waterfallOf(h, n, name)) }},
		{"stops", func() (*Figure, error) { return Stops(stopsOf(h, n, name)) }},
		{"states", func() (*Figure, error) { return States(statesOf(h, n, name)) }},
		{"quantiles", func() (*Figure, error) { return Quantiles(quantilesOf(h, n)) }},
		{"rates", func() (*Figure, error) { return Rates(ratesOf(h, n, name)) }},
		{"pareto", func() (*Figure, error) { return Pareto(paretoOf(h, n, name)) }},
		{"fan", func() (*Figure, error) { return Fan(fanOf(h, n)) }},
		{"timeline", func() (*Figure, error) { return Timeline(timelineOf(h, n, name)) }},
		{"levels", func() (*Figure, error) { return Levels(levelsOf(h, n, name)) }},
		{"raster", func() (*Figure, error) { return Raster(rasterOf(h, n, name)) }},
		{"reach", func() (*Figure, error) { return Cumulative(reachOf(h, n, name)) }},
		{"layout", func() (*Figure, error) { return Layout(layoutOf(h, n, name)) }},
		{"sweep", func() (*Figure, error) { return Sweep(sweepOf(h, n, name)) }},
		{"heat", func() (*Figure, error) { return Heat(heatOf(h, n, name)) }},
		{"tornado", func() (*Figure, error) { return Tornado(tornadoOf(h, n, name)) }},
		{"frontier", func() (*Figure, error) { return Frontier(frontierOf(h, n, name)) }},
		{"fates", func() (*Figure, error) { return Fates(fatesOf(h, n, name)) }},
		{"recovery", func() (*Figure, error) { return Recovery(recoveryOf(h, n, name)) }},
		{"coverage", func() (*Figure, error) { return Coverage(coverageOf(h, n, name)) }},
		{"backlog", func() (*Figure, error) { return Fan(backlogOf(h, n, name)) }},
		{"week", func() (*Figure, error) { return Week(weekOf(h, n, name)) }},
		{"people", func() (*Figure, error) { return Week(peopleOf(h, n, name)) }},
		{"completion", func() (*Figure, error) { return Completion(completionOf(h, n, name)) }},
	}
}

func plainName(i int) string { return fmt.Sprintf("variant %d", i+1) }

func longName(i int) string {
	return fmt.Sprintf("variant %d with a name & a <remark> that is far too long for its column ", i+1) +
		strings.Repeat("Zuführstation", 12)
}

func estimate(mean, half float64) sim.Estimate {
	return sim.Estimate{Mean: mean, Half: half, Level: 0.95, N: 100}
}

func variants(n int, name func(i int) string) []Variant {
	var vs []Variant
	for i := range n {
		m := 14000 + 100*float64(i)
		v := Variant{Name: name(i), Spread: Percentiles{m - 180, m - 80, m, m + 70, m + 150}, Mean: estimate(m, 12.3)}
		for k := range 40 {
			v.Values = append(v.Values, m+200*math.Sin(float64(k)))
		}
		vs = append(vs, v)
	}
	return vs
}

func cumulativeOf(h Head, n int, name func(i int) string) CumulativeData {
	d := CumulativeData{Head: h, Axis: "envelopes an hour"}
	for _, v := range variants(n, name) {
		d.Curves = append(d.Curves, Values{Name: v.Name, Values: v.Values[:10]})
	}
	return d
}

// bandedOf has one curve with a band of n steps.
func bandedOf(h Head, n int, name func(i int) string) CumulativeData {
	d := cumulativeOf(h, min(n, 1), name)
	d.Band.Name = "95 % of " + name(n)
	for i := range n {
		part := float64(i) / float64(n)
		d.Band.Steps = append(d.Band.Steps, BandStep{From: 13800 + 400*part, Low: max(0, part-0.2), High: min(1, part+0.3)})
	}
	return d
}

func boxesOf(h Head, n int, name func(i int) string) BoxesData {
	d := BoxesData{Head: h, Axis: "envelopes an hour"}
	for _, v := range variants(n, name) {
		d.Rows = append(d.Rows, Box{v.Name, Recommended, v.Spread, v.Spread.P5 - 50, v.Spread.P95 + 40})
	}
	return d
}

func differencesOf(h Head, n int, name func(i int) string) DifferencesData {
	d := DifferencesData{Head: h, Axis: "difference, envelopes an hour"}
	for i := range n {
		half := 60.0
		if i == 4 {
			half = math.Inf(1)
		}
		d.Rows = append(d.Rows, Difference{name(i), Role(i), estimate(100*float64(i)-100, half)})
	}
	return d
}

func waterfallOf(h Head, n int, name func(i int) string) WaterfallData {
	d := WaterfallData{Head: h, Axis: "envelopes an hour", Steps: []Step{{Name: "rated", Amount: 18000, Total: true}}}
	left := 18000.0
	for i := range n {
		loss := -900 + 80*float64(i)
		left += loss
		d.Steps = append(d.Steps, Step{Name: name(i), Amount: loss})
	}
	d.Steps = append(d.Steps, Step{Name: "good", Amount: left, Total: true})
	return d
}

func paretoOf(h Head, n int, name func(i int) string) ParetoData {
	d := ParetoData{Head: h, Axis: "minutes a shift"}
	for i := range n {
		d.Causes = append(d.Causes, Cause{name(i), 40 / float64(1+i), fmt.Sprintf("%d stops", 3*i+1)})
	}
	return d
}

// stopsOf has min(n, 3) lines and n causes.
func stopsOf(h Head, n int, name func(i int) string) StopsData {
	d := StopsData{Head: h, Axis: "minutes a shift"}
	for i := range min(n, 3) {
		d.Lines = append(d.Lines, Named{name(i), Role(i)})
	}
	for i := range n {
		x := StopCause{Name: name(i)}
		for k := range d.Lines {
			x.Amounts = append(x.Amounts, 40/float64(1+i+2*k))
			x.Details = append(x.Details, fmt.Sprintf("%d stops", 3*i+1))
		}
		d.Causes = append(d.Causes, x)
	}
	return d
}

func statesOf(h Head, n int, name func(i int) string) StatesData {
	d := StatesData{Head: h, Axis: "minutes a shift"}
	for i := range n {
		row := StatesRow{Name: name(i), Times: map[State]float64{Running: 320 - 4*float64(i)}}
		for s := Waiting; s < states; s++ {
			row.Times[s] = 2 + 11*float64(s)
		}
		d.Rows = append(d.Rows, row)
	}
	return d
}

func quantilesOf(h Head, n int) QuantilesData {
	d := QuantilesData{Head: h, Seen: "in the log, seconds", Expected: "as expected, seconds"}
	for i := range 5 * n {
		x := 20 + 4*float64(i)
		d.Points = append(d.Points, QuantilePoint{x, x + 0.01*sq(x-60)})
	}
	return d
}

func ratesOf(h Head, n int, name func(i int) string) RatesData {
	d := RatesData{Head: h, Axis: "faults in a million feeds"}
	for i := range n {
		x := 20 * math.Pow(2.5, float64(i))
		r := RateRow{name(i), Range{x, 0.6 * x, 1.5 * x}, "1 in 5,000"}
		if i == 1 {
			r.Rate, r.Says = Range{High: 30}, "none in 100,000"
		}
		d.Rows = append(d.Rows, r)
	}
	return d
}

func fanOf(h Head, n int) FanData {
	d := FanData{Head: h, Time: "hours", Axis: "good envelopes"}
	for i := range n {
		m := 14000 * float64(i)
		d.Points = append(d.Points, FanPoint{Time: float64(i), Spread: Percentiles{0.9 * m, 0.96 * m, m, 1.03 * m, 1.06 * m}})
	}
	return d
}

// layoutOf has every look and every change, as far as n goes.
func layoutOf(h Head, n int, name func(i int) string) LayoutData {
	d := LayoutData{Head: h, Cost: "lost an hour"}
	other := OtherLayout{Name: name(1), Says: "what is different in " + name(2)}
	for i := range n {
		s := Placed{Name: name(i), Kind: "kind " + name(i), Look: Look(i) % looksOfStations, At: 2 * float64(i), Rated: "12,000/h", Cost: 37 * float64(i%5)}
		d.Stations = append(d.Stations, s)
		if s.Change = LayoutChange(i) % layoutChanges; s.Change == Moved {
			s.Before, s.At = s.At, s.At+1
		}
		other.Stations = append(other.Stations, s)
	}
	if n > 0 {
		d.Others = []OtherLayout{other}
	}
	return d
}

func levelsOf(h Head, n int, name func(i int) string) LevelsData {
	d := LevelsData{Head: h, Axis: "hours", Length: 8}
	for i := range n {
		s := StockLevels{Name: name(i), Note: "least 4 % " + name(i), Capacity: 500, Warn: 100, Levels: []LevelAt{{0, 500, 500}}}
		for k := range n {
			at := 8 * (float64(k) + 0.9) / float64(n)
			s.Levels = append(s.Levels, LevelAt{at, 40 * float64(i), 500})
		}
		d.Stocks = append(d.Stocks, s)
	}
	return d
}

func rasterOf(h Head, n int, name func(i int) string) RasterData {
	d := RasterData{Head: h, Axis: "time of day, h", From: 6, To: 22, Once: "a stop", Span: "a burst", LeftOut: 4}
	for i := range n {
		r := RasterRow{Name: name(i), Note: "25 stops " + name(i), Spans: []PlannedRange{{6 + float64(i)/float64(n), 7 + float64(i)/float64(n), name(i)}}}
		for k := range n {
			r.At = append(r.At, 6+16*float64(k)/float64(n))
		}
		d.Rows = append(d.Rows, r)
	}
	return d
}

func reachOf(h Head, n int, name func(i int) string) CumulativeData {
	d := cumulativeOf(h, n, name)
	d.Reach = &Threshold{14_100, "target 14,100"}
	return d
}

func timelineOf(h Head, n int, name func(i int) string) TimelineData {
	d := TimelineData{Head: h, Axis: "hours", Length: 8}
	for i := range n {
		at := 0.3 * float64(i)
		d.Lanes = append(d.Lanes, Lane{name(i), "1 stop, 15.0 min " + name(i), []Span{
			{at, at + 0.05, Waiting},
			{at + 0.05, at + 0.2, Working},
			{at + 0.2, at + 0.25, Restarting},
			{at + 0.25, 7, Running},
			{7, 7.5, Starved},
			{7.5, 8, Planned},
		}, nil})
	}
	if n > 1 {
		queue := Lane{Name: name(0), Queue: []Count{{0, 1}, {2.2, 2}, {2.4, 0}, {2.9, 1}}}
		d.Close = &Closeup{From: 2, To: 3, Axis: "hours, the third enlarged", Lanes: append(slices.Clone(d.Lanes[:2]), queue)}
	}
	return d
}

func sweepOf(h Head, n int, name func(i int) string) SweepData {
	d := SweepData{Head: h, Parameter: "speed, cycles an hour", Axis: "envelopes an hour", Peak: &Peak{14000, 13000, 16000}}
	for i := range n {
		c := SweepCurve{Name: name(i)}
		for x := 10000.0; x <= 20000; x += 2500 {
			c.Points = append(c.Points, SweepPoint{X: x, Y: estimate(12000-sq(x-14000)/1e4-500*float64(i), 90)})
		}
		d.Curves = append(d.Curves, c)
	}
	return d
}

func sq(x float64) float64 { return x * x }

func heatOf(h Head, n int, name func(i int) string) HeatData {
	d := HeatData{Head: h, Axis: "envelopes an hour", Across: "speed", Up: "operators", Best: &Cell{0, n - 1}}
	for i := range n {
		d.Columns, d.Rows = append(d.Columns, name(i)), append(d.Rows, name(i))
		var row []float64
		for k := range n {
			row = append(row, 9000+500*float64(k)-300*float64(i))
		}
		d.Cells = append(d.Cells, row)
	}
	if n > 1 {
		d.Cells[1][0] = math.NaN()
	}
	return d
}

func tornadoOf(h Head, n int, name func(i int) string) TornadoData {
	d := TornadoData{Head: h, Axis: "change, envelopes an hour"}
	for i := range n {
		x := 900 / float64(i+1)
		in := Input{name(i), Change{Setting: "×½", By: estimate(x, 90)}, Change{Setting: "×2 " + name(i), By: estimate(-1.4*x, 90)}}
		switch i {
		case 1:
			in.Lower.By.Mean = -x
		case 2:
			in.Lower = Change{Not: "not run"}
		}
		d.Inputs = append(d.Inputs, in)
	}
	return d
}

func frontierOf(h Head, n int, name func(i int) string) FrontierData {
	d := FrontierData{
		Head: h, Across: "defective envelopes in a million delivered", Up: "envelopes an hour",
		Log: true, Floor: 0.01, Limit: &Limit{2, "accepted: 2 in a million"},
	}
	for i := range n {
		x := 0.3 * math.Pow(2.2, float64(i-1))
		if i == 0 {
			x = 0
		}
		d.Points = append(d.Points, FrontierPoint{
			Label: letter(i), Name: name(i), X: Range{x, 0.5 * x, 2*x + 0.4},
			Y: estimate(12000+300*math.Sqrt(x), 40), Frontier: i != 1, Best: i == 2,
		})
	}
	return d
}

func fatesOf(h Head, n int, name func(i int) string) FatesData {
	d := FatesData{Head: h, Axis: "sets in a thousand started"}
	fates := []string{"defective", "diverted", "outsorted", "spoiled"}
	for i := range n {
		d.Parts = append(d.Parts, Part{fates[i*len(fates)/n], name(i)})
	}
	for i := range n {
		b := FateBar{Name: name(i)}
		for k := range n {
			b.Amounts = append(b.Amounts, float64(k*k)*0.8+0.002*float64(1+i))
		}
		d.Bars = append(d.Bars, b)
	}
	return d
}

func recoveryOf(h Head, n int, name func(i int) string) RecoveryData {
	d := RecoveryData{Head: h}
	for i := range n {
		d.Stations = append(d.Stations, name(i))
		c := Cycle{Name: fmt.Sprintf("cycle %d", i+1), Note: name(i)}
		for k := range n {
			if p := (Pocket{Text: name(k), Condition: Condition((i + k) % int(conditions))}); k <= i {
				p.Set = fmt.Sprintf("set %d", i-k+1)
				c.Pockets = append(c.Pockets, p)
			} else {
				c.Pockets = append(c.Pockets, Pocket{Condition: p.Condition})
			}
		}
		d.Cycles = append(d.Cycles, c)
	}
	return d
}

func coverageOf(h Head, n int, name func(i int) string) CoverageData {
	d := CoverageData{Head: h}
	for k := range min(n, mostLines) {
		d.Lines = append(d.Lines, name(k))
	}
	for i := range n {
		d.Jobs = append(d.Jobs, name(i))
		var row []Ability
		for k := range d.Lines {
			row = append(row, Ability{Runs: i != 1 && (i+k)%3 > 0, Why: name(k)})
			if row[k].Runs {
				row[k].Says = "12,000/h"
			}
		}
		d.Cells = append(d.Cells, row)
	}
	return d
}

func backlogOf(h Head, n int, name func(i int) string) FanData {
	d := FanData{Head: h, Time: "end of the week", Axis: "sets not yet done", Of: Runs{"season", "seasons"}, Zero: "all done"}
	for i := range n {
		m := 50000 * float64(n-1-i)
		d.Points = append(d.Points, FanPoint{float64(i), name(i), Percentiles{0.8 * m, 0.9 * m, m, 1.2 * m, 1.2*m + 4000}})
	}
	return d
}

func weekOf(h Head, n int, name func(i int) string) WeekData {
	d := WeekData{Head: h, Axis: "hours from the start of the shift", Length: 10}
	for i := range n {
		l := Roster{Name: name(i), Note: "312,400 sets " + name(i), Ends: []float64{8}}
		for k := range n {
			at := 8 / float64(n) * float64(k)
			part := func(from, to float64, a Activity) Stint {
				return Stint{From: at + from*8/float64(n), To: at + to*8/float64(n), Activity: a, Job: name(k)}
			}
			l.Stints = append(l.Stints, part(0, 0.1, ChangingOver), part(0.1, 0.7, Producing), part(0.7, 0.8, Remaking), part(0.8, 1, Pausing))
		}
		l.Stints = append(l.Stints, Stint{8, 8.5, Producing, name(n), true}, Stint{8.5, 9, Idling, "", true})
		d.Lanes = append(d.Lanes, l)
	}
	return d
}

func peopleOf(h Head, n int, name func(i int) string) WeekData {
	d := weekOf(h, n, name)
	d.Lanes = d.Lanes[:min(2, n)]
	for i := range n {
		l := Attendance{Name: name(i), Note: "36 h " + name(i), Breaks: []float64{2, 5}}
		for k := range 5 {
			s := Attended{From: 2 * float64(k), To: 2 * float64(k+1), Presence: Presence((i + k/2) % int(presences))}
			if s.Presence != OfCrew {
				s.By = "one is sick " + name(i)
			}
			s.Extra = k == 4 && s.Presence == Chosen
			l.Shifts = append(l.Shifts, s)
		}
		d.People = append(d.People, l)
	}
	return d
}

func completionOf(h Head, n int, name func(i int) string) CompletionData {
	d := CompletionData{Head: h, Axis: "days from the start", Of: Runs{"season", "seasons"}}
	for i := range n {
		m := 4 + 3*float64(i)
		j := Finish{Box{name(i), Recommended, Percentiles{m - 1, m - 0.5, m, m + 0.7, m + 1.4}, m - 1.2, m + 2}, m + 1, "in time in 93 % " + name(i)}
		switch i {
		case 1:
			j.Due = 0
		case 2:
			j.Spread.P95, j.Max = math.Inf(1), math.Inf(1)
		}
		d.Jobs = append(d.Jobs, j)
	}
	return d
}
