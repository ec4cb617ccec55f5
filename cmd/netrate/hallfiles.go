package main

import (
	"fmt"

	"netrate/model"
	"netrate/plots"
	"netrate/sim"
)

// hallDocument is what several lines with one crew came to.
type hallDocument struct {
	Format    int            `json:"netrate_json"`
	Version   string         `json:"version"`
	Scenario  scenarioJSON   `json:"scenario"`
	Settings  settingsJSON   `json:"settings"`
	Operators int            `json:"operators"`
	NetRate   netRateJSON    `json:"net_rate"` // of all lines together
	CrewBusy  mean           `json:"crew_busy_share"`
	Cost      mean           `json:"sharing_costs_per_h"`
	Lines     []hallLineJSON `json:"lines"`
}

type hallLineJSON struct {
	lineJSON           // the crew's share of its time is that for this line
	Running  mean      `json:"running_s"` // of the shift
	Waiting  mean      `json:"waiting_s"`
	Working  mean      `json:"working_s"`
	Stops    mean      `json:"stops"`
	Alone    aloneJSON `json:"alone"`
}

// aloneJSON is the line with as many people to itself.
type aloneJSON struct {
	NetRate netRateJSON `json:"net_rate"`
	Waiting mean        `json:"waiting_s"`
	Cost    mean        `json:"sharing_costs_per_h"`
}

func (s *shared) document() *hallDocument {
	from, busy, cost := s.field.origins[0], crewBusy(s.all), s.costOfAll()
	sc, plan := from.scenario, s.all.Plan
	doc := &hallDocument{
		Format: jsonVersion, Version: version(),
		Scenario: scenarioJSON{sc.Name, sc.Question, sc.File, sc.Digest, string(from.text)},
		Settings: settingsJSON{
			plan.Seed, len(s.all.Shifts), plan.Min, plan.Max, number(plan.Precision), endingWord(s.all.Ending), s.all.Ending == sim.Cancelled,
		},
		Operators: s.hall.Crew.Operators, NetRate: netRateOf(s.all),
		CrewBusy: mean{number(busy.Mean), number(busy.Half)}, Cost: mean{number(cost.Mean), number(cost.Half)},
	}
	for i, x := range s.field.entrants {
		cost := s.cost(i)
		doc.Lines = append(doc.Lines, hallLineJSON{
			lineJSON: lineOf(x),
			Running:  meanOf(x.study, func(s *model.Shift) float64 { return s.Running }),
			Waiting:  meanOf(x.study, func(s *model.Shift) float64 { return s.Waiting }),
			Working:  meanOf(x.study, func(s *model.Shift) float64 { return s.Working }),
			Stops:    meanOf(x.study, func(s *model.Shift) float64 { return s.Stops }),
			Alone: aloneJSON{
				netRateOf(s.alone[i]), meanOf(s.alone[i], func(s *model.Shift) float64 { return s.Waiting }), mean{number(cost.Mean), number(cost.Half)},
			},
		})
	}
	return doc
}

func meanOf(s *model.Study, figure func(*model.Shift) float64) mean {
	e := s.Sample(figure).Interval(level)
	return mean{number(e.Mean), number(e.Half)}
}

// report returns the lines as a page.
func (s *shared) report() (*report, error) {
	sample := sample(s.all)
	o := s.field.opening(fmt.Sprintf(" --seed %d --reps %d", s.all.Plan.Seed, len(s.all.Shifts)), "How many good envelopes an hour do these lines deliver together?",
		sentences(netRate(s.all))+" "+s.finding(), partial(s.all)+"Simulated: "+sample+", with all lines; and each line by itself in the same shifts.")
	o.assumptions = assumed(entrant{scenario: s.field.base(), line: s.all.Line, hall: s.hall})
	r := newReport(version(), o)
	r.add(plots.Section{
		Heading: "What the lines deliver", Text: s.aloneWords(),
		Figures: []*plots.Figure{r.figure("distribution")(distribution(s.finding(), sample, s.field.entrants))},
		Tables:  []plots.Table{s.sharingFigures(), figuresTable(s.all)},
	})
	why := plots.Section{Heading: "Where the rest goes", Text: whyText, Tables: []plots.Table{lossesTable(s.field.entrants)}}
	for i, x := range s.field.entrants {
		why.Figures = append(why.Figures,
			r.figure(fileName("waterfall", i, x))(waterfall(capital(x.name), sample, x.study)),
			r.figure(fileName("stops", i, x))(pareto(capital(x.name), sample, x.study)))
		why.Tables = append(why.Tables, stopsOf(x))
	}
	why.Tables = append(why.Tables, crewTable(s.field.entrants))
	r.add(why)
	r.add(leftOut())
	return r.done()
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
		shared, alone, cost := x.study.NetRates().Interval(level), s.alone[i].NetRates().Interval(level), s.cost(i)
		waiting := func(of *model.Study) plots.Entry {
			return figure(of.Sample(func(s *model.Shift) float64 { return s.Waiting / 60 }).Mean())
		}
		t.Rows = append(t.Rows, []plots.Entry{
			words(x.name), figure(shared.Mean), doubtEntry(shared.Half), figure(alone.Mean), doubtEntry(alone.Half),
			figure(cost.Mean), doubtEntry(cost.Half), waiting(x.study), waiting(s.alone[i]),
		})
	}
	return t
}
