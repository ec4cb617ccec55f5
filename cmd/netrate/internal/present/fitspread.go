package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// SpreadTable returns a row for each station whose days were compared; none if none was.
func (f Fit) SpreadTable() plots.Table {
	t := plots.Table{
		Name: "Days", Caption: "How much the faults of days differ beyond chance: the coefficient of variation of a factor a day, and the P of chance alone.",
		Columns: []plots.Column{
			{Title: "Station"},
			{Title: "Faults", Kind: plots.Number},
			{Title: "Cv of a day", Kind: plots.Number},
			{Title: f.Sure(), Kind: plots.Number},
			{Title: "P", Kind: plots.Number},
			{Title: "P of its own", Kind: plots.Number},
		},
	}
	for _, s := range f.Spread.Stations {
		d := s.All
		high := say.Rounded(d.High, -2)
		if math.IsInf(d.High, 1) {
			high = "without end"
		}
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(s.Name), page.Value(float64(s.Faults)),
			{Number: d.CV, Shown: say.Rounded(d.CV, -2)},
			page.Words(say.Rounded(d.Low, -2) + " to " + high),
			{Number: d.P, Shown: say.Rounded(d.P, -4)},
			{Number: s.Own.P, Shown: say.Rounded(s.Own.P, -4)},
		})
	}
	return t
}

// spreadNotes returns whether days and lots are shown to differ, and what cannot be told apart.
func (f Fit) spreadNotes() []string {
	x := &f.Spread
	if f.Partial {
		return nil
	}
	if x.None != "" {
		return []string{"Bad days and bad lots were not looked for: " + x.None + "."}
	}
	var text []string
	if s := x.Shared; x.DaysShown() {
		text = append(text, fmt.Sprintf("Days differ for all stations together, by a factor with a cv of %s ± %s (standard error; P %s of %d days that have nothing in common).",
			say.Rounded(s.CV, -2), say.Rounded(s.SE, -2), chanceOf(s.P), x.Days))
	}
	var own []string
	for i := range x.Stations {
		if s := &x.Stations[i]; s.Shown {
			text = append(text, lotWords(s))
			own = append(own, s.Name)
		}
	}
	if len(text) == 0 {
		return []string{fmt.Sprintf("Neither bad days nor bad lots are shown: the faults of %d days differ no more than by chance.", x.Days)}
	}
	if len(x.Stations) < 2 {
		text = append(text, "With one station bad days and bad lots cannot be told apart: what differs is taken for lots.")
	}
	if len(own) > 0 {
		text = append(text, "By the day, lots look alike that are small and differ much, or large and differ little; and a pallet that several stations are fed from looks like a day. A scenario of --into that says lots: {of: …} has its own size taken.")
	}
	return text
}

// lotWords says what a station has for itself.
func lotWords(s *study.FitStationSpread) string {
	size := "taken for lots of a day's feeds, " + say.Thousands(int(s.Lot)) + ", as nobody has said how many pieces a lot has"
	if s.Stated {
		size = "in lots of " + say.Thousands(int(s.Lot)) + " pieces, as the scenario says"
	}
	return fmt.Sprintf("%s: its faults differ from day to day by themselves (P %s): a factor with a cv of %s ± %s, %s.",
		s.Name, chanceOf(s.Own.P), say.Rounded(s.CV, -2), say.Rounded(s.SE, -2), size)
}
