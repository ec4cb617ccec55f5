package main

import (
	"fmt"

	"netrate/model"
	"netrate/plots"
)

// tornado shows the first effects; what cannot be has no bar, and says so.
func (s *sensitivity) tornado() (*plots.Figure, error) {
	d := plots.TornadoData{
		Head: plots.Head{
			Title: s.finding(),
			Subtitle: fmt.Sprintf("%s: change of the net rate, each rate or time divided and multiplied by %s; %s",
				s.Name, exact(s.Factor), sampleWords(s.Base)),
		},
		Axis: "Change of the net rate, good envelopes an hour (~ none shown)",
	}
	for _, x := range s.Effects[:min(len(s.Effects), shownEffects)] {
		d.Inputs = append(d.Inputs, plots.Input{
			Name: effectName(x), Lower: movedTo(x.Lower), Higher: movedTo(x.Higher),
			IfLower: x.Lower.NetRate.Difference.Mean, IfHigher: x.Higher.NetRate.Difference.Mean,
		})
	}
	return plots.Tornado(d)
}

// movedTo returns the value of a move, and what is to be known of it.
func movedTo(m model.Move) string {
	switch {
	case m.Impossible != nil:
		return "not run"
	case !differs(m.NetRate.Difference):
		return "~ " + m.Value
	}
	return m.Value
}

// table returns a row for each effect, those of kinds at the end.
func (s *sensitivity) table() plots.Table {
	const unit = "good envelopes/h"
	lower, higher := s.headings()
	change := func(title string) []plots.Column {
		return []plots.Column{
			{Title: capital(title)},
			{Title: "Gain if " + title, Unit: unit, Kind: plots.Number, Decimals: 1},
			{Title: "Gain if " + title + " ±", Unit: unit, Kind: plots.Number, Decimals: 1},
			{Title: "Shown if " + title},
		}
	}
	t := plots.Table{
		Name: "Sensitivity",
		Caption: fmt.Sprintf("What each rate and time gains when it is moved alone: %s. ± is the half-width of 95 %% intervals, all right at once.",
			sampleWords(s.Base)),
		Columns: append(append([]plots.Column{{Title: "Rate or time"}, {Title: "Path"}, {Title: "Now"}}, change(lower)...), change(higher)...),
	}
	for _, effects := range [][]model.Effect{s.Effects, s.Kinds} {
		for _, x := range effects {
			t.Rows = append(t.Rows, effectRow(x))
		}
	}
	return t
}

func effectRow(x model.Effect) []plots.Entry {
	path, now := plural(len(x.Levers), "path"), ""
	if x.Kind == "" {
		path, now = x.Levers[0].Path(), x.Levers[0].Value
	}
	row := []plots.Entry{{Text: effectName(x)}, {Text: path}, {Text: now}}
	return append(append(row, moveEntries(x.Lower)...), moveEntries(x.Higher)...)
}

func moveEntries(m model.Move) []plots.Entry {
	d := m.NetRate.Difference
	gain := meanAndHalf(d)
	switch {
	case m.Impossible != nil:
		return []plots.Entry{{Text: m.Value}, {Text: "cannot be"}, {Text: "–"}, {Text: "no"}}
	case differs(d):
		return []plots.Entry{{Text: m.Value}, gain[0], gain[1], {Text: "yes"}}
	}
	return []plots.Entry{{Text: m.Value}, gain[0], gain[1], {Text: "no"}}
}
