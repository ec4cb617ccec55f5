package page

import "netrate/cmd/netrate/internal/desk"

// LineDocument is how the documents of the verbs about one line begin; each has a version
// of its own.
type LineDocument struct {
	Version  string       `json:"version"`
	Scenario ScenarioJSON `json:"scenario"`
	Finding  string       `json:"finding"`
}

// DocumentOf returns the beginning of the document of a verb about one line.
func DocumentOf(s *desk.Subject, finding string) LineDocument {
	return LineDocument{desk.Version(), ScenarioOf(s.Scenario, s.Source), finding}
}
