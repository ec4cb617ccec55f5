package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// ShownEffects is how many effects have room in a figure, and on a screen.
const ShownEffects = 15

// SensitivityFigure shows the first effects on what is called so; what cannot be has no bar, and
// says so.
func SensitivityFigure(a *study.SensitivityAnswer, name string) (*plots.Figure, error) {
	d := plots.TornadoData{
		Head: plots.Head{
			Title: SensitivityFinding(a),
			Subtitle: fmt.Sprintf("%s: change of the net rate, each rate or time divided and multiplied by %s; %s",
				name, say.Exact(float64(a.Factor)), page.SampleEach(a.Base)),
		},
		Axis:    "Change of the net rate, good envelopes an hour",
		LeftOut: max(0, len(a.Effects)-ShownEffects),
	}
	for _, x := range a.Effects[:min(len(a.Effects), ShownEffects)] {
		d.Inputs = append(d.Inputs, plots.Input{Name: x.Name, Lower: sensitivityBar(&x.Lower), Higher: sensitivityBar(&x.Higher)})
	}
	return plots.Tornado(d)
}

// sensitivityBar returns what a move gains, and to what it sets its input.
func sensitivityBar(m *study.SensitivityMove) plots.Change {
	if m.Change == nil {
		return plots.Change{Setting: m.Value, Not: "not run"}
	}
	return plots.Change{Setting: m.Value, By: m.Change.Estimate()}
}
