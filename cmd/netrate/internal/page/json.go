package page

import (
	"encoding/json"
	"io"
	"math"
	"strconv"

	"netrate/scenarios"
	"netrate/sim"
)

// WriteDocument writes JSON as people can read it.
func WriteDocument(to io.Writer, document any) error {
	encoder := json.NewEncoder(to)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(document)
}

// JSONVersion is raised when a field of the document changes its name or its meaning.
const JSONVersion = 1

// Number is a figure with at most nine digits, the most that means anything; null where
// nothing is known.
type Number float64

// MarshalJSON returns the figure as JSON has it.
func (n Number) MarshalJSON() ([]byte, error) {
	if math.IsInf(float64(n), 0) || math.IsNaN(float64(n)) {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, float64(n), 'g', 9, 64), nil
}

// MeanJSON is a mean over the shifts with the half-width of its interval.
type MeanJSON struct {
	Mean Number `json:"mean"`
	Half Number `json:"half"`
}

// ScenarioJSON is a scenario as every document has it: enough to run it again.
type ScenarioJSON struct {
	Name     string `json:"name"`
	Question string `json:"question,omitempty"`
	File     string `json:"file"`
	Digest   string `json:"digest"`
	Source   string `json:"source"` // the file itself
}

// SettingsJSON is what was run, and how it ended.
type SettingsJSON struct {
	Seed      uint64 `json:"seed"`
	Reps      int    `json:"reps"` // done
	Min       int    `json:"min"`
	Max       int    `json:"max"`
	Precision Number `json:"precision"`
	Ending    string `json:"ending"`
	Partial   bool   `json:"partial"`
}

// MeanOf returns an estimate as the document has it.
func MeanOf(e sim.Estimate) MeanJSON { return MeanJSON{Number(e.Mean), Number(e.Half)} }

// ScenarioOf returns a scenario as the document has it; text is the file itself.
func ScenarioOf(sc *scenarios.Scenario, text []byte) ScenarioJSON {
	return ScenarioJSON{sc.Name, sc.Question, sc.File, sc.Digest, string(text)}
}

// SettingsOf returns what was run: the plan, how many replications were done, and why the
// run ended.
func SettingsOf(plan sim.Plan, done int, ending sim.Ending) SettingsJSON {
	return SettingsJSON{
		plan.Seed, done, plan.Min, plan.Max, Number(plan.Precision), endingWord(ending), ending == sim.Cancelled,
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
