package present

import (
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// Sweep is what a sweep came to, as it is said and drawn.
type Sweep struct {
	*study.SweepAnswer
	Origin  page.Origin
	Command string // that sweeps again, without the seed and the number of replications
}

// Text returns what the sweep came to, on one screen.
func (s Sweep) Text() string {
	first := s.Points[0].Study
	title := page.Headline(s.Origin.Scenario.Name+": "+SweepPaths(s.SweepAnswer), first)
	return Screen(title, SweepFinding(s.SweepAnswer), SweepScreen(s.SweepAnswer)) + "\n" + s.exposed() + page.Repeated(first, s.Basis, s.Command)
}

// exposed says how often the best point delivers defective envelopes, on lines of their own; "" where
// no fault makes one.
func (s Sweep) exposed() string {
	if !sweepExposed(s.SweepAnswer) {
		return ""
	}
	return say.Wrapped("At "+SweepLabel(s.SweepAnswer, s.Best)+" "+s.delivers()+" "+exposuresBrief(s.Exposures, page.Period(s.Points[0].Study.Line))+".", say.Prose())
}

// delivers says who delivers: the line, or several with one crew.
func (s Sweep) delivers() string {
	if s.Points[0].Study.Lines() != nil {
		return "the lines deliver"
	}
	return "the line delivers"
}

// sweepExposed reports whether any fault makes defective envelopes at the best point.
func sweepExposed(a *study.SweepAnswer) bool {
	return slices.ContainsFunc(a.Exposures, func(e *study.Exposure) bool { return e.Possible })
}

// Rows returns a row for each point.
func (s Sweep) Rows() plots.Table {
	tables := SweepTables(s.SweepAnswer)
	return tables[len(tables)-1]
}

// Document returns the sweep as JSON has it.
func (s Sweep) Document(version string) any {
	return sweepDocument{page.JSONVersion, page.LineDocumentOf(version, s.Origin, SweepFinding(s.SweepAnswer)), s.SweepAnswer}
}

type sweepDocument struct {
	Format int `json:"netrate_sweep_json"`
	page.LineDocument
	*study.SweepAnswer
}

// Report returns the sweep as a page.
func (s Sweep) Report(version string) (*page.Report, error) {
	first, name := s.Points[0].Study, s.Origin.Scenario.Name
	o := page.OpeningOf(s.Origin, first, s.Command)
	o.Title = name + ": " + SweepPaths(s.SweepAnswer)
	o.Question = fmt.Sprintf("What does %s do to the net rate?", SweepPaths(s.SweepAnswer))
	o.Answer = page.Partial(first) + SweepFinding(s.SweepAnswer)
	r := page.NewReport(version, o)
	r.Add(plots.Section{
		Heading: "Net rate by " + SweepPaths(s.SweepAnswer),
		Figures: []*plots.Figure{r.Figure("sweep")(SweepFigure(s.SweepAnswer, name))}, Tables: SweepTables(s.SweepAnswer),
	})
	r.Add(page.LeftOut())
	return r.Done()
}
