package lines

import (
	"fmt"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/plots"
)

// hallDocument is what several lines with one crew came to.
type hallDocument struct {
	Format    int               `json:"netrate_json"`
	Version   string            `json:"version"`
	Scenario  page.ScenarioJSON `json:"scenario"`
	Settings  page.SettingsJSON `json:"settings"`
	Operators int               `json:"operators"`
	NetRate   page.NetRateJSON  `json:"net_rate"` // of all lines together
	CrewBusy  page.MeanJSON     `json:"crew_busy_share"`
	Cost      page.MeanJSON     `json:"sharing_costs_per_h"`
	Lines     []hallLineJSON    `json:"lines"`
	Doubt     *doubtJSON        `json:"doubt,omitempty"` // if something is in doubt, and was drawn
}

type hallLineJSON struct {
	lineJSON               // the crew's share of its time is that for this line
	Running  page.MeanJSON `json:"running_s"` // of the shift
	Waiting  page.MeanJSON `json:"waiting_s"`
	Working  page.MeanJSON `json:"working_s"`
	Stops    page.MeanJSON `json:"stops"`
	Alone    aloneJSON     `json:"alone"`
}

// aloneJSON is the line with as many people to itself.
type aloneJSON struct {
	NetRate page.NetRateJSON `json:"net_rate"`
	Waiting page.MeanJSON    `json:"waiting_s"`
	Cost    page.MeanJSON    `json:"sharing_costs_per_h"`
}

func (s *shared) document() *hallDocument {
	from, busy, cost := s.field.origins[0], crewBusy(s.all), s.costOfAll()
	doc := &hallDocument{
		Format: page.JSONVersion, Version: desk.Version(),
		Scenario:  page.ScenarioOf(from.Scenario, from.Text),
		Settings:  page.SettingsOf(s.all.Plan, len(s.all.Shifts), s.all.Ending),
		Operators: s.hall.Crew.Operators, NetRate: page.NetRateOf(s.all),
		CrewBusy: page.MeanOf(busy), Cost: page.MeanOf(cost),
		Doubt: doubtDocument(s.doubt),
	}
	for i, x := range s.field.entrants {
		cost := s.cost(i)
		doc.Lines = append(doc.Lines, hallLineJSON{
			lineJSON: lineOf(x),
			Running:  meanIn(x.study, func(s *model.Shift) float64 { return s.Running }),
			Waiting:  meanIn(x.study, func(s *model.Shift) float64 { return s.Waiting }),
			Working:  meanIn(x.study, func(s *model.Shift) float64 { return s.Working }),
			Stops:    meanIn(x.study, func(s *model.Shift) float64 { return s.Stops }),
			Alone: aloneJSON{
				page.NetRateOf(s.alone[i]), meanIn(s.alone[i], func(s *model.Shift) float64 { return s.Waiting }), page.MeanOf(cost),
			},
		})
	}
	return doc
}

func meanIn(s *model.Study, figure func(*model.Shift) float64) page.MeanJSON {
	e := s.Sample(figure).Interval(say.Level)
	return page.MeanOf(e)
}

// report returns the lines as a page.
func (s *shared) report() (*page.Report, error) {
	sample := page.Sample(s.all)
	o := s.field.opening(fmt.Sprintf(" --seed %d --reps %d", s.all.Plan.Seed, len(s.all.Shifts)), "How many good envelopes an hour do these lines deliver together?",
		sentences(netRate(s.all))+" "+s.finding(), page.Partial(s.all)+"Simulated: "+sample+", with all lines; and each line by itself in the same shifts.")
	o.Assumptions = page.Assumed(page.Basis{Scenario: s.field.base(), Line: s.all.Line, Hall: s.hall})
	r := page.NewReport(desk.Version(), o)
	r.Add(plots.Section{
		Heading: "What the lines deliver", Text: s.aloneWords(),
		Figures: []*plots.Figure{r.Figure("distribution")(distribution(s.finding(), sample, s.field.entrants))},
		Tables:  []plots.Table{s.sharingFigures(), figuresTable(s.all)},
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
	if s.doubt != nil {
		r.Add(doubtSection(r, entrant{name: s.all.Line.Name, line: s.all.Line, study: s.all, doubt: s.doubt}))
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
	t.Columns = append([]plots.Column{{Title: "Line"}}, perHourColumns("Net rate")...)
	t.Columns = append(t.Columns, perHourColumns("Alone")...)
	t.Columns = append(t.Columns, perHourColumns("Less")...)
	t.Columns = append(t.Columns, minutes("Waiting"), minutes("Waiting alone"))
	for i, x := range s.field.entrants {
		shared, alone, cost := x.study.NetRates().Interval(say.Level), s.alone[i].NetRates().Interval(say.Level), s.cost(i)
		waiting := func(of *model.Study) plots.Entry {
			return page.Value(of.Sample(func(s *model.Shift) float64 { return s.Waiting / 60 }).Mean())
		}
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.name), page.Value(shared.Mean), page.Doubt(shared.Half), page.Value(alone.Mean), page.Doubt(alone.Half),
			page.Value(cost.Mean), page.Doubt(cost.Half), waiting(x.study), waiting(s.alone[i]),
		})
	}
	return t
}
