package weeks

import (
	"encoding/csv"
	"io"
	"strconv"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// writeCSV writes a row for each season and week of each configuration.
func (s *simulated) writeCSV(to io.Writer) error {
	w := csv.NewWriter(to)
	if err := w.Write([]string{"line", "replication", "week", "name", "sets", "work_h", "changeover_h", "overtime_h", "backlog_sets"}); err != nil {
		return err
	}
	digits := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	for n := range s.answer.Lines {
		x := &s.answer.Lines[n]
		for r := range x.Study.Done {
			for i := range x.Weeks {
				week := &x.Study.Weeks[i]
				row := []string{
					say.Safe(x.Name), strconv.Itoa(r), strconv.Itoa(i + 1), say.Safe(x.Weeks[i].Name), strconv.FormatInt(x.Weeks[i].Sets, 10),
					digits(week.Work[r]), digits(x.Changed(i, r)), digits(week.Overtime[r]), digits(week.Backlog[r]),
				}
				if err := w.Write(row); err != nil {
					return err
				}
			}
		}
	}
	w.Flush()
	return w.Error()
}

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
