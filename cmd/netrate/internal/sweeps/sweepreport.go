package sweeps

import (
	"fmt"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/plots"
)

// Report returns the sweep as a page.
func (s *sweep) Report() (*page.Report, error) {
	first := s.Points[0].Study
	o := page.OpeningOf(&s.Subject, first, s.Again+s.flags())
	o.Title = s.Name + ": " + present.SweepPaths(s.SweepAnswer)
	o.Question = fmt.Sprintf("What does %s do to the net rate?", present.SweepPaths(s.SweepAnswer))
	o.Answer = page.Partial(first) + present.SweepFinding(s.SweepAnswer)
	r := page.NewReport(desk.Version(), o)
	r.Add(plots.Section{
		Heading: "Net rate by " + present.SweepPaths(s.SweepAnswer),
		Figures: []*plots.Figure{r.Figure("sweep")(present.SweepFigure(s.SweepAnswer, s.Name))}, Tables: s.Tables(),
	})
	r.Add(page.LeftOut())
	return r.Done()
}

// Tables returns the tables of the sweep.
func (s *sweep) Tables() []plots.Table { return present.SweepTables(s.SweepAnswer) }

// Document returns the sweep as JSON has it.
func (s *sweep) Document() any {
	return sweepDocument{page.JSONVersion, page.DocumentOf(&s.Subject, present.SweepFinding(s.SweepAnswer)), s.SweepAnswer}
}

// sweepDocument is the answer below its head.
type sweepDocument struct {
	Format int `json:"netrate_sweep_json"`
	page.LineDocument
	*study.SweepAnswer
}
