package present

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// Strategies is which strategy a line is to have, as it is said and drawn.
type Strategies struct {
	*study.StrategiesAnswer
	Origin  page.Origin
	Command string // that asks again, without the seed and the number of replications
}

// Text returns what was found, on one screen unless the strategies take many words.
func (s Strategies) Text() string {
	return StrategiesText(s.StrategiesAnswer, s.Origin.Scenario.Name, s.Command)
}

// Rows returns a row for each strategy.
func (s Strategies) Rows() plots.Table { return StrategiesTables(s.StrategiesAnswer)[0] }

type strategiesDocument struct {
	Format int `json:"netrate_strategy_json"`
	page.LineDocument
	*study.StrategiesAnswer
}

// Document returns the answer below the head of a document.
func (s Strategies) Document(version string) any {
	head := page.LineDocumentOf(version, s.Origin, StrategiesFinding(s.StrategiesAnswer))
	return strategiesDocument{page.JSONVersion, head, s.StrategiesAnswer}
}

// Report returns the choice as a page.
func (s Strategies) Report(version string) (*page.Report, error) {
	a, own := s.StrategiesAnswer, s.Own().Study
	o := page.OpeningOf(s.Origin, own, s.Command)
	o.Title = s.Origin.Scenario.Name + ": which strategy"
	o.Question = "Which response to each fault delivers most" + strategiesWork(a) + ", with " + StrategiesAtMost(a) + "?"
	o.Answer = page.Partial(own) + StrategiesFinding(a)
	r := page.NewReport(version, o)
	r.Add(StrategiesSection(a, s.differences, r))
	r.Add(StrategiesRisks(a))
	if a.Leader != 0 {
		two := s.compared([]int{0, a.Leader})
		r.Add(two.whySection(r))
		if a.Personalised() {
			r.Add(two.lostSection(r))
		}
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// differences draws how far the strategies are apart.
func (s Strategies) differences() (*plots.Figure, error) {
	all := s.compared(page.All(len(s.Strategies)))
	return all.differences(all.sample() + " each")
}

// strategiesWork says at which jobs together, if there are several.
func strategiesWork(a *study.StrategiesAnswer) string {
	var names []string
	for _, j := range a.Own().Jobs {
		names = append(names, j.Name)
	}
	if names == nil {
		return ""
	}
	return " at " + say.List(names) + ", each in its share of the yearly volumes"
}

// compared compares some of the strategies, the file's own first.
func (s Strategies) compared(some []int) Comparison {
	return Comparison{
		ComparisonAnswer: s.Compared("the file’s own strategy", some),
		Origins:          []page.Origin{s.Origin},
	}
}
