package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// CostSweep is what a line costs at several values of its costs, as it is said.
type CostSweep struct {
	*study.CostSweepAnswer
	Origin  page.Origin
	Command string // that asks it again, without the seed and the number of replications
}

// paths returns what is varied.
func (c CostSweep) paths() string {
	var all []string
	for _, p := range c.Vary {
		all = append(all, p.Path)
	}
	return strings.Join(all, ", ")
}

// Finding says from what to what the cost goes.
func (c CostSweep) Finding() string {
	least, most := c.Least, c.Least
	for i := range c.Points {
		if c.Points[i].AllIn.Mean > c.Points[most].AllIn.Mean {
			most = i
		}
	}
	at := func(i int) string {
		var all []string
		for k, v := range c.Points[i].Values {
			all = append(all, c.Vary[k].Path+" "+v)
		}
		return strings.Join(all, ", ")
	}
	thousand := func(i int) string { return Averaged(c.Points[i].Drawn.AllIn) + " " + c.Currency }
	text := fmt.Sprintf("All in, a thousand good envelopes cost %s at %s", thousand(least), at(least))
	if thousand(least) == thousand(most) {
		return text + ", and as much at all other values. " + c.simulated()
	}
	return text + fmt.Sprintf(" and %s at %s. ", thousand(most), at(most)) + c.simulated()
}

// simulated says what the figures rest on.
func (c CostSweep) simulated() string {
	if from, to, varies := c.rates(); varies {
		return fmt.Sprintf("The line delivers %s to %s good envelopes an hour: each job was simulated once, counts at each value as much as its yearly volume, and the costs were worked out from %s draws.",
			netRate(from), netRate(to), say.Thousands(c.Draws))
	}
	if c.Study.Lines() != nil {
		return fmt.Sprintf("The lines deliver %s good envelopes an hour together, whatever they cost: they were simulated once, and the costs were worked out for each value from %s draws.",
			netRate(c.NetRate), say.Thousands(c.Draws))
	}
	return fmt.Sprintf("The line delivers %s good envelopes an hour whatever it costs: it was simulated once, and the costs were worked out for each value from %s draws.",
		netRate(c.NetRate), say.Thousands(c.Draws))
}

// rates returns the lowest and the highest net rate, where it varies.
func (c CostSweep) rates() (low, high study.NetRate, varies bool) {
	for i := range c.Points {
		r := c.Points[i].NetRate
		if r == nil {
			return low, high, false
		}
		if i == 0 || r.Mean < low.Mean {
			low = *r
		}
		if i == 0 || r.Mean > high.Mean {
			high = *r
		}
	}
	return low, high, true
}

// Rows returns the costs at each point.
func (c CostSweep) Rows() plots.Table {
	t := plots.Table{
		Name: "Costs", Caption: "Means of the draws, " + c.Currency + ". The all-in cost has the price in it, spread over the life of " + say.Plural(c.Life, "year") + " with interest",
	}
	for _, p := range c.Vary {
		t.Columns = append(t.Columns, plots.Column{Title: p.Path})
	}
	_, _, varies := c.rates()
	if varies {
		t.Columns = append(t.Columns, plots.Column{Title: "Net rate", Unit: page.PerHour, Kind: plots.Number})
	}
	t.Columns = append(t.Columns, MoneyColumn("Cost", "a year", 0), MoneyColumn("Running cost", "per 1,000", 2),
		MoneyColumn("All-in cost", "per 1,000", 2), MoneyColumn("Equivalent annual cost", "", 0))
	for i := range c.Points {
		p := &c.Points[i]
		var row []plots.Entry
		for _, v := range p.Values {
			row = append(row, page.Words(v))
		}
		if varies {
			row = append(row, rateOf(*p.NetRate))
		}
		t.Rows = append(t.Rows, append(row, averaged(p.Drawn.Cost), averaged(p.Drawn.PerThousand), averaged(p.Drawn.AllIn), spread(p.Annual.Mean, p.Drawn.Cost)))
	}
	return t
}

// Text returns what was found, on a screen if it can be.
func (c CostSweep) Text() string {
	return Screen(page.Headline(c.Origin.Scenario.Name+": "+c.paths(), c.Study), c.Finding(), c.Rows()) + "\n" + page.Repeated(c.Study, c.Basis, c.Command)
}

// Document returns all that was found, as JSON has it.
func (c CostSweep) Document(version string) any {
	return costSweepDocument{page.JSONVersion, version, page.ScenarioOf(c.Origin.Scenario, c.Origin.Text), c.Finding(), c.CostSweepAnswer}
}

type costSweepDocument struct {
	Format   int               `json:"netrate_sweep_json"`
	Version  string            `json:"version"`
	Scenario page.ScenarioJSON `json:"scenario"`
	Finding  string            `json:"finding"`
	*study.CostSweepAnswer
}

// Report returns it as a page.
func (c CostSweep) Report(version string) (*page.Report, error) {
	s := c.Study
	r := page.NewReport(version, page.Opening{
		Title: c.Origin.Scenario.Name + ": " + c.paths(), Question: fmt.Sprintf("What does %s do to the cost?", c.paths()),
		Answer: page.Partial(s) + c.Finding(), Lead: "Simulated: " + page.Sample(s) + ".",
		Command: fmt.Sprintf("%s --seed %d --reps %d", c.Command, s.Plan.Seed, len(s.Shifts)), Origins: []page.Origin{c.Origin},
		Plan: &s.Plan, Word: page.Period(s.Line), Most: len(s.Shifts),
		Assumptions: page.Assumed(page.Basis{Scenario: c.Origin.Scenario, Line: s.Line, LineGroup: c.Origin.Scenario.LineGroup}),
	})
	r.Add(plots.Section{Heading: "Cost by " + c.paths(), Tables: []plots.Table{c.Rows()}})
	r.Add(page.LeftOut())
	return r.Done()
}
