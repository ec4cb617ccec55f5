package stoplog

import (
	"fmt"
	"slices"

	"netrate/model/study"
	"netrate/scenarios"
)

// Lots returns how many pieces a lot of each station has, where the scenario says so.
func (t *Target) Lots() map[string]float64 {
	all := map[string]float64{}
	for _, s := range t.Stations {
		switch of := s.Lots.Of.(type) {
		case int:
			all[s.Name] = float64(of)
		case float64:
			all[s.Name] = of
		}
	}
	return all
}

// lotsOf returns the lots of a station as a scenario has them; false if none are shown.
func lotsOf(a *study.FitAnswer, s *study.FitStation) (e Estimate, shown bool) {
	of := a.Spread.Of(s.Name)
	if of == nil || !of.Shown || !s.As.Lots {
		return e, false
	}
	comment := "as if a lot were what is fed on a day: smaller lots that differ more look the same"
	if of.Stated {
		comment = "of so many pieces, as it was stated"
	}
	return Estimate{"lots", fmt.Sprintf("{of: %.0f, cv: %s}", of.Lot, yamlEstimate(of.CV, of.SE, 3, "")), comment}, true
}

// daysOf returns the days of a line as a scenario has them; none if none are shown.
func daysOf(a *study.FitAnswer) []Estimate {
	if !a.Spread.DaysShown() {
		return nil
	}
	s := a.Spread.Shared
	days := []Estimate{{"line.days.cv", yamlEstimate(s.CV, s.SE, 3, ""), fmt.Sprintf("of %d days, by what the stations have in common", a.Spread.Days)}}
	if s.Mean > 0 {
		days = append(days, Estimate{"line.days.level", yamlEstimate(1, s.Mean, 3, ""), "how well the mean of all days is known from these"})
	}
	return days
}

// takesLots reports whether a station can have lots in the line of the scenario.
func (t *Target) takesLots(s *study.FitStation) bool {
	const envelopes = "envelope_misfeed"
	return !slices.Contains(s.As.Rates, envelopes) || t.has(s, envelopes)
}

// dayEdits returns what is written of the days of the line.
func dayEdits(a *study.FitAnswer) (edits []scenarios.Edit) {
	for _, e := range daysOf(a) {
		edits = append(edits, scenarios.Edit{Path: e.Key, Value: e.Value, Comment: e.Comment})
	}
	return edits
}
