package sweeps

import (
	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/plots"
)

// Report returns the effects as a page.
func (s *sensitivity) Report() (*page.Report, error) {
	o := page.OpeningOf(&s.Subject, s.Base, s.command())
	o.Title = s.Name + ": what matters"
	o.Question = "Which rate or time is worth most to improve?"
	o.Answer = page.Partial(s.Base) + present.SensitivityFinding(s.SensitivityAnswer)
	r := page.NewReport(desk.Version(), o)
	r.Add(plots.Section{
		Heading: "What each rate and time is worth",
		Text: "Each was changed alone, and in the last rows all of one kind. What two of them are worth together is not the sum: a line that stops less " +
			"gains less from shorter stops. " + present.SensitivityImpossible(s.SensitivityAnswer),
		Figures: []*plots.Figure{r.Figure("sensitivity")(present.SensitivityFigure(s.SensitivityAnswer, s.Name))}, Tables: s.Tables(),
	})
	r.Add(page.LeftOut())
	return r.Done()
}

// Tables returns the table of the effects.
func (s *sensitivity) Tables() []plots.Table {
	return []plots.Table{present.SensitivityTable(s.SensitivityAnswer, len(s.Effects))}
}

// Document returns the effects as JSON has them.
func (s *sensitivity) Document() any {
	return sensitivityDocument{page.JSONVersion, page.DocumentOf(&s.Subject, present.SensitivityFinding(s.SensitivityAnswer)), s.SensitivityAnswer}
}

// sensitivityDocument is the answer below its head.
type sensitivityDocument struct {
	Format int `json:"netrate_sensitivity_json"`
	page.LineDocument
	*study.SensitivityAnswer
}
