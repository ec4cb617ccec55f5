package main

import (
	"encoding/json"
	"io"
	"math"
	"strconv"
	"strings"

	"netrate/model"
	"netrate/sim"
)

// jsonVersion is raised when a field of the document changes its name or its meaning.
const jsonVersion = 1

// number is a figure with at most nine digits, the most that means anything; null where
// nothing is known.
type number float64

// MarshalJSON returns the figure as JSON has it.
func (n number) MarshalJSON() ([]byte, error) { //nolint:unparam // json.Marshaler wants the error
	if math.IsInf(float64(n), 0) || math.IsNaN(float64(n)) {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, float64(n), 'g', 9, 64), nil
}

// mean is a mean over the shifts with the half-width of its interval.
type mean struct {
	Mean number `json:"mean"`
	Half number `json:"half"`
}

type document struct {
	Format   int            `json:"netrate_json"`
	Version  string         `json:"version"`
	Scenario scenarioJSON   `json:"scenario"`
	Settings settingsJSON   `json:"settings"`
	NetRate  netRateJSON    `json:"net_rate"`
	Hand     handJSON       `json:"hand"`
	Time     timeJSON       `json:"time"`
	Sets     map[string]any `json:"sets"`
	Stations []stationJSON  `json:"stations"`
	Crew     crewJSON       `json:"crew"`
	Remakes  *mean          `json:"remakes,omitempty"` // of a personalised line
	Job      *jobJSON       `json:"job,omitempty"`     // if the work is a job and not a shift
	Doubt    *doubtJSON     `json:"doubt,omitempty"`   // if something is in doubt, and was drawn
}

type scenarioJSON struct {
	Name     string `json:"name"`
	Question string `json:"question,omitempty"`
	File     string `json:"file"`
	Digest   string `json:"digest"`
	Source   string `json:"source"` // the file itself
}

type settingsJSON struct {
	Seed      uint64 `json:"seed"`
	Reps      int    `json:"reps"` // done
	Min       int    `json:"min"`
	Max       int    `json:"max"`
	Precision number `json:"precision"`
	Ending    string `json:"ending"`
	Partial   bool   `json:"partial"`
}

type netRateJSON struct { // good envelopes an hour
	mean
	Level number `json:"level"`
	N     int    `json:"n"`
	P5    number `json:"p5"`
	P50   number `json:"p50"`
	P95   number `json:"p95"`
}

type timeJSON struct {
	Shift      number `json:"shift_s"`
	Running    mean   `json:"running_s"`
	Waiting    mean   `json:"waiting_s"`
	Working    mean   `json:"working_s"`
	Restarting mean   `json:"restarting_s"`
	Starved    mean   `json:"starved_s"`
}

// writeJSON writes all that a study came to. All figures but the net rate are a shift.
func writeJSON(to io.Writer, version string, x entrant, source []byte) error {
	sc, s := x.scenario, x.study
	of := func(figure func(*model.Shift) float64) mean {
		e := s.Sample(figure).Interval(level)
		return mean{number(e.Mean), number(e.Half)}
	}
	doc := document{
		Format: jsonVersion, Version: version,
		Scenario: scenarioJSON{sc.Name, sc.Question, sc.File, sc.Digest, string(source)},
		Settings: settingsJSON{
			s.Plan.Seed, len(s.Shifts), s.Plan.Min, s.Plan.Max, number(s.Plan.Precision),
			endingWord(s.Ending), s.Ending == sim.Cancelled,
		},
		NetRate: netRateOf(s),
		Hand:    handOf(s.Line),
		Time: timeJSON{
			Shift:      number(s.Line.Shift),
			Running:    of(func(s *model.Shift) float64 { return s.Running }),
			Waiting:    of(func(s *model.Shift) float64 { return s.Waiting }),
			Working:    of(func(s *model.Shift) float64 { return s.Working }),
			Restarting: of(func(s *model.Shift) float64 { return s.Restarting }),
			Starved:    of(func(s *model.Shift) float64 { return s.Starved }),
		},
		Sets: map[string]any{"can_be_defective": canBeDefective(s.Line), "started": of(started)},
		Crew: crewOf(s),
	}
	for _, f := range figuresOf(s.Line) {
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
	encoder := json.NewEncoder(to)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(doc)
}

func netRateOf(s *model.Study) netRateJSON {
	rates := s.NetRates()
	e := rates.Interval(level)
	return netRateJSON{
		mean{number(e.Mean), number(e.Half)},
		number(e.Level), e.N,
		number(rates.Quantile(0.05)), number(rates.Quantile(0.5)), number(rates.Quantile(0.95)),
	}
}

// endingWord returns the word of the document for an ending.
func endingWord(e sim.Ending) string {
	switch e {
	case sim.Precise:
		return "precise"
	case sim.AtMost:
		return "at_most"
	case sim.Cancelled:
		return "cancelled"
	}
	panic("netrate: a study without an ending")
}

// key returns a name as a key of the document: words joined by underscores.
func key(name string) string { return strings.ReplaceAll(name, " ", "_") }
