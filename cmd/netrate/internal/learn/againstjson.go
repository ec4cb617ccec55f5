package learn

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/sim"
)

// againstDocument is how a log compares with simulated records.
type againstDocument struct {
	Format   int               `json:"netrate_against_json"`
	Version  string            `json:"version"`
	Command  string            `json:"command"`
	Scenario page.ScenarioJSON `json:"scenario"`
	Seed     uint64            `json:"seed"`
	Records  int               `json:"records"` // simulated
	Partial  bool              `json:"partial"`
	Level    page.Number       `json:"level"` // of the middle of simulated records
	Holm     page.Number       `json:"holm"`  // what P of the tests are held against together
	Finding  string            `json:"finding"`
	Log      study.LogFile     `json:"log"`
	Counts   study.LogFile     `json:"counts"`
	Only     *study.LogOnly    `json:"only,omitempty"` // nothing if all rows were taken
	Work     string            `json:"work"`           // station whose feeds it is
	Periods  []againstPeriod   `json:"periods"`
	Tests    []againstTest     `json:"tests"`
	Stops    []againstCause    `json:"stops"`
	LeftOut  againstLeftOut    `json:"left_out"`
	Notes    []string          `json:"notes"`
}

type againstPeriod struct {
	Name    string          `json:"name"`
	Begins  string          `json:"begins"`
	Sets    int64           `json:"sets"`
	Speed   page.Number     `json:"speed_per_h"` // simulated
	Stops   againstCompared `json:"stops"`
	Seconds againstCompared `json:"seconds"`
}

// againstCompared is a figure of the log and of the simulated records.
type againstCompared struct {
	Log  page.Number `json:"log"`
	Mean page.Number `json:"mean"`
	Low  page.Number `json:"low"`
	High page.Number `json:"high"`
}

type againstTest struct {
	Figure string `json:"figure"`
	againstCompared
	P         page.Number `json:"p"`
	OutOfLine bool        `json:"out_of_line"`
}

type againstCause struct {
	Station string          `json:"station"`
	Cause   string          `json:"cause"`
	Stops   againstCompared `json:"stops"`
	Seconds againstCompared `json:"seconds"`
	Outside bool            `json:"outside"` // of the middle of simulated stops
}

type againstLeftOut struct {
	Stocks      bool           `json:"stocks"` // as the log has no stops for them
	Stations    []string       `json:"stations,omitempty"`
	NotInLine   map[string]int `json:"stops_at_other_stations,omitempty"`
	Before      int            `json:"stops_before_the_first_period"`
	WithoutWork int            `json:"stops_in_periods_without_work"`
	Uncounted   int            `json:"stops_at_stations_without_feeds"`
	Others      int            `json:"stops_for_other_causes"`
	CutOff      int            `json:"compared_but_cut_off"`
}

// figureKeys are the figures of the tests as the document has them.
var figureKeys = map[model.RecordFigure]string{
	model.AllStops: "stops", model.AllSeconds: "seconds",
	model.VaryingStops: "dispersion_of_stops", model.VaryingSeconds: "dispersion_of_seconds",
}

func comparedOf(log float64, simulated sim.Sample) againstCompared {
	low, high := study.ReplayMiddle(simulated)
	return againstCompared{page.Number(log), page.Number(simulated.Mean()), page.Number(low), page.Number(high)}
}

// document returns all that was compared.
func documentOf(x present.Replay, version string) againstDocument {
	doc := againstDocument{
		Format: page.JSONVersion, Version: version, Command: x.Command,
		Scenario: page.ScenarioOf(x.Origin.Scenario, x.Origin.Text),
		Seed:     x.Plan.Seed, Records: len(x.Drawn), Partial: x.Ending == sim.Cancelled, Level: say.Level, Holm: study.ShownP,
		Finding: x.Finding(), Log: x.Log.StopFile, Counts: x.Log.CountFile,
		Only: x.Log.Only, Work: x.Work, Periods: periodsOf(x), LeftOut: leftOutOf(x), Notes: x.Notes(),
	}
	for _, t := range x.Tests {
		doc.Tests = append(doc.Tests, againstTest{figureKeys[t.Figure], comparedOf(t.Log, t.Simulated), page.Number(t.P), t.Out})
	}
	for _, r := range x.Rows() {
		doc.Stops = append(doc.Stops, againstCause{
			r.Station, r.Cause, comparedOf(float64(r.Log.Stops), r.Stops), comparedOf(float64(r.Log.Seconds), r.Seconds), r.Side() != 0,
		})
	}
	return doc
}

func periodsOf(x present.Replay) (all []againstPeriod) {
	for i, p := range x.Periods {
		var stops, seconds sim.Sample
		for _, r := range x.Drawn {
			stops, seconds = append(stops, float64(r.Periods[i].Stops)), append(seconds, float64(r.Periods[i].Seconds))
		}
		log := x.Logged.Periods[i]
		all = append(all, againstPeriod{
			p.Name, p.Begins.Format("2006-01-02T15:04:05Z07:00"), p.Sets, page.Number(x.SpeedOf(p)),
			comparedOf(float64(log.Stops), stops), comparedOf(float64(log.Seconds), seconds),
		})
	}
	return all
}

func leftOutOf(x present.Replay) againstLeftOut {
	return againstLeftOut{
		Stocks: !x.Stocks, Stations: x.LeftOut(), NotInLine: x.Left.Strangers, Before: x.Left.Before, WithoutWork: x.Left.Idle,
		Uncounted: x.Left.Uncounted, Others: x.Left.Others, CutOff: x.Left.CutOff,
	}
}
