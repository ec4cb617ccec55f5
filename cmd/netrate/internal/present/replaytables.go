package present

import (
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// testName returns what a test is about.
func (p Replay) testName(f model.RecordFigure) string {
	switch f {
	case model.AllStops:
		if p.Stocks {
			return "stops, stocks among them"
		}
		return "stops for faults"
	case model.AllSeconds:
		return "seconds stood for them"
	case model.VaryingStops:
		return p.Period + "s differ: stops"
	case model.VaryingSeconds:
		return p.Period + "s differ: seconds"
	}
	panic("netrate: a test of an unknown figure")
}

// testRows returns the table of the tests.
func (p Replay) testRows() [][]string {
	rows := [][]string{{"", "log", "simulated", "95 % of them", "P", ""}}
	for _, t := range p.Tests {
		write := writing(t.Figure)
		mark := ""
		if t.Out {
			mark = "out of line"
		}
		low, high := study.ReplayMiddle(t.Simulated)
		rows = append(rows, []string{
			p.testName(t.Figure), write(t.Log), write(t.Simulated.Mean()), write(low) + " to " + write(high), probability(t.P), mark,
		})
	}
	return rows
}

// causeRows returns the table of the stations and their faults.
func causeRows(of []study.ReplayRow) [][]string {
	rows := [][]string{{"stops", "log", "simulated", "95 % of them", ""}}
	for _, r := range of {
		mark := map[int]string{-1: "log: fewer", 1: "log: more"}[r.Side()]
		low, high := study.ReplayMiddle(r.Stops)
		rows = append(rows, []string{rowName(r), say.Thousands(r.Log.Stops), amount(r.Stops.Mean()), amount(low) + " to " + amount(high), mark})
	}
	return rows
}

func rowName(r study.ReplayRow) string { return r.Station + ", " + r.Cause }

// writing returns how a figure is written.
func writing(f model.RecordFigure) func(float64) string {
	if f == model.VaryingStops || f == model.VaryingSeconds {
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

// simulatedColumns are the columns of a figure of the log and of the simulated records.
func simulatedColumns(of, unit string) (all []plots.Column) {
	for _, title := range []string{of + " of the log", "Simulated " + strings.ToLower(of), "95 % from", "95 % to"} {
		all = append(all, plots.Column{Title: title, Unit: unit, Kind: plots.Number})
	}
	return all
}

func simulatedEntries(log float64, simulated sim.Sample, write func(float64) string) (all []plots.Entry) {
	low, high := study.ReplayMiddle(simulated)
	for _, v := range []float64{log, simulated.Mean(), low, high} {
		all = append(all, plots.Entry{Number: v, Shown: write(v)})
	}
	return all
}

// testTable returns a row for each test.
func (p Replay) testTable() plots.Table {
	t := plots.Table{
		Name: "Tests", Caption: "The log among simulated records. Where periods differ, 1 is what chance makes on average.",
		Columns: slices.Concat([]plots.Column{{Title: "Test"}}, simulatedColumns("Figure", ""),
			[]plots.Column{{Title: "P", Kind: plots.Number}, {Title: "Out of line"}}),
	}
	for _, test := range p.Tests {
		t.Rows = append(t.Rows, slices.Concat([]plots.Entry{page.Words(p.testName(test.Figure))}, simulatedEntries(test.Log, test.Simulated, writing(test.Figure)),
			[]plots.Entry{{Number: test.P, Shown: probability(test.P)}, page.Words(yesOrNo(test.Out))}))
	}
	return t
}

// causeTable returns a row for each station and cause.
func (p Replay) causeTable() plots.Table {
	t := plots.Table{
		Name: "Stops", Caption: "Stops of the log, and of simulated records.",
		Columns: slices.Concat([]plots.Column{{Title: "Station and cause"}}, simulatedColumns("Stops", ""),
			[]plots.Column{{Title: "Outside"}}, simulatedColumns("Time", "s")),
	}
	for _, r := range p.Rows() {
		t.Rows = append(t.Rows, slices.Concat([]plots.Entry{page.Words(rowName(r))}, simulatedEntries(float64(r.Log.Stops), r.Stops, amount),
			[]plots.Entry{page.Words(yesOrNo(r.Side() != 0))}, simulatedEntries(float64(r.Log.Seconds), r.Seconds, amount)))
	}
	return t
}

func yesOrNo(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}
