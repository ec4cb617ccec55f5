package present

import (
	"math"
	"slices"
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
		Name: "Losses", Caption: "From the rated speed to the net rate, envelopes an hour, means of all " + page.Period(xs[0].Study.Line) + "s. " +
			"The time of a stop is in three steps: until an operator is there, at work (refilling and emptying are those for which the line stands), and restarting",
		Columns: []plots.Column{{Title: "Step"}},
	}
	var all [][]runs.Loss
	var rated, net []plots.Entry
	for _, x := range xs {
		t.Columns = append(t.Columns, plots.Column{Title: x.Name, Unit: "an hour", Kind: plots.Number})
		from, losses, to := x.Study.Losses()
		end := rateOf(study.NetRateOf(x.Study)) // as all of the page has it
		end.Number = to
		all, rated, net = append(all, losses), append(rated, page.Value(from)), append(net, end)
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

// stopsTable returns what a line stands for, the costliest first.
func stopsTable(x study.LineAnswer) plots.Table {
	word, all := page.Period(x.Study.Line), float64(x.Study.Total.Stopped().Count)
	n := float64(len(x.Study.Shifts))
	minutes := func(title, brief string) plots.Column {
		return plots.Column{Title: title, Unit: "min", Kind: plots.Number, Decimals: 2, Brief: brief}
	}
	t := plots.Table{
		Name: "Stops " + x.Name, Caption: "Stops of a " + word + " by station and cause, means: " + x.Name + ". Together is with waiting and restarting",
		Columns: []plots.Column{
			{Title: "Station and cause", Brief: "Costliest of " + say.Rough(all/n, 2*math.Sqrt(all)/n) + " stops a " + word},
			{Title: "Stops", Kind: plots.Number, Decimals: 2, Brief: "times"},
			minutes("Waiting", ""), minutes("At work", ""), minutes("Restarting", ""), minutes("Together", "minutes"),
		},
	}
	for _, c := range x.Study.StopCosts() {
		known := 2 / math.Sqrt(float64(c.Count)) // its uncertainty as a share, if stops come at random
		mean := func(x float64) plots.Entry { return page.Bearing(x/n, known*x/n) }
		minutes := func(s sim.Seconds) plots.Entry { // all with the digits of their sum
			return page.Bearing(float64(s)/60/n, known*float64(c.Total())/60/n)
		}
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(c.Name), mean(float64(c.Count)), minutes(c.Waiting), minutes(c.Working), minutes(c.Restarting), mean(float64(c.Total()) / 60),
		})
	}
	return t
}

// stopsText returns the stops that cost most, up to a number of them, as a screen has them.
func stopsText(s *runs.Study, most int) string {
	t := stopsTable(study.LineAnswer{Study: s})
	if len(t.Rows) == 0 {
		return "No stops\n"
	}
	t.Rows = t.Rows[:min(len(t.Rows), max(0, most))]
	return brief(t)
}

// crewTable returns what each crew does.
func crewTable(xs []study.LineAnswer) plots.Table {
	share := func(title string) plots.Column {
		return plots.Column{Title: title, Unit: "of its time", Kind: plots.Share, Decimals: 1}
	}
	t := plots.Table{
		Name: "Crew", Caption: "What the crew does, walking included. Refilling and emptying are all of it, also while the line runs",
		Columns: []plots.Column{
			{Title: "Line"},
			{Title: "Operators", Kind: plots.Number},
			share("Clearing faults"), share("Refilling, emptying"), share("Free"),
		},
	}
	for _, x := range xs {
		faults, stocks := study.CrewParts(x.Study)
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.Name), page.Value(x.Study.Line.Crew.Mean(x.Study.Line.Shift)), page.Value(faults), page.Value(stocks), page.Value(1 - faults - stocks),
		})
	}
	return t
}

// paperTables returns what the difference between the simulation and the sum on paper is made of; no
// table if that is not known.
func paperTables(g *study.PaperGap) []plots.Table {
	if g == nil {
		return nil
	}
	t := plots.Table{
		Name: "On paper", Caption: "Why the simulation delivers more (+) or less than the sum on paper, at nominal values, with 95 % intervals; the parts add up",
		Columns: append([]plots.Column{{Title: "Part"}}, estimateColumns(plots.Column{Title: "Envelopes", Unit: "an hour", Kind: plots.Number})...),
	}
	for _, x := range append(slices.Clone(g.Parts), study.PaperPart{Name: "simulated less on paper", Mean: g.Whole}) {
		t.Rows = append(t.Rows, append([]plots.Entry{page.Words(x.Name)}, differing(x.Estimate())...))
	}
	return []plots.Table{t}
}
