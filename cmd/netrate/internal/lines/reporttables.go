package lines

import (
	"fmt"
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
		Name: "Figures of a " + word, Caption: "Means of a " + word + ", with 95 % intervals, and what nine " + word + "s in ten lie between",
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
		sample := s.Sample(f.Of)
		half := sample.Interval(say.Level).Half
		row := append([]plots.Entry{page.Words(strings.ReplaceAll(f.Name, "_", " ")), page.Words(f.Unit)}, figureEntries(s, f)...)
		t.Rows = append(t.Rows, append(row, page.Bearing(sample.Quantile(0.05), half), page.Bearing(sample.Quantile(0.95), half)))
	}
	return t
}

// lossesTable returns what each line loses, step by step.
func lossesTable(xs []entrant) plots.Table {
	t := plots.Table{
		Name: "Losses", Caption: "From the rated speed to the net rate, envelopes an hour, means of all " + page.Period(xs[0].line) + "s",
		Columns: []plots.Column{{Title: "Step"}},
	}
	var all [][]runs.Loss
	var rated, net []plots.Entry
	for _, x := range xs {
		t.Columns = append(t.Columns, plots.Column{Title: x.name, Unit: "an hour", Kind: plots.Number, Decimals: 1})
		from, losses, to := x.study.Losses()
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
func stopsOf(x entrant) plots.Table {
	t := plots.Table{
		Name: "Stops " + x.name, Caption: "Stops of a " + page.Period(x.line) + " by station and cause, means: " + x.name,
		Columns: []plots.Column{
			{Title: "Station and cause"},
			{Title: "Stops", Kind: plots.Number, Decimals: 2},
			{Title: "Waiting", Unit: "min", Kind: plots.Number, Decimals: 2},
			{Title: "At work", Unit: "min", Kind: plots.Number, Decimals: 2},
			{Title: "Restarting", Unit: "min", Kind: plots.Number, Decimals: 2},
			{Title: "Together", Unit: "min", Kind: plots.Number, Decimals: 2},
		},
	}
	n := float64(len(x.study.Shifts))
	minutes := func(s sim.Seconds) plots.Entry { return page.Value(float64(s) / 60 / n) }
	for _, c := range x.study.StopCosts() {
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(c.Name), page.Value(float64(c.Count) / n),
			minutes(c.Waiting), minutes(c.Working), minutes(c.Restarting), minutes(c.Total()),
		})
	}
	return t
}

// crewTable returns what each crew does.
func crewTable(xs []entrant) plots.Table {
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
		faults, stocks := study.CrewParts(x.study)
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.name), page.Value(float64(x.line.Crew.Operators)), page.Value(faults), page.Value(stocks), page.Value(1 - faults - stocks),
		})
	}
	return t
}

// changesTable returns what the lines are, a row for each change.
func changesTable(f *field) plots.Table {
	t := plots.Table{Name: "Lines", Caption: "The lines and what is changed in them", Columns: []plots.Column{{Title: "Line"}, {Title: "What it is"}}}
	for i, x := range f.entrants {
		said := x.changes
		switch {
		case i == 0 || len(f.origins) > 1:
			said = []string{lineInShort(x)}
		case x.note != "":
			said = append([]string{x.note + ":"}, x.changes...)
		case len(said) == 0:
			said = []string{"as the base"}
		}
		for n, text := range said {
			name := x.name
			if n > 0 {
				name = ""
			}
			t.Rows = append(t.Rows, []plots.Entry{page.Words(name), page.Words(text)})
		}
	}
	return t
}

func lineInShort(x entrant) string {
	if x.hall != nil {
		var names []string
		for _, l := range x.hall.Lines {
			names = append(names, l.Name)
		}
		return fmt.Sprintf("%s with one crew of %s", say.List(names), say.Plural(x.line.Crew.Operators, "operator"))
	}
	if x.mix != nil {
		return fmt.Sprintf("%s; set up for %s, %s", page.StationList(x.line), say.Plural(len(x.mix.Setups), "job"), say.Plural(x.line.Crew.Operators, "operator"))
	}
	return fmt.Sprintf("%s; %s cycles an hour, %s", page.StationList(x.line), say.Exact(x.line.RunSpeed()), say.Plural(x.line.Crew.Operators, "operator"))
}
