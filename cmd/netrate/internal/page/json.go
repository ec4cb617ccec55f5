package page

import (
	"bytes"
	"cmp"
	"encoding/json"
	"io"
	"slices"

	"netrate/scenarios"
)

// WriteDocument writes JSON as people can read it.
func WriteDocument(to io.Writer, document any) error {
	encoder := json.NewEncoder(to)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(document)
}

// Joined is a document that begins with a head, and goes on with an answer field by field. Both
// are encoded as objects with a field at least.
type Joined struct{ Head, Answer any }

// MarshalJSON returns the one object of both.
func (j Joined) MarshalJSON() ([]byte, error) {
	var both []byte
	for _, part := range []any{j.Head, j.Answer} {
		var b bytes.Buffer
		encoder := json.NewEncoder(&b)
		encoder.SetEscapeHTML(false)
		if err := encoder.Encode(part); err != nil {
			return nil, err
		}
		fields := bytes.Trim(b.Bytes(), "\n")
		both = append(append(both, ','), fields[1:len(fields)-1]...)
	}
	both[0] = '{'
	return append(both, '}'), nil
}

// DocumentOf returns an answer about a scenario as a document.
func DocumentOf(version string, from Origin, answer any) any {
	return Joined{
		struct {
			Format   int          `json:"netrate_json"`
			Version  string       `json:"version"`
			Scenario ScenarioJSON `json:"scenario"`
		}{JSONVersion, version, ScenarioOf(from.Scenario, from.Text)},
		answer,
	}
}

// JSONVersion is raised when a field of the document changes its name or its meaning.
const JSONVersion = 2

// ScenarioJSON is a scenario as every document has it: enough to run it again.
type ScenarioJSON struct {
	Name     string `json:"name"`
	Question string `json:"question,omitempty"`
	File     string `json:"file"`
	Digest   string `json:"digest"`
	Source   string `json:"source"` // the file itself

	Variant  string        `json:"variant,omitempty"`  // of the file, as which it was taken
	Job      string        `json:"job,omitempty"`      // for which the line was set up
	Settings []SettingJSON `json:"settings,omitempty"` // made to it for this answer

	Stated []StatedJSON `json:"stated"`
}

// StatedJSON is what the file, or one of its presets, says of what is simulated. Of a variant there
// is what the file itself does not say.
type StatedJSON struct {
	Variant string `json:"variant,omitempty"`
	Line    string `json:"line,omitempty"` // where there are several
	Station string `json:"station,omitempty"`
	Key     string `json:"key"`
	Value   string `json:"value"`
	Source  string `json:"source"` // "not stated" if it has none
}

// SettingJSON is a value that was set for an answer, and what the file says.
type SettingJSON struct {
	Path  string `json:"path"`
	Value string `json:"value"`
	Was   string `json:"was"`
}

// ScenarioOf returns a scenario as the document has it; text is the file itself.
func ScenarioOf(sc *scenarios.Scenario, text []byte) ScenarioJSON {
	doc := ScenarioJSON{Name: sc.Name, Question: sc.Question, File: sc.File, Digest: sc.Digest, Source: string(text), Variant: sc.Variant, Job: sc.Job}
	for _, m := range sc.Made {
		doc.Settings = append(doc.Settings, SettingJSON{m.Path, m.Value, m.Was})
	}
	doc.Stated = statedJSON(sc)
	return doc
}

func statedJSON(sc *scenarios.Scenario) []StatedJSON {
	all := []StatedJSON{}
	base := sc.Stated()
	add := func(variant string, s scenarios.Statement) {
		all = append(all, StatedJSON{variant, s.Line, s.Station, s.Key, s.Value, cmp.Or(s.Source, scenarios.NotStated)})
	}
	for _, s := range base {
		add("", s)
	}
	for _, v := range sc.Variants {
		for _, s := range v.Stated() {
			if !slices.Contains(base, s) {
				add(v.Name, s)
			}
		}
	}
	return all
}
