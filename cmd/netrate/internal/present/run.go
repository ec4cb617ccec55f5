package present

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
)

// Run is a run as it is said and drawn: its answer, and what was run.
type Run struct {
	*study.RunAnswer
	Origin  page.Origin
	Command string // that runs it again, without the seed and the number of replications
}

// Alternatives returns the line as tables and figures of several lines take it.
func (run Run) Alternatives() []study.LineAnswer {
	x := study.LineAnswer{
		Name: run.Origin.Scenario.Name, Of: study.Alternative{Name: run.Origin.Scenario.Name, Line: run.Line},
		Study: run.Study, Nominal: run.Nominal, Draws: run.Draws, Exposures: []*study.Exposure{run.Exposure},
	}
	if run.Scenes != nil {
		x.Scenes = []study.Scenes{*run.Scenes}
	}
	return []study.LineAnswer{x}
}

type runDocument struct {
	Format   int               `json:"netrate_json"`
	Version  string            `json:"version"`
	Scenario page.ScenarioJSON `json:"scenario"`
	*study.RunAnswer
}

// Document returns all that a run came to, as JSON has it.
func (run Run) Document(version string) any {
	return runDocument{page.JSONVersion, version, page.ScenarioOf(run.Origin.Scenario, run.Origin.Text), run.RunAnswer}
}
