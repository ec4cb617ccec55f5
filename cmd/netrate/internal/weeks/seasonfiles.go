package weeks

import (
	"encoding/csv"
	"io"
	"strconv"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/sim"
)

// writeCSV writes a row for each season and week of each configuration.
func (s *seasons) writeCSV(to io.Writer) error {
	w := csv.NewWriter(to)
	if err := w.Write([]string{"line", "replication", "week", "name", "sets", "work_h", "changeover_h", "overtime_h", "backlog_sets"}); err != nil {
		return err
	}
	digits := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	for _, x := range s.done() {
		for r := range x.study.Done {
			for i := range x.study.Weeks {
				week := &x.study.Weeks[i]
				row := []string{
					say.Safe(x.name), strconv.Itoa(r), strconv.Itoa(i + 1), say.Safe(x.season.Weeks[i].Name), strconv.FormatInt(setsOf(x.season.Weeks[i]), 10),
					digits(week.Work[r]), digits(x.changed(i, r)), digits(week.Overtime[r]), digits(week.Backlog[r]),
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

// changed returns the hours of changeovers in a week of one replication.
func (x *seasonRun) changed(week, replication int) (hours float64) {
	for _, j := range x.study.Jobs {
		if j.Week == week {
			hours += j.Change[replication]
		}
	}
	return hours
}

// seasonDocument is what the seasons came to.
type seasonDocument struct {
	Format   int               `json:"netrate_json"`
	Version  string            `json:"version"`
	Scenario page.ScenarioJSON `json:"scenario"`
	Settings page.SettingsJSON `json:"settings"`
	Service  *serviceJSON      `json:"service,omitempty"`
	Lines    []seasonRunJSON   `json:"lines"` // the base first
}

type serviceJSON struct {
	Asked    page.Number `json:"asked"`
	Smallest string      `json:"smallest,omitempty"` // none has it if there is none
}

type seasonRunJSON struct {
	Name         string           `json:"name"`
	Changes      []string         `json:"changes,omitempty"`
	Operators    int              `json:"operators"`
	Order        string           `json:"order"`
	Hours        page.Number      `json:"working_time_h"` // of a week
	Work         spreadJSON       `json:"work_h"`         // of all weeks
	InTime       inTimeJSON       `json:"all_weeks_in_time"`
	ChangesGiven page.Number      `json:"changeovers_as_given_h"`
	ChangesBest  page.Number      `json:"changeovers_in_best_order_h"`
	Weeks        []seasonWeekJSON `json:"weeks"`
	Jobs         []seasonJobJSON  `json:"jobs"`
}

type inTimeJSON struct {
	Share page.Number `json:"share"`
	Low   page.Number `json:"low"`
	High  page.Number `json:"high"`
	Level page.Number `json:"level"`
}

type seasonWeekJSON struct {
	Name     string      `json:"name"`
	Sets     int64       `json:"sets"`
	Work     spreadJSON  `json:"work_h"`
	InTime   page.Number `json:"in_time"`
	Overtime spreadJSON  `json:"overtime_h"`
	Backlog  spreadJSON  `json:"backlog_sets"`
}

type seasonJobJSON struct {
	Week     int        `json:"week"`
	Name     string     `json:"name"`
	Sets     int64      `json:"sets"`
	Change   spreadJSON `json:"changeover_h"`
	Run      spreadJSON `json:"run_h"`
	Finished spreadJSON `json:"finished_h"` // of working time from the start of the season, without overtime
	Median   string     `json:"finished_median"`
	P90      string     `json:"finished_p90"`
}

// spreadJSON is the mean of a sample, with the half-width of its interval, and its
// percentiles.
type spreadJSON struct {
	page.MeanJSON
	P50 page.Number `json:"p50"`
	P90 page.Number `json:"p90"`
	P99 page.Number `json:"p99"`
}

func spreadOfJSON(s sim.Sample) spreadJSON {
	e := s.Interval(say.Level)
	return spreadJSON{page.MeanOf(e), page.Number(s.Quantile(0.5)), page.Number(s.Quantile(0.9)), page.Number(s.Quantile(0.99))}
}

func (s *seasons) document() *seasonDocument {
	base := s.runs[0].study
	doc := &seasonDocument{
		Format: page.JSONVersion, Version: desk.Version(),
		Scenario: page.ScenarioOf(s.Scenario, s.Source),
		Settings: page.SettingsOf(s.plan, base.Done, base.Ending),
	}
	doc.Settings.Partial = s.partial()
	if s.service > 0 {
		doc.Service = &serviceJSON{Asked: page.Number(s.service)}
		if x := s.smallest(); x != nil {
			doc.Service.Smallest = x.name
		}
	}
	for _, x := range s.done() {
		doc.Lines = append(doc.Lines, x.document())
	}
	return doc
}

func (x *seasonRun) document() seasonRunJSON {
	t, order := x.inTime(), "given"
	if x.season.Best {
		order = "best"
	}
	doc := seasonRunJSON{
		Name: x.name, Changes: x.changes, Operators: x.operators(), Order: order, Hours: page.Number(x.study.Hours),
		Work: spreadOfJSON(x.work()), InTime: inTimeJSON{page.Number(t.share), page.Number(t.low), page.Number(t.high), say.Level},
		ChangesGiven: page.Number(x.given / 3600), ChangesBest: page.Number(x.best / 3600),
	}
	for i := range x.study.Weeks {
		w := &x.study.Weeks[i]
		doc.Weeks = append(doc.Weeks, seasonWeekJSON{
			x.season.Weeks[i].Name, setsOf(x.season.Weeks[i]), spreadOfJSON(w.Work), page.Number(w.InTime()), spreadOfJSON(w.Overtime), spreadOfJSON(w.Backlog),
		})
	}
	clock := x.season.Calendar.Clock()
	for _, j := range x.study.Jobs {
		doc.Jobs = append(doc.Jobs, jobDocument(x.season, clock, j))
	}
	return doc
}

func jobDocument(s *model.Season, clock *model.Clock, j model.SeasonJob) seasonJobJSON {
	return seasonJobJSON{
		j.Week + 1, s.Products[j.Product].Name, j.Sets, spreadOfJSON(j.Change), spreadOfJSON(j.Hours), spreadOfJSON(j.Finished),
		moment(clock, j.Finished.Quantile(0.5)), moment(clock, j.Finished.Quantile(0.9)),
	}
}
