package weeks

import (
	"io"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
)

// seasonDocument is the answer below its head.
type seasonDocument struct {
	Format   int               `json:"netrate_json"`
	Version  string            `json:"version"`
	Scenario page.ScenarioJSON `json:"scenario"`
	*study.SeasonsAnswer
}

// document returns the seasons as JSON has them.
func (s *simulated) document() *seasonDocument {
	return &seasonDocument{page.JSONVersion, desk.Version(), page.ScenarioOf(s.Scenario, s.Source), s.answer}
}

// rows writes a row for each season and week of each configuration as CSV.
func (s *simulated) rows(to io.Writer) error {
	t := present.SeasonsRows(s.answer)
	return t.WriteCSV(to)
}
