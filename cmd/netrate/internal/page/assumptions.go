package page

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/plots"
	"netrate/scenarios"
)

// notGiven is the source of what the file does not say.
const notGiven = "not given in the file"

// Basis is a line that an answer rests on, or several with one crew.
type Basis struct {
	Name     string // of the variant; the first is told without it
	Scenario *scenarios.Scenario
	Line     *model.Line
	Hall     *model.Hall           // nil of one line
	Work     []scenarios.Statement // told instead of the speed where a line is set up for several jobs
}

// Assumed returns what an answer rests on: all of the first, and of the others what is not
// as it is there.
func Assumed(of ...Basis) []plots.Assumption {
	var all []plots.Assumption
	base := map[scenarios.Statement]bool{}
	for i, x := range of {
		prefix := ""
		if i > 0 {
			prefix = x.Name + ": "
		}
		rests := x.statements()
		if i == 0 {
			for _, s := range rests {
				base[s] = true
			}
		} else {
			rests = slices.DeleteFunc(rests, func(s scenarios.Statement) bool { return base[s] })
		}
		for _, a := range together(rests) {
			a.What = prefix + a.What
			all = append(all, a)
		}
	}
	return all
}

// AssumedOf returns what is assumed of a scenario and, where they differ, of its variants.
func AssumedOf(sc *scenarios.Scenario) []plots.Assumption {
	all := []Basis{{Name: scenarios.BaseName, Scenario: sc, Line: sc.Line, Hall: sc.Hall}}
	for _, v := range sc.Variants {
		all = append(all, Basis{Name: v.Name, Scenario: sc, Line: v.Line, Hall: v.Hall})
	}
	return Assumed(all...)
}

// together puts into one row what is said alike of several stations.
func together(rests []scenarios.Statement) []plots.Assumption {
	var order []scenarios.Statement // without their stations
	stations := map[scenarios.Statement][]string{}
	for _, s := range rests {
		alike := s
		alike.Station = ""
		if s.Station == "" {
			alike.Key = " " + s.Key // not to be mixed with a key of stations
		}
		if _, known := stations[alike]; !known {
			order = append(order, alike)
			stations[alike] = nil
		}
		if s.Station != "" {
			stations[alike] = append(stations[alike], s.Station)
		}
	}
	var all []plots.Assumption
	for _, s := range order {
		what := strings.TrimSpace(s.Key)
		if names := stations[s]; names != nil {
			what = say.List(names) + ": " + what
		}
		if s.Line != "" {
			what = s.Line + ": " + what
		}
		all = append(all, plots.Assumption{What: what, Value: s.Value, Source: s.Source})
	}
	return all
}

// statements returns all that an answer rests on: what the file says, what that comes to,
// and what is taken where it says nothing.
func (x Basis) statements() []scenarios.Statement {
	var all []scenarios.Statement
	given := map[string]string{} // of each station: its keys and their values
	for _, s := range x.file() {
		if s.Station == "" && strings.HasPrefix(s.Key, "policy") || s.Station != "" && s.Key == "policy" {
			continue // each response is told below
		}
		given[s.Line+"\n"+s.Station] += "\n" + s.Key + ": " + s.Value
		all = append(all, s)
	}
	for _, l := range Attended(x.Line, x.Hall) {
		name := ""
		if x.Hall != nil {
			name = l.Name
		}
		for i, s := range all {
			if s.Line == name && s.Station != "" {
				all[i].Value += rateWords(stationNamed(l, s.Station), s.Key)
			}
		}
		if x.Work != nil {
			all = append(all, x.Work...)
		} else {
			all = append(all, scenarios.Statement{Line: name, Key: "line.speed, as it runs", Value: say.Exact(l.RunSpeed()) + "/h, set by " + Limits(l)})
		}
		for _, station := range l.Stations {
			of := station.Where().Name
			for _, s := range append(responsesOf(station), taken(station)...) {
				key, _, _ := strings.Cut(s.Key, " ")
				if !strings.Contains(given[name+"\n"+of], "\n"+key+": ") {
					s.Line, s.Station = name, of
					all = append(all, s)
				}
			}
		}
	}
	if !slices.ContainsFunc(all, func(s scenarios.Statement) bool { return s.Key == "crew.attends" }) {
		all = append(all, scenarios.Statement{Key: "crew.attends", Value: x.Line.Crew.Order.String(), Source: notGiven})
	}
	return all
}

// file returns what the file says of a line, which may be that of a variant.
func (x Basis) file() []scenarios.Statement {
	for i := range x.Scenario.Variants {
		if v := &x.Scenario.Variants[i]; v.Line == x.Line || x.Hall != nil && v.Hall == x.Hall {
			return v.Stated()
		}
	}
	return x.Scenario.Stated()
}

func stationNamed(l *model.Line, name string) model.Station {
	for _, s := range l.Stations {
		if s.Where().Name == name {
			return s
		}
	}
	return nil
}

// rateWords returns what a rate of a station is one of: rates of faults are those at the rated
// speed, and the material of the insert multiplies them.
func rateWords(s model.Station, key string) string {
	if !slices.Contains([]string{"misfeed", "double", "jam", "envelope_misfeed", "flap"}, key) {
		return ""
	}
	text := ""
	if s != nil && s.Where().Rated > 0 {
		text = " at the rated speed"
	}
	if s == nil {
		return text
	}
	for _, u := range s.Usual() {
		if u.Name == "material" && u.Value != 1 {
			text += fmt.Sprintf(" × %s for the material", say.Exact(u.Value))
		}
	}
	return text
}

// responsesOf returns what a station answers to each fault that has a choice.
func responsesOf(s model.Station) []scenarios.Statement {
	var all []scenarios.Statement
	for _, f := range s.Counts() {
		if answer := s.Answer(f); answer != nil {
			all = append(all, scenarios.Statement{Key: "response to a " + f.String(), Value: answer.String()})
		}
	}
	return all
}

// taken returns what is taken for a station where the file does not say it.
func taken(s model.Station) []scenarios.Statement {
	var all []scenarios.Statement
	for _, u := range s.Usual() {
		value := say.Exact(u.Value)
		if u.Share {
			value = say.Probability(u.Value)
		}
		all = append(all, scenarios.Statement{Key: u.Name, Value: value, Source: notGiven})
	}
	return all
}

// GivenNote says on lines of its own that what is in doubt was not drawn; nothing if nothing
// is in doubt.
func GivenNote(lines ...*model.Line) string {
	if text := takenAsGiven(lines); text != "" {
		return say.Wrapped(text, say.Screen)
	}
	return ""
}

func takenAsGiven(lines []*model.Line) string {
	paths := map[string]bool{}
	for _, l := range lines {
		for _, d := range l.Doubts {
			paths[d.Path()] = true
		}
	}
	if len(paths) == 0 {
		return ""
	}
	return say.Plural(len(paths), "number") + " of the file in doubt: not drawn here, but taken as given."
}
