package lines

import (
	"fmt"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// hallDocument is what several lines with one crew came to: what was run, and the answer.
type hallDocument struct {
	Format   int               `json:"netrate_json"`
	Version  string            `json:"version"`
	Scenario page.ScenarioJSON `json:"scenario"`
	*study.GroupRunAnswer
}

func (s *shared) document() *hallDocument {
	from := s.field.origins[0]
	return &hallDocument{page.JSONVersion, desk.Version(), page.ScenarioOf(from.Scenario, from.Text), s.GroupRunAnswer}
}

// report returns the lines as a page.
func (s *shared) report() (*page.Report, error) {
	sample := page.Sample(s.Study)
	o := s.field.opening(fmt.Sprintf(" --seed %d --reps %d", s.Study.Plan.Seed, len(s.Study.Shifts)), "How many good envelopes an hour do these lines deliver together?",
		sentences(netRate(s.Study))+" "+s.finding(), page.Partial(s.Study)+"Simulated: "+sample+", with all lines; and each line by itself in the same shifts.")
	o.Assumptions = page.Assumed(page.Basis{Scenario: s.field.base(), Line: s.Study.Line, Hall: s.Of.Group})
	r := page.NewReport(desk.Version(), o)
	r.Add(plots.Section{
		Heading: "What the lines deliver", Text: s.aloneWords(),
		Figures: []*plots.Figure{r.Figure("distribution")(distribution(s.finding(), sample, s.field.entrants))},
		Tables:  []plots.Table{s.sharingFigures(), figuresTable(s.Study)},
	})
	why := plots.Section{Heading: "Where the rest goes", Text: whyText, Tables: []plots.Table{lossesTable(s.field.entrants)}}
	for i, x := range s.field.entrants {
		why.Figures = append(why.Figures,
			r.Figure(fileName("waterfall", i, x))(waterfall(say.Capital(x.name), sample, x.study)),
			r.Figure(fileName("stops", i, x))(pareto(say.Capital(x.name), sample, x.study)))
		why.Tables = append(why.Tables, stopsOf(x))
	}
	why.Tables = append(why.Tables, crewTable(s.field.entrants))
	r.Add(why)
	if s.Uncertainty != nil {
		r.Add(doubtSection(r, s.Study, s.Uncertainty))
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// sharingFigures returns a row for each line, with what it is with the crew to itself.
func (s *shared) sharingFigures() plots.Table {
	minutes := func(title string) plots.Column {
		return plots.Column{Title: title, Unit: "min a shift", Kind: plots.Number, Decimals: 1}
	}
	t := plots.Table{Name: "Sharing", Caption: "What sharing the crew costs: each line beside itself with as many people of its own, with 95 % intervals"}
	t.Columns = append([]plots.Column{{Title: "Line"}}, present.PerHourColumns("Net rate")...)
	t.Columns = append(t.Columns, present.PerHourColumns("Alone")...)
	t.Columns = append(t.Columns, present.PerHourColumns("Less")...)
	t.Columns = append(t.Columns, minutes("Waiting"), minutes("Waiting alone"))
	for i, x := range s.field.entrants {
		shared, alone, cost := s.Lines[i].NetRate, s.Lines[i].Alone.NetRate, s.Lines[i].Alone.Cost
		waiting := func(of *runs.Study) plots.Entry {
			return page.Value(of.Sample(func(s *runs.Shift) float64 { return s.Waiting / 60 }).Mean())
		}
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.name), page.Value(float64(shared.Mean)), page.Doubt(float64(shared.Half)), page.Value(float64(alone.Mean)), page.Doubt(float64(alone.Half)),
			page.Value(float64(cost.Mean)), page.Doubt(float64(cost.Half)), waiting(x.study), waiting(s.Lines[i].Alone.Study),
		})
	}
	return t
}
