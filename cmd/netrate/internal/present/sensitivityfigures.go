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
		Axis: "Change of the net rate, good envelopes an hour (~ none shown)",
	}
	for _, x := range a.Effects[:min(len(a.Effects), ShownEffects)] {
		lower, ifLower := sensitivityBar(&x.Lower)
		higher, ifHigher := sensitivityBar(&x.Higher)
		d.Inputs = append(d.Inputs, plots.Input{Name: x.Name, Lower: lower, Higher: higher, IfLower: ifLower, IfHigher: ifHigher})
	}
	return plots.Tornado(d)
}

// sensitivityBar returns the value of a move with what is to be known of it, and what it gains.
func sensitivityBar(m *study.SensitivityMove) (value string, gain float64) {
	switch {
	case m.Change == nil:
		return "not run", 0
	case !m.Change.Shown():
		return "~ " + m.Value, float64(m.Change.Mean)
	}
	return m.Value, float64(m.Change.Mean)
}
