package sweeps

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/plots"
	"netrate/scenarios"
)

const sweepAxis = "Net rate, good envelopes an hour"

// figure returns the picture of the sweep: a curve, bars for words, or a table of two paths.
func (s *sweep) figure() (*plots.Figure, error) {
	head := plots.Head{
		Title:    s.finding(),
		Subtitle: fmt.Sprintf("%s: net rate by %s; %s", s.Name, s.paths(), page.SampleEach(s.points[0].study)),
	}
	switch {
	case len(s.vary) == 2:
		return s.heat(head)
	case ofWords(s.vary[0]):
		return s.words(head)
	}
	return s.curve.figure(head)
}

func (c *curve) figure(head plots.Head) (*plots.Figure, error) {
	d := plots.SweepData{Head: head, Parameter: axisOf(c.vary[0]), Axis: sweepAxis}
	line := plots.SweepCurve{Name: "net rate"}
	for i := range c.points {
		line.Points = append(line.Points, plots.SweepPoint{X: c.points[i].values[0].Number, Y: c.points[i].rates.Interval(say.Level)})
	}
	d.Curves = []plots.SweepCurve{line}
	if p := c.peak; p != nil && !p.Edge {
		d.Peak = &plots.Peak{X: p.At, Low: min(p.Low, p.At), High: max(p.High, p.At)}
	}
	return plots.Sweep(d)
}

// axisOf returns a path with the unit of its values.
func axisOf(r scenarios.Range) string {
	switch r.Unit {
	case "/h":
		return r.Path + ", cycles an hour"
	case "":
		return r.Path
	}
	return r.Path + ", " + r.Unit
}

// words compares each word with the best.
func (s *sweep) words(head plots.Head) (*plots.Figure, error) {
	d := plots.DifferencesData{
		Head: head,
		Axis: fmt.Sprintf("Net rate less that of %s, good envelopes an hour", s.label(s.points[s.best])),
	}
	for i := range s.points {
		if i != s.best {
			d.Rows = append(d.Rows, plots.Difference{Name: s.value(i), Mean: s.behind[i].Difference})
		}
	}
	return plots.Differences(d)
}

func (s *sweep) heat(head plots.Head) (*plots.Figure, error) {
	across, down := s.vary[0], s.vary[1]
	rows := len(down.Values)
	d := plots.HeatData{
		Head: head, Axis: sweepAxis, Across: across.Path, Up: down.Path,
		Columns: rangeTexts(across), Rows: rangeTexts(down),
		Cells: make([][]float64, rows),
		Best:  &plots.Cell{Row: s.best % rows, Column: s.best / rows},
	}
	for i := range s.points {
		d.Cells[i%rows] = append(d.Cells[i%rows], s.points[i].rates.Mean())
	}
	return plots.Heat(d)
}

func rangeTexts(r scenarios.Range) []string {
	var all []string
	for _, v := range r.Values {
		all = append(all, v.Text)
	}
	return all
}

// means returns the figures whose means are told besides the net rate.
func (s *sweep) means() []model.Figure {
	var lines []*model.Line
	for _, p := range s.points {
		lines = append(lines, p.study.Line)
	}
	return page.FiguresOf(lines...)[1:]
}

// Table returns a row for each point.
func (s *sweep) Table() plots.Table {
	t := plots.Table{Name: "Sweep", Caption: fmt.Sprintf("Net rate by %s: %s. ± is the half-width of 95 %% intervals; "+
		"those of the differences from the best are right all at once.", s.paths(), page.SampleEach(s.points[0].study))}
	for _, r := range s.vary {
		t.Columns = append(t.Columns, plots.Column{Title: r.Path})
	}
	const unit = "good envelopes/h"
	t.Columns = append(t.Columns,
		plots.Column{Title: "Net rate", Unit: unit, Kind: plots.Number},
		plots.Column{Title: "Net rate ±", Unit: unit, Kind: plots.Number, Decimals: 1},
		plots.Column{Title: "5th percentile", Unit: unit, Kind: plots.Number},
		plots.Column{Title: "95th percentile", Unit: unit, Kind: plots.Number},
		plots.Column{Title: "From the best", Unit: unit, Kind: plots.Number, Decimals: 1},
		plots.Column{Title: "From the best ±", Unit: unit, Kind: plots.Number, Decimals: 1},
		plots.Column{Title: "Shown to be worse"})
	for _, f := range s.means() {
		t.Columns = append(t.Columns, plots.Column{Title: say.Capital(page.Column(f)), Kind: plots.Number, Decimals: 1})
	}
	for i := range s.points {
		t.Rows = append(t.Rows, s.row(i))
	}
	return t
}

func (s *sweep) row(i int) []plots.Entry {
	p, e := s.points[i], s.points[i].rates.Interval(say.Level)
	var row []plots.Entry
	for _, v := range p.values {
		row = append(row, plots.Entry{Text: v.Text})
	}
	d := s.behind[i].Difference
	worse := "no"
	if !s.rival(i) {
		worse = "yes"
	}
	row = append(row,
		plots.Entry{Number: e.Mean}, page.Doubt(e.Half),
		plots.Entry{Number: p.rates.Quantile(0.05)}, plots.Entry{Number: p.rates.Quantile(0.95)},
		plots.Entry{Number: d.Mean}, page.Doubt(d.Half), plots.Entry{Text: worse})
	for _, f := range s.means() {
		row = append(row, plots.Entry{Number: p.study.Sample(f.Of).Mean()})
	}
	return row
}
