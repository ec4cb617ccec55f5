package lines

import (
	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/plots"
)

// choice is which strategy a line is to have, in every form in which it is told.
type choice struct {
	desk.Subject
	*study.StrategiesAnswer
	asked *desk.Part // the risk that is accepted; nil for that of the line's own strategy
}

var _ page.Findings = (*choice)(nil)

// command returns the command up to the seed.
func (c *choice) command() string {
	if c.asked == nil {
		return c.Again
	}
	return c.Again + " --max-defective " + desk.Quoted(c.asked.Text)
}

// Answer returns what was found, on one screen unless the strategies take many words.
func (c *choice) Answer() string {
	return present.StrategiesText(c.StrategiesAnswer, c.Name, c.command())
}

// Table returns a row for each strategy.
func (c *choice) Table() plots.Table { return present.StrategiesTables(c.StrategiesAnswer)[0] }

type choiceDocument struct {
	Format int `json:"netrate_strategy_json"`
	page.LineDocument
	*study.StrategiesAnswer
}

// Document returns the answer below the head of a document.
func (c *choice) Document() any {
	head := page.DocumentOf(&c.Subject, c.Own().Study, present.StrategiesFinding(c.StrategiesAnswer))
	return choiceDocument{page.JSONVersion, head, c.StrategiesAnswer}
}

// Report returns the choice as a page.
func (c *choice) Report() (*page.Report, error) {
	a, own := c.StrategiesAnswer, c.Own().Study
	o := page.OpeningOf(&c.Subject, own, c.command())
	o.Title = c.Name + ": which strategy"
	o.Question = "What is to be answered to which fault, with " + present.StrategiesAtMost(a) + "?"
	o.Answer = page.Partial(own) + present.StrategiesFinding(a)
	r := page.NewReport(desk.Version(), o)
	all := c.among(page.All(len(a.Strategies)))
	r.Add(present.StrategiesSection(a, func() (*plots.Figure, error) { return all.differences(all.sample() + " each") }, r))
	r.Add(present.StrategiesRisks(a))
	if a.Leader != 0 {
		two := c.among([]int{0, a.Leader})
		r.Add(two.whySection(r))
		if a.Line.Personalised() {
			r.Add(two.lostSection(r))
		}
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// among compares some of the strategies, as lines are; nil of a single one.
func (c *choice) among(some []int) *contest {
	if len(some) < 2 {
		return nil
	}
	f := &field{origins: []page.Origin{{Scenario: c.Scenario, Text: c.Source}}, again: c.Again}
	for _, i := range some {
		x := &c.Strategies[i]
		e := entrant{name: x.Name, scenario: c.Scenario, line: x.Study.Line, study: x.Study}
		if i == 0 {
			e.called = "the file’s own strategy"
		}
		f.entrants = append(f.entrants, e)
	}
	return decide(f)
}
