package study

import (
	"math"

	"netrate/model/runs"
	"netrate/sim"
)

// MarshalJSON returns all that was compared.
func (a *ReplayAnswer) MarshalJSON() ([]byte, error) {
	e := replayEncoding{
		Seed: a.Plan.Seed, Records: len(a.Drawn), Partial: a.Ending == sim.Cancelled || a.Ending == 0, Level: Level, Holm: ShownP,
		Log: a.Log.StopFile, Counts: a.Log.CountFile, Only: a.Log.Only, Work: a.Work, Periods: a.periodsEncoding(),
		LeftOut: replayLeftOutEncoding{
			Stocks: !a.Stocks, Stations: a.LeftOut(), NotInLine: a.Left.Strangers, Before: a.Left.Before, WithoutWork: a.Left.Idle,
			Uncounted: a.Left.Uncounted, Others: a.Left.Others, CutOff: a.Left.CutOff,
		},
	}
	for _, t := range a.Tests {
		e.Tests = append(e.Tests, replayTestEncoding{replayFigures[t.Figure], besideEncoding(t.Log, t.Simulated), Number(t.P), t.Out})
	}
	for _, r := range a.Rows() {
		e.Stops = append(e.Stops, replayRowEncoding{
			r.Station, r.Cause, besideEncoding(float64(r.Log.Stops), r.Stops), besideEncoding(float64(r.Log.Seconds), r.Seconds), r.Side() != 0,
		})
	}
	return unescaped(e)
}

type replayEncoding struct {
	Seed    uint64                 `json:"seed"`
	Records int                    `json:"records"` // simulated
	Partial bool                   `json:"partial"`
	Level   Number                 `json:"level"` // of the middle of simulated records
	Holm    Number                 `json:"holm"`  // what P of the tests are held against together
	Log     LogFile                `json:"log"`
	Counts  LogFile                `json:"counts"`
	Only    *LogOnly               `json:"only,omitempty"` // nothing if all rows were taken
	Work    string                 `json:"work"`           // station whose feeds it is
	Periods []replayPeriodEncoding `json:"periods"`
	Tests   []replayTestEncoding   `json:"tests"`
	Stops   []replayRowEncoding    `json:"stops"`
	LeftOut replayLeftOutEncoding  `json:"left_out"`
}

// replayBeside is a figure of the log and of the simulated records.
type replayBeside struct {
	Log  Number `json:"log"`
	Mean Number `json:"mean"`
	Low  Number `json:"low"`
	High Number `json:"high"`
}

func besideEncoding(log float64, simulated sim.Sample) replayBeside {
	if len(simulated) == 0 {
		nothing := Number(math.NaN())
		return replayBeside{Number(log), nothing, nothing, nothing}
	}
	low, high := ReplayMiddle(simulated)
	return replayBeside{Number(log), Number(simulated.Mean()), Number(low), Number(high)}
}

type replayPeriodEncoding struct {
	Name    string       `json:"name"`
	Begins  string       `json:"begins"`
	Sets    int64        `json:"sets"`
	Speed   Number       `json:"speed_per_h"` // simulated
	Stops   replayBeside `json:"stops"`
	Seconds replayBeside `json:"seconds"`
}

func (a *ReplayAnswer) periodsEncoding() (all []replayPeriodEncoding) {
	for i, p := range a.Periods {
		var stops, seconds sim.Sample
		for _, r := range a.Drawn {
			stops, seconds = append(stops, float64(r.Periods[i].Stops)), append(seconds, float64(r.Periods[i].Seconds))
		}
		log := a.Logged.Periods[i]
		all = append(all, replayPeriodEncoding{
			p.Name, p.Begins.Format("2006-01-02T15:04:05Z07:00"), p.Sets, Number(a.SpeedOf(p)),
			besideEncoding(float64(log.Stops), stops), besideEncoding(float64(log.Seconds), seconds),
		})
	}
	return all
}

// replayFigures are the names of what is tested.
var replayFigures = map[runs.RecordFigure]string{
	runs.AllStops: "stops", runs.AllSeconds: "seconds",
	runs.VaryingStops: "dispersion_of_stops", runs.VaryingSeconds: "dispersion_of_seconds",
}

type replayTestEncoding struct {
	Figure string `json:"figure"`
	replayBeside
	P         Number `json:"p"`
	OutOfLine bool   `json:"out_of_line"`
}

type replayRowEncoding struct {
	Station string       `json:"station"`
	Cause   string       `json:"cause"`
	Stops   replayBeside `json:"stops"`
	Seconds replayBeside `json:"seconds"`
	Outside bool         `json:"outside"` // of the middle of simulated stops
}

type replayLeftOutEncoding struct {
	Stocks      bool           `json:"stocks"` // as the log has no stops for them
	Stations    []string       `json:"stations,omitempty"`
	NotInLine   map[string]int `json:"stops_at_other_stations,omitempty"`
	Before      int            `json:"stops_before_the_first_period"`
	WithoutWork int            `json:"stops_in_periods_without_work"`
	Uncounted   int            `json:"stops_at_stations_without_feeds"`
	Others      int            `json:"stops_for_other_causes"`
	CutOff      int            `json:"compared_but_cut_off"`
}
