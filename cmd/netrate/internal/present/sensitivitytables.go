package present

import (
	"fmt"
	"math"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// SensitivityTable returns a row for each of the first effects, as many as are shown, and for
// each kind.
func SensitivityTable(a *study.SensitivityAnswer, shown int) plots.Table {
	lower, higher := SensitivityHeadings(a)
	t := plots.Table{
		Name: "Sensitivity",
		Caption: "What is gained when each rate or time is changed alone, and in the last rows all of one kind: good envelopes an hour, " +
			"with 95 % intervals that are right all at once; ~ no effect is shown.",
		Columns: append(append([]plots.Column{{Title: "Rate or time"}, {Title: "Path", Data: true}, {Title: "Now", Kind: plots.Number}},
			sensitivityColumns(lower)...), sensitivityColumns(higher)...),
	}
	if rest := len(a.Effects) - shown; rest > 0 {
		t.Caption += fmt.Sprintf(" %d more with --all.", rest)
	}
	for _, effects := range [][]study.SensitivityEffect{a.Effects[:shown], a.Kinds} {
		for _, x := range effects {
			t.Rows = append(t.Rows, sensitivityRow(&x))
		}
	}
	return t
}

// sensitivityColumns returns the columns of a move, halved or doubled.
func sensitivityColumns(moved string) []plots.Column {
	const unit = "good envelopes/h"
	return []plots.Column{
		{Title: say.Capital(moved), Data: true},
		{Title: "Gain if " + moved, Unit: unit, Kind: plots.Number, Decimals: 1},
		{Title: "Gain if " + moved + " ±", Unit: unit, Kind: plots.Number, Decimals: 1, Data: true},
		{Title: "Shown if " + moved, Data: true},
	}
}

func sensitivityRow(x *study.SensitivityEffect) []plots.Entry {
	path, now := x.Paths[0], page.Words(x.Value)
	if x.Several {
		path, now = say.Plural(len(x.Paths), "path"), page.Value(math.NaN()) // nothing
	}
	row := []plots.Entry{page.Words(x.Name), page.Words(path), now}
	return append(append(row, sensitivityEntries(&x.Lower)...), sensitivityEntries(&x.Higher)...)
}

func sensitivityEntries(m *study.SensitivityMove) []plots.Entry {
	if m.Change == nil {
		return []plots.Entry{page.Words(m.Value), page.Words("cannot be"), page.Words("–"), page.Words("no")}
	}
	shown := "no"
	if m.Change.Shown() {
		shown = "yes"
	}
	gain := gained(m.Change)
	return []plots.Entry{page.Words(m.Value), gain[0], gain[1], page.Words(shown)}
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
