package sweeps

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/plots"
)

// tornado shows the first effects; what cannot be has no bar, and says so.
func (s *sensitivity) tornado() (*plots.Figure, error) {
	d := plots.TornadoData{
		Head: plots.Head{
			Title: s.finding(),
			Subtitle: fmt.Sprintf("%s: change of the net rate, each rate or time divided and multiplied by %s; %s",
				s.Name, say.Exact(s.Factor), page.SampleEach(s.Base)),
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
	case !say.Differs(m.NetRate.Difference):
		return "~ " + m.Value
	}
	return m.Value
}

// Table returns a row for each effect, those of kinds at the end.
func (s *sensitivity) Table() plots.Table {
	const unit = "good envelopes/h"
	lower, higher := s.headings()
	change := func(title string) []plots.Column {
		return []plots.Column{
			{Title: say.Capital(title)},
			{Title: "Gain if " + title, Unit: unit, Kind: plots.Number, Decimals: 1},
			{Title: "Gain if " + title + " ±", Unit: unit, Kind: plots.Number, Decimals: 1},
			{Title: "Shown if " + title},
		}
	}
	t := plots.Table{
		Name: "Sensitivity",
		Caption: fmt.Sprintf("What each rate and time gains when it is moved alone: %s. ± is the half-width of 95 %% intervals, all right at once.",
			page.SampleEach(s.Base)),
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
	path, now := say.Plural(len(x.Levers), "path"), ""
	if x.Kind == "" {
		path, now = x.Levers[0].Path(), x.Levers[0].Value
	}
	row := []plots.Entry{{Text: effectName(x)}, {Text: path}, {Text: now}}
	return append(append(row, moveEntries(x.Lower)...), moveEntries(x.Higher)...)
}

func moveEntries(m model.Move) []plots.Entry {
	d := m.NetRate.Difference
	gain := page.MeanAndHalf(d)
	switch {
	case m.Impossible != nil:
		return []plots.Entry{{Text: m.Value}, {Text: "cannot be"}, {Text: "–"}, {Text: "no"}}
	case say.Differs(d):
		return []plots.Entry{{Text: m.Value}, gain[0], gain[1], {Text: "yes"}}
	}
	return []plots.Entry{{Text: m.Value}, gain[0], gain[1], {Text: "no"}}
}
