package present

import (
	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/plots"
)

// Strategies is which strategy a line is to have, as it is said and drawn.
type Strategies struct {
	desk.Subject
	*study.StrategiesAnswer
	Command string // that asks again, without the seed and the number of replications
}

var _ page.Findings = Strategies{}

// Answer returns what was found, on one screen unless the strategies take many words.
func (s Strategies) Answer() string {
	return StrategiesText(s.StrategiesAnswer, s.Name, s.Command)
}

// Table returns a row for each strategy.
func (s Strategies) Table() plots.Table { return StrategiesTables(s.StrategiesAnswer)[0] }

type strategiesDocument struct {
	Format int `json:"netrate_strategy_json"`
	page.LineDocument
	*study.StrategiesAnswer
}

// Document returns the answer below the head of a document.
func (s Strategies) Document() any {
	head := page.DocumentOf(&s.Subject, StrategiesFinding(s.StrategiesAnswer))
	return strategiesDocument{page.JSONVersion, head, s.StrategiesAnswer}
}

// Report returns the choice as a page.
func (s Strategies) Report() (*page.Report, error) {
	a, own := s.StrategiesAnswer, s.Own().Study
	o := page.OpeningOf(&s.Subject, own, s.Command)
	o.Title = s.Name + ": which strategy"
	o.Question = "Which response to each fault delivers most, with " + StrategiesAtMost(a) + "?"
	o.Answer = page.Partial(own) + StrategiesFinding(a)
	r := page.NewReport(desk.Version(), o)
	r.Add(StrategiesSection(a, func() (*plots.Figure, error) {
		all := s.compared(page.All(len(a.Strategies)))
		return all.differences(all.sample() + " each")
	}, r))
	r.Add(StrategiesRisks(a))
	if a.Leader != 0 {
		two := s.compared([]int{0, a.Leader})
		r.Add(two.whySection(r))
		if a.Line.Personalised() {
			r.Add(two.lostSection(r))
		}
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// compared compares some of the strategies, the file's own first.
func (s Strategies) compared(some []int) Comparison {
	return Comparison{
		ComparisonAnswer: s.Compared("the file’s own strategy", some),
		Origins:          []page.Origin{{Scenario: s.Scenario, Text: s.Source}}, Command: s.Again,
	}
}
