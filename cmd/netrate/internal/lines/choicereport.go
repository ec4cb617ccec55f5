package lines

import (
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// Report returns the choice as a page.
func (c *choice) Report() (*page.Report, error) {
	own := c.own().Study
	o := page.OpeningOf(&c.Subject, own, c.command())
	o.Title = c.Name + ": which strategy"
	o.Question = "What is to be answered to which fault, with " + c.atMost() + "?"
	o.Answer = page.Partial(own) + c.finding()
	r := page.NewReport(desk.Version(), o)
	r.Add(c.strategySection(r))
	r.Add(c.riskSection())
	if two := c.two(); two != nil {
		r.Add(two.whySection(r))
		if c.Line.Personalised() {
			r.Add(two.lostSection(r))
		}
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// strategySection sets the strategies against each other.
func (c *choice) strategySection(r *page.Report) plots.Section {
	s := plots.Section{
		Heading: "What the strategies earn and what they risk",
		Text: c.answers() + c.dropped() + "\n\n" +
			"How many are defective follows from the rates in the file and from how often each station tried: it has no luck in it. " +
			"It leaves out what takes two faults at once, unless the count of the shifts shows more than that.",
		Tables: []plots.Table{c.shortTable(), c.decisionsTable()},
	}
	if c.risky() {
		s.Figures = append(s.Figures, r.Figure("frontier")(c.frontier()))
	} else if len(c.Strategies) > 1 {
		s.Figures = append(s.Figures, r.Figure("differences")(c.among.differences(c.among.sample()+" each")))
	}
	if c.Line.Personalised() {
		s.Figures = append(s.Figures, r.Figure("remakes")(c.remakes()))
	}
	return s
}

// risky reports whether any strategy delivers defective envelopes.
func (c *choice) risky() bool {
	return slices.ContainsFunc(c.Strategies, func(x study.StrategiesOne) bool { return x.Defective.PerMillion > 0 })
}

// riskSection says where the defective envelopes come from.
func (c *choice) riskSection() plots.Section {
	s := plots.Section{Heading: "Where defective envelopes come from", Text: c.sources(), Tables: []plots.Table{c.escapesTable(c.Leader)}}
	if c.Leader != 0 {
		s.Tables = append(s.Tables, c.escapesTable(0))
	}
	return s
}

// two returns the best against the line's own strategy, or nil if they are one.
func (c *choice) two() *contest {
	if c.Leader == 0 {
		return nil
	}
	f := *c.among.field
	f.entrants = []entrant{f.entrants[0], f.entrants[c.Leader]}
	return decide(&f)
}

// frontier draws what the strategies earn against the defective ones among what they deliver.
func (c *choice) frontier() (*plots.Figure, error) {
	d := c.points("defective envelopes in a million", func(x *study.StrategiesOne) (plots.Range, bool) {
		at := plots.Range{Value: float64(x.Defective.PerMillion)}
		if x.Defective.FromCount {
			at.Low, at.High = x.Defective.Low, x.Defective.High
		}
		return at, x.Frontier
	})
	d.Title = c.headline()
	d.Subtitle = "Net rate, " + page.PerHour + ", against defective envelopes; " + page.SampleEach(c.own().Study)
	d.Log, d.Floor = true, riskFloor
	d.Limit = &plots.Limit{X: float64(c.Limit), Label: "the limit"}
	return plots.Frontier(d)
}

// riskFloor is the least part of a million that has a place on the axis.
const riskFloor = 1e-4

// remakes draws what the strategies earn against what must be made again.
func (c *choice) remakes() (*plots.Figure, error) {
	d := c.points("remakes in a thousand sets", func(x *study.StrategiesOne) (plots.Range, bool) {
		return plots.Range{Value: x.Remade()}, x.Saving
	})
	d.Title = "What each strategy earns and what it makes again"
	d.Subtitle = "Net rate, " + page.PerHour + ", against remakes; " + page.SampleEach(c.own().Study)
	return plots.Frontier(d)
}

// points returns a dot for each strategy.
func (c *choice) points(across string, at func(*study.StrategiesOne) (plots.Range, bool)) plots.FrontierData {
	d := plots.FrontierData{Across: across, Up: page.PerHour}
	for i := range c.Strategies {
		x := &c.Strategies[i]
		p := plots.FrontierPoint{Label: x.Name, Name: x.Otherwise, Y: x.Study.NetRates().Interval(say.Level), Best: i == c.Leader && !c.none()}
		if i == 0 {
			p.Name = "as the file has it"
		}
		p.X, p.Frontier = at(x)
		d.Points = append(d.Points, p)
	}
	return d
}

// headline returns the answer in few words.
func (c *choice) headline() string {
	best := say.Capital(c.among.call(c.Leader))
	switch {
	case c.none():
		return best + " comes nearest to the limit, and none is within it"
	case !c.Shown:
		return best + " leads within the limit, but is not shown to be best"
	case c.Leader == 0:
		return best + " delivers most within the limit"
	}
	return fmt.Sprintf("%s delivers most within the limit, %s an hour than %s", best, moreWords(c.Over(0)), c.among.call(0))
}

func moreWords(d sim.Estimate) string {
	if d.Mean < 0 {
		return say.Size(d) + " less"
	}
	return say.Size(d) + " more"
}

// decisionsTable returns what the best answers to what, and what the file says.
func (c *choice) decisionsTable() plots.Table {
	t := plots.Table{
		Name: "Answers", Caption: "What " + c.among.call(c.Leader) + " answers to each fault that leaves a choice",
		Columns: []plots.Column{{Title: "Station"}, {Title: "Fault"}, {Title: "The file"}, {Title: say.Capital(c.among.call(c.Leader))}},
	}
	for k, d := range c.Decisions {
		own, best := c.own().Responses[k], c.best().Responses[k]
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(d.Station), page.Words(d.Fault), page.Words(own), page.Words(best),
		})
	}
	return t
}

// escapesTable returns where the defective envelopes of a strategy come from.
func (c *choice) escapesTable(i int) plots.Table {
	x := &c.Strategies[i]
	t := plots.Table{
		Name: "Defective " + x.Name, Caption: "Defective in a million delivered, from the rates: " + c.among.call(i),
		Columns: []plots.Column{{Title: "From"}, {Title: "Defective", Unit: "per million", Kind: plots.Number, Decimals: 4}},
	}
	for _, e := range x.Defective.From {
		t.Rows = append(t.Rows, []plots.Entry{page.Words(escapeName(e)), page.Value(float64(e.PerMillion))})
	}
	return t
}

// shortTable returns what of the table has room on a page.
func (c *choice) shortTable() plots.Table {
	t := plots.Table{
		Name:    "Strategies in short",
		Caption: "Net rate with its 95 % interval; what it gains on the file’s own, all intervals right at once; defective in a million; remakes in a thousand",
		Columns: []plots.Column{{Title: "Strategy"}},
	}
	for _, title := range []string{"Net rate", "To own", "Defective", "Remakes"} {
		t.Columns = append(t.Columns, plots.Column{Title: title, Kind: plots.Number})
	}
	t.Columns = append(t.Columns, plots.Column{Title: "Answers otherwise"})
	for i := range c.Strategies {
		x := &c.Strategies[i]
		e, gain, remade := x.Study.NetRates().Interval(say.Level), "", "–"
		if i != 0 {
			gain = say.Gap(c.Pairs[0][i].Difference)
		}
		if c.Line.Personalised() {
			remade = say.FewDigits(x.Remade())
		}
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(x.Name), page.Words(say.PlusMinus(say.Measured(e.Mean, e.Half))), page.Words(gain), page.Words(riskText(&x.Defective)), page.Words(remade), page.Words(x.Otherwise),
		})
	}
	return t
}

var _ page.Findings = (*choice)(nil)
