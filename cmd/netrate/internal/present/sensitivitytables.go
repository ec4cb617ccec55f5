package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// SensitivityTable returns a row for each effect, those of kinds at the end.
func SensitivityTable(a *study.SensitivityAnswer) plots.Table {
	const unit = "good envelopes/h"
	lower, higher := SensitivityHeadings(a)
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
			page.SampleEach(a.Base)),
		Columns: append(append([]plots.Column{{Title: "Rate or time"}, {Title: "Path"}, {Title: "Now"}}, change(lower)...), change(higher)...),
	}
	for _, effects := range [][]study.SensitivityEffect{a.Effects, a.Kinds} {
		for _, x := range effects {
			t.Rows = append(t.Rows, sensitivityRow(&x))
		}
	}
	return t
}

func sensitivityRow(x *study.SensitivityEffect) []plots.Entry {
	path := x.Paths[0]
	if x.Several {
		path = say.Plural(len(x.Paths), "path")
	}
	row := []plots.Entry{{Text: x.Name}, {Text: path}, {Text: x.Value}}
	return append(append(row, sensitivityEntries(&x.Lower)...), sensitivityEntries(&x.Higher)...)
}

func sensitivityEntries(m *study.SensitivityMove) []plots.Entry {
	if m.Change == nil {
		return []plots.Entry{{Text: m.Value}, {Text: "cannot be"}, {Text: "–"}, {Text: "no"}}
	}
	gain, shown := page.MeanAndHalf(m.Change.Estimate()), "no"
	if m.Change.Shown() {
		shown = "yes"
	}
	return []plots.Entry{{Text: m.Value}, gain[0], gain[1], {Text: shown}}
}

// SensitivityShortTable returns what of the table has room on a page.
func SensitivityShortTable(a *study.SensitivityAnswer) plots.Table {
	lower, higher := SensitivityHeadings(a)
	t := plots.Table{
		Name:    "Effects",
		Caption: "Gain in good envelopes an hour, with 95 % intervals that are right all at once; ~ nothing is shown.",
		Columns: []plots.Column{{Title: "Rate or time"}, {Title: "Now", Kind: plots.Number}, {Title: say.Capital(lower), Kind: plots.Number}, {Title: say.Capital(higher), Kind: plots.Number}},
	}
	for _, effects := range [][]study.SensitivityEffect{a.Effects, a.Kinds} {
		for _, x := range effects {
			now := x.Value
			if x.Several {
				now = "–"
			}
			t.Rows = append(t.Rows, []plots.Entry{{Text: x.Name}, {Text: now}, {Text: SensitivityGain(&x.Lower)}, {Text: SensitivityGain(&x.Higher)}})
		}
	}
	return t
}

// SensitivityImpossible says why some moves were not simulated; "" if all were.
func SensitivityImpossible(a *study.SensitivityAnswer) string {
	var all []string
	for _, effects := range [][]study.SensitivityEffect{a.Effects, a.Kinds} {
		for _, x := range effects {
			for _, m := range []study.SensitivityMove{x.Lower, x.Higher} {
				if m.Change == nil {
					all = append(all, fmt.Sprintf("%s, %s: %s.", x.Name, m.Value, m.Impossible))
				}
			}
		}
	}
	if len(all) == 0 {
		return ""
	}
	return "Not simulated, because they cannot be: " + strings.Join(all, " ")
}
