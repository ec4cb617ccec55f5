package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/plots"
)

const sweepAxis = "Net rate, good envelopes an hour"

// SweepFigure returns the picture of a sweep of what is called so: a curve, bars for words, or a
// table of two parameters.
func SweepFigure(a *study.SweepAnswer, name string) (*plots.Figure, error) {
	head := plots.Head{
		Title:    SweepFinding(a),
		Subtitle: fmt.Sprintf("%s: net rate by %s; %s", name, SweepPaths(a), page.SampleEach(a.Points[0].Study)),
	}
	switch {
	case len(a.Vary) == 2:
		return sweepHeat(a, head)
	case a.Vary[0].Words():
		return sweepWords(a, head)
	}
	return sweepCurve(a, head)
}

func sweepCurve(a *study.SweepAnswer, head plots.Head) (*plots.Figure, error) {
	d := plots.SweepData{Head: head, Parameter: sweepParameter(&a.Vary[0]), Axis: sweepAxis}
	line := plots.SweepCurve{Name: "net rate"}
	for i := range a.Points {
		line.Points = append(line.Points, plots.SweepPoint{X: float64(a.Vary[0].Values[i].Number), Y: a.Points[i].NetRate.Estimate()})
	}
	d.Curves = []plots.SweepCurve{line}
	if p := a.Peak; p != nil && !p.Edge {
		d.Peak = &plots.Peak{X: float64(p.At), Low: float64(min(p.Low, p.At)), High: float64(max(p.High, p.At))}
	}
	return plots.Sweep(d)
}

// sweepParameter returns a path with the unit of its values.
func sweepParameter(v *study.SweepParameter) string {
	switch v.Unit {
	case "/h":
		return v.Path + ", cycles an hour"
	case "":
		return v.Path
	}
	return v.Path + ", " + v.Unit
}

// sweepWords compares each word with the best.
func sweepWords(a *study.SweepAnswer, head plots.Head) (*plots.Figure, error) {
	d := plots.DifferencesData{
		Head: head,
		Axis: fmt.Sprintf("Net rate less that of %s, good envelopes an hour", SweepLabel(a, a.Best)),
	}
	for i := range a.Points {
		if i != a.Best {
			d.Rows = append(d.Rows, plots.Difference{Name: sweepValue(a, i), Mean: a.Points[i].FromBest.Estimate()})
		}
	}
	return plots.Differences(d)
}

func sweepHeat(a *study.SweepAnswer, head plots.Head) (*plots.Figure, error) {
	across, down := &a.Vary[0], &a.Vary[1]
	rows := len(down.Values)
	d := plots.HeatData{
		Head: head, Axis: sweepAxis, Across: across.Path, Up: down.Path,
		Columns: sweepTexts(across), Rows: sweepTexts(down),
		Cells: make([][]float64, rows), Says: make([][]string, rows),
		Best: &plots.Cell{Row: a.Best % rows, Column: a.Best / rows},
	}
	for i := range a.Points {
		d.Cells[i%rows] = append(d.Cells[i%rows], float64(a.Points[i].NetRate.Mean))
		d.Says[i%rows] = append(d.Says[i%rows], rateOf(a.Points[i].NetRate).Shown)
	}
	return plots.Heat(d)
}

func sweepTexts(v *study.SweepParameter) []string {
	var all []string
	for _, value := range v.Values {
		all = append(all, value.Text)
	}
	return all
}
