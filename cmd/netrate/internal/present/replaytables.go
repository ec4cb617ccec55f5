package present

import (
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// testName returns what a test is about.
func (p Replay) testName(f runs.RecordFigure) string {
	switch f {
	case runs.AllStops:
		if p.Stocks {
			return "stops, with stocks"
		}
		return "stops for faults"
	case runs.AllSeconds:
		return "seconds stood for them"
	case runs.VaryingStops:
		return p.Period + "s differ: stops"
	case runs.VaryingSeconds:
		return p.Period + "s differ: seconds"
	}
	panic("netrate: a test of an unknown figure")
}

// writing returns how a figure is written.
func writing(f runs.RecordFigure) func(float64) string {
	if f == runs.VaryingStops || f == runs.VaryingSeconds {
		return func(v float64) string { return say.Rounded(v, -2) }
	}
	return amount
}

// amount returns how many stops or seconds there are.
func amount(v float64) string {
	if v >= 20 || v == float64(int64(v)) {
		return say.Rounded(v, 0)
	}
	return strings.TrimSuffix(say.Rounded(v, -1), ".0")
}

// besideColumns are the columns of a figure of the log and of the simulated records.
func besideColumns(unit string) (all []plots.Column) {
	for _, title := range []string{"In the log", "Simulated", "from", "to"} {
		all = append(all, plots.Column{Title: title, Unit: unit, Kind: plots.Number, Joined: len(all) > 0})
	}
	return all
}

func besideEntries(log float64, simulated sim.Sample, write func(float64) string) (all []plots.Entry) {
	low, high := study.ReplayMiddle(simulated)
	for _, v := range []float64{log, simulated.Mean(), low, high} {
		all = append(all, plots.Entry{Number: v, Shown: write(v)})
	}
	return all
}

// Figures returns a row for each test.
func (p Replay) Figures() plots.Table {
	t := plots.Table{
		Name: "Tests", Caption: "The log, and what 95 % of simulated records lie between.",
		Columns: slices.Concat([]plots.Column{{Title: "Test"}}, besideColumns(""),
			[]plots.Column{{Title: "P", Kind: plots.Number}, {Title: "Out of line"}}),
	}
	for _, test := range p.Tests {
		out := map[bool]string{true: "yes", false: "no"}[test.Out]
		t.Rows = append(t.Rows, slices.Concat([]plots.Entry{page.Words(p.testName(test.Figure))}, besideEntries(test.Log, test.Simulated, writing(test.Figure)),
			[]plots.Entry{{Number: test.P, Shown: probability(test.P)}, page.Words(out)}))
	}
	return t
}

// Stops returns a row for each station and cause: how often the line stood.
func (p Replay) Stops() plots.Table {
	t := plots.Table{
		Name: "Stops", Caption: "Stops of the log, and what 95 % of simulated records lie between.",
		Columns: slices.Concat([]plots.Column{{Title: "Station and cause"}}, besideColumns(""), []plots.Column{{Title: "Log has"}}),
	}
	for _, r := range p.Rows() {
		t.Rows = append(t.Rows, slices.Concat([]plots.Entry{page.Words(r.Station + ", " + r.Cause)}, besideEntries(float64(r.Log.Stops), r.Stops, amount),
			[]plots.Entry{page.Words(map[int]string{-1: "fewer", 1: "more"}[r.Side()])}))
	}
	return t
}

// Times returns a row for each station and cause: for how long the line stood.
func (p Replay) Times() plots.Table {
	t := plots.Table{
		Name: "Time stood", Caption: "For how long the line stood, and what 95 % of simulated records lie between.",
		Columns: slices.Concat([]plots.Column{{Title: "Station and cause"}}, besideColumns("s")),
	}
	for _, r := range p.Rows() {
		t.Rows = append(t.Rows, slices.Concat([]plots.Entry{page.Words(r.Station + ", " + r.Cause)}, besideEntries(float64(r.Log.Seconds), r.Seconds, amount)))
	}
	return t
}
