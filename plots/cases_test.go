package plots

import (
	"fmt"
	"math"
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
			return Distribution(DistributionData{h, "envelopes an hour", variants(n, name)})
		}},
		{"cumulative", func() (*Figure, error) { return Cumulative(cumulativeOf(h, n, name)) }},
		{"boxes", func() (*Figure, error) { return Boxes(boxesOf(h, n, name)) }},
		{"differences", func() (*Figure, error) { return Differences(differencesOf(h, n, name)) }},
		{"waterfall", func() (*Figure, error) { return Waterfall(waterfallOf(h, n, name)) }},
		{"pareto", func() (*Figure, error) { return Pareto(paretoOf(h, n, name)) }},
		{"fan", func() (*Figure, error) { return Fan(fanOf(h, n)) }},
		{"timeline", func() (*Figure, error) { return Timeline(timelineOf(h, n, name)) }},
		{"sweep", func() (*Figure, error) { return Sweep(sweepOf(h, n, name)) }},
		{"heat", func() (*Figure, error) { return Heat(heatOf(h, n, name)) }},
		{"tornado", func() (*Figure, error) { return Tornado(tornadoOf(h, n, name)) }},
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
		d.Curves = append(d.Curves, Values{v.Name, v.Values[:10]})
	}
	return d
}

func boxesOf(h Head, n int, name func(i int) string) BoxesData {
	d := BoxesData{Head: h, Axis: "envelopes an hour"}
	for _, v := range variants(n, name) {
		d.Rows = append(d.Rows, Box{v.Name, v.Spread, v.Spread.P5 - 50, v.Spread.P95 + 40})
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
		d.Rows = append(d.Rows, Difference{name(i), estimate(100*float64(i)-100, half)})
	}
	return d
}

func waterfallOf(h Head, n int, name func(i int) string) WaterfallData {
	d := WaterfallData{Head: h, Axis: "envelopes an hour", Steps: []Step{{"rated", 18000, true}}}
	left := 18000.0
	for i := range n {
		loss := -900 + 80*float64(i)
		left += loss
		d.Steps = append(d.Steps, Step{Name: name(i), Amount: loss})
	}
	d.Steps = append(d.Steps, Step{"good", left, true})
	return d
}

func paretoOf(h Head, n int, name func(i int) string) ParetoData {
	d := ParetoData{Head: h, Axis: "minutes a shift"}
	for i := range n {
		d.Causes = append(d.Causes, Cause{name(i), 40 / float64(1+i), fmt.Sprintf("%d stops", 3*i+1)})
	}
	return d
}

func fanOf(h Head, n int) FanData {
	d := FanData{Head: h, Time: "hours", Axis: "good envelopes"}
	for i := range n {
		m := 14000 * float64(i)
		d.Points = append(d.Points, FanPoint{float64(i), Percentiles{0.9 * m, 0.96 * m, m, 1.03 * m, 1.06 * m}})
	}
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
		}})
	}
	return d
}

func sweepOf(h Head, n int, name func(i int) string) SweepData {
	d := SweepData{Head: h, Parameter: "speed, cycles an hour", Axis: "envelopes an hour", Peak: &Peak{14000, 13000, 16000}}
	for i := range n {
		c := SweepCurve{Name: name(i)}
		for x := 10000.0; x <= 20000; x += 2500 {
			c.Points = append(c.Points, SweepPoint{x, estimate(12000-sq(x-14000)/1e4-500*float64(i), 90)})
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
		in := Input{name(i), "×½", "×2 " + name(i), x, -1.4 * x}
		if i == 1 {
			in.IfLower = -x
		}
		d.Inputs = append(d.Inputs, in)
	}
	return d
}
