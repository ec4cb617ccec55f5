package present

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// Report returns the lines as a page.
func (g Group) Report(version string) (*page.Report, error) {
	sample := page.Sample(g.Study)
	lines, about := g.Alternatives(), g.Origin.Scenario
	r := page.NewReport(version, page.Opening{
		Title: about.Name, Question: cmp.Or(about.Question, "How many good envelopes an hour do these lines deliver together?"),
		Answer:  factSentences(g.found()...) + " " + g.Finding(),
		Lead:    page.Partial(g.Nominal) + "Simulated: " + sample + ", with all lines; and each line by itself in the same shifts.",
		Command: g.Command + repeat(g.Nominal), Origins: []page.Origin{g.Origin}, Plan: &g.Nominal.Plan,
		Word: page.Period(lines[0].Study.Line), Most: len(g.Nominal.Shifts),
		Assumptions: page.Assumed(page.Basis{Scenario: about, Line: g.Study.Line, LineGroup: g.Of.Group}),
	})
	r.Add(plots.Section{
		Heading: "What the lines deliver", Text: g.aloneWords(),
		Figures: []*plots.Figure{r.Figure("distribution")(spreads(g.delivered(), sample, lines, -1))},
		Tables:  []plots.Table{g.linesTable(), g.sharingTable(), figuresTable(g.Study)},
	})
	why := plots.Section{Heading: "Where the rest goes", Text: whyText, Tables: []plots.Table{lossesTable(lines)}}
	var others []*runs.Study // on one scale
	for _, x := range lines {
		others = append(others, x.Study)
	}
	for i, x := range lines {
		why.Figures = append(why.Figures,
			r.Figure(fileName("waterfall", i, x))(waterfall(say.Capital(x.Name), sample, x.Study, others...)),
			r.Figure(fileName("stops", i, x))(pareto(say.Capital(x.Name), sample, x.Study)))
		why.Tables = append(why.Tables, stopsTable(x))
	}
	why.Tables = append(why.Tables, crewTable(lines))
	r.Add(why)
	r.Add(exposureSection(lines))
	if g.Uncertainty != nil {
		r.Add(uncertaintySection(r, g.Nominal, g.Uncertainty))
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// delivered says what each line delivers.
func (g Group) delivered() string {
	var all []string
	for i := range g.Lines {
		all = append(all, fmt.Sprintf("%s %s", g.Lines[i].Name, rateOf(study.NetRateOf(g.Lines[i].Study)).Shown))
	}
	return "Good envelopes an hour: " + say.List(all)
}

// linesTable returns a row for each line and one for all.
func (g Group) linesTable() plots.Table {
	share := func(title, brief string) plots.Column {
		return plots.Column{Title: title, Kind: plots.Share, Decimals: 1, Brief: brief}
	}
	t := plots.Table{
		Name: "Lines", Caption: "What the lines deliver, with 95 % intervals, and what their time goes into; the crew’s own where it is busy",
		Columns: slices.Concat([]plots.Column{{Title: "Line", Brief: "Good envelopes/hour"}}, RateColumns("Net rate", "net rate"), []plots.Column{
			share("Running", "running"), share("Waiting and walking", "waiting"), share("Operator at work", "at work"),
			{Title: "Stops", Unit: "a shift", Kind: plots.Number, Brief: "stops"},
			share("Crew busy", "crew"),
		}),
	}
	for i := range g.Lines {
		t.Rows = append(t.Rows, g.lineRow(g.Lines[i].Name, g.Lines[i].Study, 1))
	}
	t.Rows = append(t.Rows, g.lineRow("all lines", g.Study, len(g.Lines)))
	return t
}

// lineRow returns what one or more lines came to: times as shares of the time of these lines, the
// crew's as a share of its own.
func (g Group) lineRow(name string, of *runs.Study, lines int) []plots.Entry {
	share := func(figure func(*runs.Shift) float64, whole float64) plots.Entry {
		e := of.Interval(figure, say.Level)
		return plots.Entry{Number: e.Mean / whole, Shown: say.Percent(e.Mean/whole, e.Half/whole)}
	}
	time := float64(of.Line.Shift) * float64(lines)
	stops := of.Interval(func(s *runs.Shift) float64 { return s.Stops }, say.Level)
	return slices.Concat([]plots.Entry{page.Words(name)}, estimated(of.IntervalOf(of.NetRates(), say.Level)), []plots.Entry{
		share(func(s *runs.Shift) float64 { return s.Running }, time),
		share(func(s *runs.Shift) float64 { return s.Waiting }, time),
		share(func(s *runs.Shift) float64 { return s.Working }, time),
		page.Bearing(stops.Mean, stops.Half),
		share(func(s *runs.Shift) float64 { return s.CrewBusy }, float64(of.Line.Shift)*of.Line.Crew.Attending(of.Line.Shift)),
	})
}

// sharingTable returns a row for each line, with what it is with the crew to itself.
func (g Group) sharingTable() plots.Table {
	minutes := func(title, brief string) []plots.Column {
		return estimateColumns(plots.Column{Title: title, Unit: "min a shift", Kind: plots.Number, Brief: brief})
	}
	t := plots.Table{
		Name: "Sharing", Caption: "What sharing the crew costs: each line sharing, and alone with as many people of its own, with 95 % intervals; waiting includes walking",
		Columns: slices.Concat([]plots.Column{{Title: "Line", Brief: "What sharing costs"}}, minutes("Waiting and walking", "waiting, min"), minutes("Alone", "alone"),
			RateColumns("Net rate", "net rate"), RateColumns("Alone", "alone"), RateColumns("Less", "costs")),
	}
	for i := range g.Lines {
		x := &g.Lines[i]
		waiting := func(m study.Mean) []plots.Entry {
			mean, half := float64(m.Mean)/60, float64(m.Half)/60
			return []plots.Entry{page.Bearing(mean, half), page.HalfWidth(half)}
		}
		t.Rows = append(t.Rows, slices.Concat([]plots.Entry{page.Words(x.Name)}, waiting(x.Waiting), waiting(x.Alone.Waiting),
			estimated(x.NetRate.Estimate()), estimated(x.Alone.NetRate.Estimate()), costing(x.Alone.Cost.Estimate())))
	}
	return t
}

// costing returns the entries of how much less a line delivers, which is nearly always something.
func costing(e sim.Estimate) []plots.Entry {
	cost := differing(e)
	cost[0].Shown = strings.TrimPrefix(cost[0].Shown, "+")
	return cost
}
