package present

import (
	"cmp"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/plots"
)

// Report returns the lines as a page.
func (g Group) Report(version string) (*page.Report, error) {
	sample := page.Sample(g.Study)
	lines, about := g.Alternatives(), g.Origin.Scenario
	r := page.NewReport(version, page.Opening{
		Title: about.Name, Question: cmp.Or(about.Question, "How many good envelopes an hour do these lines deliver together?"),
		Answer:  sentences(netRateText(g.Study)) + " " + g.Finding(),
		Lead:    page.Partial(g.Study) + "Simulated: " + sample + ", with all lines; and each line by itself in the same shifts.",
		Command: g.Command + repeat(g.Study), Origins: []page.Origin{g.Origin}, Plan: &g.Study.Plan,
		Word: page.Period(lines[0].Study.Line), Most: len(g.Study.Shifts),
		Assumptions: page.Assumed(page.Basis{Scenario: about, Line: g.Study.Line, LineGroup: g.Of.Group}),
	})
	r.Add(plots.Section{
		Heading: "What the lines deliver", Text: g.aloneWords(),
		Figures: []*plots.Figure{r.Figure("distribution")(distribution(g.Finding(), sample, lines))},
		Tables:  []plots.Table{g.sharingFigures(), figuresTable(g.Study)},
	})
	why := plots.Section{Heading: "Where the rest goes", Text: whyText, Tables: []plots.Table{lossesTable(lines)}}
	for i, x := range lines {
		why.Figures = append(why.Figures,
			r.Figure(fileName("waterfall", i, x))(waterfall(say.Capital(x.Name), sample, x.Study)),
			r.Figure(fileName("stops", i, x))(pareto(say.Capital(x.Name), sample, x.Study)))
		why.Tables = append(why.Tables, stopsOf(x))
	}
	why.Tables = append(why.Tables, crewTable(lines))
	r.Add(why)
	if g.Uncertainty != nil {
		r.Add(uncertaintySection(r, g.Study, g.Uncertainty))
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// sharingFigures returns a row for each line, with what it is with the crew to itself.
func (g Group) sharingFigures() plots.Table {
	minutes := func(title string) plots.Column {
		return plots.Column{Title: title, Unit: "min a shift", Kind: plots.Number, Decimals: 1}
	}
	t := plots.Table{Name: "Sharing", Caption: "What sharing the crew costs: each line beside itself with as many people of its own, with 95 % intervals"}
	t.Columns = append([]plots.Column{{Title: "Line"}}, PerHourColumns("Net rate")...)
	t.Columns = append(t.Columns, PerHourColumns("Alone")...)
	t.Columns = append(t.Columns, PerHourColumns("Less")...)
	t.Columns = append(t.Columns, minutes("Waiting"), minutes("Waiting alone"))
	for i := range g.Lines {
		x := &g.Lines[i]
		shared, alone, cost := x.NetRate, x.Alone.NetRate, x.Alone.Cost
		waiting := func(of *runs.Study) plots.Entry {
			return page.Value(of.Sample(func(s *runs.Shift) float64 { return s.Waiting / 60 }).Mean())
		}
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.Name), page.Value(float64(shared.Mean)), page.UncertainInput(float64(shared.Half)), page.Value(float64(alone.Mean)), page.UncertainInput(float64(alone.Half)),
			page.Value(float64(cost.Mean)), page.UncertainInput(float64(cost.Half)), waiting(x.Study), waiting(x.Alone.Study),
		})
	}
	return t
}
