package lines

import (
	"io"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
)

type document struct {
	Format   int               `json:"netrate_json"`
	Version  string            `json:"version"`
	Scenario page.ScenarioJSON `json:"scenario"`
	Settings page.SettingsJSON `json:"settings"`
	NetRate  page.NetRateJSON  `json:"net_rate"`
	Hand     handJSON          `json:"hand"`
	Time     timeJSON          `json:"time"`
	Sets     map[string]any    `json:"sets"`
	Stations []stationJSON     `json:"stations"`
	Crew     crewJSON          `json:"crew"`
	Remakes  *page.MeanJSON    `json:"remakes,omitempty"` // of a personalised line
	Job      *jobJSON          `json:"job,omitempty"`     // if the work is a job and not a shift
	Doubt    *doubtJSON        `json:"doubt,omitempty"`   // if something is in doubt, and was drawn
}

type timeJSON struct {
	Shift      page.Number   `json:"shift_s"`
	Running    page.MeanJSON `json:"running_s"`
	Waiting    page.MeanJSON `json:"waiting_s"`
	Working    page.MeanJSON `json:"working_s"`
	Restarting page.MeanJSON `json:"restarting_s"`
	Starved    page.MeanJSON `json:"starved_s"`
}

// writeJSON writes all that a study came to. All figures but the net rate are a shift.
func writeJSON(to io.Writer, version string, x entrant, source []byte) error {
	sc, s := x.scenario, x.study
	of := func(figure func(*model.Shift) float64) page.MeanJSON {
		e := s.Sample(figure).Interval(say.Level)
		return page.MeanOf(e)
	}
	doc := document{
		Format: page.JSONVersion, Version: version,
		Scenario: page.ScenarioOf(sc, source),
		Settings: page.SettingsOf(s.Plan, len(s.Shifts), s.Ending),
		NetRate:  page.NetRateOf(s),
		Hand:     handOf(s.Line),
		Time: timeJSON{
			Shift:      page.Number(s.Line.Shift),
			Running:    of(func(s *model.Shift) float64 { return s.Running }),
			Waiting:    of(func(s *model.Shift) float64 { return s.Waiting }),
			Working:    of(func(s *model.Shift) float64 { return s.Working }),
			Restarting: of(func(s *model.Shift) float64 { return s.Restarting }),
			Starved:    of(func(s *model.Shift) float64 { return s.Starved }),
		},
		Sets: map[string]any{"can_be_defective": s.Line.CanLeak(), "started": of(study.Started)},
		Crew: crewOf(s),
	}
	for _, f := range page.FiguresOf(s.Line) {
		if f.Unit == "sets" {
			doc.Sets[f.Name] = of(f.Of)
		}
	}
	if s.Line.Personalised() {
		remakes := of(func(s *model.Shift) float64 { return s.Remakes })
		doc.Remakes = &remakes
	}
	if s.Line.Job.Sets > 0 {
		doc.Job = jobOf(s)
	}
	doc.Doubt = doubtDocument(x.doubt)
	for i := range s.Total.Stations {
		doc.Stations = append(doc.Stations, stationOf(s, i))
	}
	return page.WriteDocument(to, doc)
}

// key returns a name as a key of the document: words joined by underscores.
func key(name string) string { return strings.ReplaceAll(name, " ", "_") }
