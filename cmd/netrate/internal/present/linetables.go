package present

import (
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// The tables of the reports, which are the sheets of the workbook too.

// figuresTable returns the figures of a shift, with their intervals.
func figuresTable(s *runs.Study) plots.Table {
	word := page.Period(s.Line)
	t := plots.Table{
		Name: "Figures of a " + word, Caption: "Means of a " + word + ", with 95 % intervals" + longRunWords(s) + ", and what nine " + word + "s in ten lie between",
		Columns: []plots.Column{
			{Title: "Figure"},
			{Title: "Unit"},
			{Title: "Mean", Kind: plots.Number, Decimals: 1},
			{Title: "±", Kind: plots.Number, Decimals: 1},
			{Title: "5th percentile", Kind: plots.Number, Decimals: 1},
			{Title: "95th percentile", Kind: plots.Number, Decimals: 1},
		},
	}
	for _, f := range study.FiguresOf(s.Line) {
		sample, half := s.Sample(f.Of).Sorted(), s.Interval(f.Of, say.Level).Half
		row := append([]plots.Entry{page.Words(strings.ReplaceAll(f.Name, "_", " ")), page.Words(f.Unit)}, figureEntries(s, f)...)
		t.Rows = append(t.Rows, append(row, page.Bearing(sample.Quantile(0.05), half), page.Bearing(sample.Quantile(0.95), half)))
	}
	return t
}

// lossesTable returns what each line loses, step by step.
func lossesTable(xs []study.LineAnswer) plots.Table {
	t := plots.Table{
		Name: "Losses", Caption: "From the rated speed to the net rate, envelopes an hour, means of all " + page.Period(xs[0].Study.Line) + "s",
		Columns: []plots.Column{{Title: "Step"}},
	}
	var all [][]runs.Loss
	var rated, net []plots.Entry
	for _, x := range xs {
		t.Columns = append(t.Columns, plots.Column{Title: x.Name, Unit: "an hour", Kind: plots.Number, Decimals: 1})
		from, losses, to := x.Study.Losses()
		all, rated, net = append(all, losses), append(rated, page.Value(from)), append(net, page.Value(to))
	}
	t.Rows = append(t.Rows, append([]plots.Entry{page.Words("rated speed")}, rated...))
	for _, name := range study.LossNames(all...) {
		row := []plots.Entry{page.Words(name)}
		for _, losses := range all {
			row = append(row, page.Value(0-study.LossOf(losses, name))) // no −0
		}
		t.Rows = append(t.Rows, row)
	}
	t.Rows = append(t.Rows, append([]plots.Entry{page.Words("net rate")}, net...))
	return t
}

// stopsOf returns what a line stands for, the costliest first.
func stopsOf(x study.LineAnswer) plots.Table {
	t := plots.Table{
		Name: "Stops " + x.Name, Caption: "Stops of a " + page.Period(x.Study.Line) + " by station and cause, means: " + x.Name,
		Columns: []plots.Column{
			{Title: "Station and cause"},
			{Title: "Stops", Kind: plots.Number, Decimals: 2},
			{Title: "Waiting", Unit: "min", Kind: plots.Number, Decimals: 2},
			{Title: "At work", Unit: "min", Kind: plots.Number, Decimals: 2},
			{Title: "Restarting", Unit: "min", Kind: plots.Number, Decimals: 2},
			{Title: "Together", Unit: "min", Kind: plots.Number, Decimals: 2},
		},
	}
	n := float64(len(x.Study.Shifts))
	minutes := func(s sim.Seconds) plots.Entry { return page.Value(float64(s) / 60 / n) }
	for _, c := range x.Study.StopCosts() {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(c.Name), page.Value(float64(c.Count) / n),
			minutes(c.Waiting), minutes(c.Working), minutes(c.Restarting), minutes(c.Total()),
		})
	}
	return t
}

// crewTable returns what each crew does.
func crewTable(xs []study.LineAnswer) plots.Table {
	share := func(title string) plots.Column {
		return plots.Column{Title: title, Unit: "of its time", Kind: plots.Share, Decimals: 1}
	}
	t := plots.Table{
		Name: "Crew", Caption: "What the crew does, walking included",
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Operators", Kind: plots.Number},
			share("Clearing faults"), share("Refilling, emptying"), share("Free"),
		},
	}
	for _, x := range xs {
		faults, stocks := study.CrewParts(x.Study)
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.Name), page.Value(float64(x.Study.Line.Crew.Operators)), page.Value(faults), page.Value(stocks), page.Value(1 - faults - stocks),
		})
	}
	return t
}
