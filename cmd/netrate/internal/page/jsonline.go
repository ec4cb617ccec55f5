package page

// LineDocument is how the documents of the verbs about one line begin; each has a version
// of its own.
type LineDocument struct {
	Version  string       `json:"version"`
	Scenario ScenarioJSON `json:"scenario"`
	Finding  string       `json:"finding"`
}

// LineDocumentOf returns the beginning of the document of a verb about one line.
func LineDocumentOf(version string, from Origin, finding string) LineDocument {
	return LineDocument{version, ScenarioOf(from.Scenario, from.Text), finding}
}
