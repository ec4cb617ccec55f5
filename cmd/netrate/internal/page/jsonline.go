package page

import (
	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/sim"
)

// NetRateJSON is a net rate as every document has it, with the percentiles of single
// shifts.
type NetRateJSON struct { // good envelopes an hour
	MeanJSON
	Level Number `json:"level"`
	N     int    `json:"n"`
	P5    Number `json:"p5"`
	P50   Number `json:"p50"`
	P95   Number `json:"p95"`
}

// NetRateOf returns the net rate of a study as the documents have it.
func NetRateOf(s *model.Study) NetRateJSON {
	rates := s.NetRates()
	e := rates.Interval(say.Level)
	return NetRateJSON{
		MeanOf(e),
		Number(e.Level), e.N,
		Number(rates.Quantile(0.05)), Number(rates.Quantile(0.5)), Number(rates.Quantile(0.95)),
	}
}

// LineDocument is how the documents of the verbs about one line begin; each has a version
// of its own.
type LineDocument struct {
	Version  string       `json:"version"`
	Scenario ScenarioJSON `json:"scenario"`
	Settings SettingsJSON `json:"settings"`
	Finding  string       `json:"finding"`
}

// DocumentOf returns the beginning of the document of a verb about one line.
func DocumentOf(s *desk.Subject, study *model.Study, finding string) LineDocument {
	return LineDocument{
		desk.Version(),
		ScenarioOf(s.Scenario, s.Source),
		SettingsOf(study.Plan, len(study.Shifts), study.Ending),
		finding,
	}
}

// DifferenceJSON is a paired difference of net rates, good envelopes an hour.
type DifferenceJSON struct {
	MeanJSON
	Level Number `json:"level"`
	Wins  Number `json:"wins"` // share of the shifts in which it was above 0
}

// DifferenceOf returns the difference that a comparison shows as the documents have it.
func DifferenceOf(c sim.Comparison) *DifferenceJSON {
	d := c.Difference
	return &DifferenceJSON{MeanOf(d), Number(d.Level), Number(c.Wins)}
}
