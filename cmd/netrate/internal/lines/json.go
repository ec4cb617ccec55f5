package lines

import (
	"io"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
)

// document is what a run came to: what was run, and the answer.
type document struct {
	Format   int               `json:"netrate_json"`
	Version  string            `json:"version"`
	Scenario page.ScenarioJSON `json:"scenario"`
	*study.RunAnswer
}

// writeJSON writes all that a run came to.
func writeJSON(to io.Writer, version string, from page.Origin, a *study.RunAnswer) error {
	return page.WriteDocument(to, document{page.JSONVersion, version, page.ScenarioOf(from.Scenario, from.Text), a})
}
