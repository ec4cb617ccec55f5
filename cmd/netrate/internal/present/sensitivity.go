package present

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/plots"
)

// Sensitivity is what moving the rates and times of a scenario does, as it is said and drawn.
type Sensitivity struct {
	*study.SensitivityAnswer
	Origin  page.Origin
	Command string // that asks again, without the seed and the number of replications
	All     bool   // rates and times are on the screen, however many there are
}

// Text returns what was found, on one screen unless all is to be on it.
func (s Sensitivity) Text() string {
	shown := len(s.Effects)
	if !s.All {
		shown = min(shown, ShownEffects)
	}
	title := page.Headline(s.Origin.Scenario.Name+": what matters", s.Base)
	return Screen(title, SensitivityFinding(s.SensitivityAnswer), SensitivityTable(s.SensitivityAnswer, shown)) +
		"\n" + page.Repeated(s.Base, s.Basis, s.Command)
}

// Rows returns a row for each rate and time.
func (s Sensitivity) Rows() plots.Table { return SensitivityTable(s.SensitivityAnswer, len(s.Effects)) }

// Document returns the effects as JSON has them.
func (s Sensitivity) Document(version string) any {
	return sensitivityDocument{page.JSONVersion, page.LineDocumentOf(version, s.Origin, SensitivityFinding(s.SensitivityAnswer)), s.SensitivityAnswer}
}

type sensitivityDocument struct {
	Format int `json:"netrate_sensitivity_json"`
	page.LineDocument
	*study.SensitivityAnswer
}

// Report returns the effects as a page.
func (s Sensitivity) Report(version string) (*page.Report, error) {
	name := s.Origin.Scenario.Name
	o := page.OpeningOf(s.Origin, s.Base, s.Command)
	o.Title = name + ": what matters"
	o.Question = "Which rate or time is worth most to improve?"
	o.Answer = page.Partial(s.Base) + SensitivityFinding(s.SensitivityAnswer)
	r := page.NewReport(version, o)
	r.Add(plots.Section{
		Heading: "What each rate and time is worth",
		Text: "Each was changed alone, and in the last rows all of one kind. What two of them are worth together is not the sum: a line that stops less " +
			"gains less from shorter stops. " + SensitivityImpossible(s.SensitivityAnswer),
		Figures: []*plots.Figure{r.Figure("sensitivity")(SensitivityFigure(s.SensitivityAnswer, name))}, Tables: []plots.Table{s.Rows()},
	})
	r.Add(page.LeftOut())
	return r.Done()
}
