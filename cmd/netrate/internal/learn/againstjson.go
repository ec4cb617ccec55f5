package learn

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
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
	Log      readJSON          `json:"log"`
	Counts   readJSON          `json:"counts"`
	Only     *onlyJSON         `json:"only,omitempty"` // nothing if all rows were taken
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
	low, high := middle(simulated)
	return againstCompared{page.Number(log), page.Number(simulated.Mean()), page.Number(low), page.Number(high)}
}

// document returns all that was compared.
func (x *against) document(version string) againstDocument {
	doc := againstDocument{
		Format: page.JSONVersion, Version: version, Command: x.again,
		Scenario: page.ScenarioOf(x.Scenario, x.source),
		Seed:     x.plan.Seed, Records: len(x.drawn), Partial: x.ending == sim.Cancelled, Level: say.Level, Holm: usualP,
		Finding: x.finding(), Log: readOf(x.records.logFile, x.records.log), Counts: readOf(x.records.countFile, x.records.counts),
		Only: onlyOf(x.records), Work: x.worker, Periods: x.periodsJSON(), LeftOut: x.leftOutJSON(), Notes: x.notes(),
	}
	for _, t := range x.tests {
		doc.Tests = append(doc.Tests, againstTest{figureKeys[t.Figure], comparedOf(t.Log, t.Simulated), page.Number(t.P), t.Out})
	}
	for _, r := range x.rows() {
		doc.Stops = append(doc.Stops, againstCause{
			r.station, r.cause, comparedOf(float64(r.log.Stops), r.stops), comparedOf(float64(r.log.Seconds), r.seconds), r.outside() != "",
		})
	}
	return doc
}

func (x *against) periodsJSON() (all []againstPeriod) {
	for i, p := range x.periods {
		line := x.line
		if p.Speed > 0 {
			line.Speed = p.Speed
		}
		var stops, seconds sim.Sample
		for _, r := range x.drawn {
			stops, seconds = append(stops, float64(r.Periods[i].Stops)), append(seconds, float64(r.Periods[i].Seconds))
		}
		log := x.log.Periods[i]
		all = append(all, againstPeriod{
			p.Name, p.begins.Format("2006-01-02T15:04:05Z07:00"), p.Sets, page.Number(line.RunSpeed()),
			comparedOf(float64(log.Stops), stops), comparedOf(float64(log.Seconds), seconds),
		})
	}
	return all
}

func (x *against) leftOutJSON() againstLeftOut {
	l := againstLeftOut{
		Stocks: !x.stocks, NotInLine: x.left.strangers, Before: x.left.before, WithoutWork: x.left.idle,
		Uncounted: x.left.uncounted, Others: x.left.others, CutOff: x.left.cut,
	}
	for i, out := range x.out {
		if out {
			l.Stations = append(l.Stations, x.line.Stations[i].Where().Name)
		}
	}
	return l
}
