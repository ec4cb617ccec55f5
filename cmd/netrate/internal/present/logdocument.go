package present

import "netrate/cmd/netrate/internal/page"

// head is how the documents of a log begin.
type head struct {
	Version string   `json:"version"`
	Command string   `json:"command"`
	Finding string   `json:"finding"`
	Notes   []string `json:"notes"`
}

// Document returns all that was learnt, as JSON has it.
func (f Fit) Document(version string) any {
	return page.Joined{
		Head: struct {
			Format int `json:"netrate_fit_json"`
			head
		}{page.JSONVersion, head{version, f.Command, f.Finding(), f.Notes()}},
		Answer: f.FitAnswer,
	}
}

// Document returns all that was compared, as JSON has it.
func (p Replay) Document(version string) any {
	return page.Joined{
		Head: struct {
			Format int `json:"netrate_against_json"`
			head
			Scenario page.ScenarioJSON `json:"scenario"`
		}{page.JSONVersion, head{version, p.Command, p.Finding(), p.Notes()}, page.ScenarioOf(p.Origin.Scenario, p.Origin.Text)},
		Answer: p.ReplayAnswer,
	}
}
