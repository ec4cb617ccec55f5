package present

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
)

// Coverage is which jobs of a scenario run where, as it is said and drawn.
type Coverage struct {
	*study.CoverageAnswer
	Origin  page.Origin
	Command string // that asks again
}

// Text returns what runs where, for a terminal.
func (c Coverage) Text() string { return CoverageText(c.CoverageAnswer) }

// Document returns what runs where as JSON has it.
func (c Coverage) Document(version string) any {
	return page.DocumentOf(version, c.Origin, c.CoverageAnswer)
}

// Report returns what runs where as a page.
func (c Coverage) Report(version string) (*page.Report, error) {
	r := page.NewReport(version, page.Opening{
		Title: c.Origin.Scenario.Name, Question: "Which jobs run on which line, and how fast?", Answer: CoverageFinding(c.CoverageAnswer),
		Lead: "Nothing was simulated.", Command: c.Command, Origins: []page.Origin{c.Origin},
	})
	r.Add(CoverageSection(c.CoverageAnswer, r))
	return r.Done()
}
