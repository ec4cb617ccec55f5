package page

import (
	"netrate/model"
	"netrate/model/runs"
	"netrate/model/study"
)

// HasChannel reports whether the line can starve.
func HasChannel(l *model.Line) bool { return l.First(model.Gathers) >= 0 }

// FiguresOf returns the figures of a shift that tell something of any of the lines.
func FiguresOf(lines ...*model.Line) []runs.Figure { return study.FiguresOf(lines...) }

// Column returns the name of a figure's column, which ends with its unit.
func Column(f runs.Figure) string { return study.Column(f) }
