package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/model"
	"netrate/plots"
	"netrate/scenarios"
)

// notGiven is the source of what the file does not say.
const notGiven = "not given in the file"

// assumptions returns what the answer rests on: all of the base, and of the others what is
// not as it is there.
func assumptions(f *field) []plots.Assumption {
	var all []plots.Assumption
	base := map[scenarios.Statement]bool{}
	for i, x := range f.entrants {
		prefix := ""
		if i > 0 {
			prefix = x.name + ": "
		}
		rests := restsOn(x)
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

// assumed returns what is assumed of one line, or of several with one crew.
func assumed(x entrant) []plots.Assumption { return together(restsOn(x)) }

// assumedOf returns what is assumed of a scenario and, where they differ, of its variants.
func assumedOf(sc *scenarios.Scenario) []plots.Assumption {
	f := &field{entrants: []entrant{{name: scenarios.BaseName, scenario: sc, line: sc.Line, hall: sc.Hall}}}
	for _, v := range sc.Variants {
		f.entrants = append(f.entrants, entrant{name: v.Name, scenario: sc, line: v.Line, hall: v.Hall})
	}
	return assumptions(f)
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
			what = list(names) + ": " + what
		}
		if s.Line != "" {
			what = s.Line + ": " + what
		}
		all = append(all, plots.Assumption{What: what, Value: s.Value, Source: s.Source})
	}
	return all
}

// restsOn returns all that the answer of an entrant rests on: what its file says, what that
// comes to, and what is taken where it says nothing.
func restsOn(x entrant) []scenarios.Statement {
	var all []scenarios.Statement
	given := map[string]string{} // of each station: its keys and their values
	for _, s := range fileOf(x) {
		if s.Station == "" && strings.HasPrefix(s.Key, "policy") || s.Station != "" && s.Key == "policy" {
			continue // each response is told below
		}
		given[s.Line+"\n"+s.Station] += "\n" + s.Key + ": " + s.Value
		all = append(all, s)
	}
	for _, l := range attended(x.line, x.hall) {
		name := ""
		if x.hall != nil {
			name = l.Name
		}
		for i, s := range all {
			if s.Line == name && s.Station != "" {
				all[i].Value += rateWords(stationNamed(l, s.Station), s.Key)
			}
		}
		if x.mix != nil {
			all = append(all, mixStatements(x)...)
		} else {
			all = append(all, scenarios.Statement{Line: name, Key: "line.speed, as it runs", Value: exact(l.RunSpeed()) + "/h, set by " + limits(l)})
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
		all = append(all, scenarios.Statement{Key: "crew.attends", Value: x.line.Crew.Order.String(), Source: notGiven})
	}
	return all
}

// fileOf returns what the file says of an entrant, which may be a variant of it.
func fileOf(x entrant) []scenarios.Statement {
	for i := range x.scenario.Variants {
		if v := &x.scenario.Variants[i]; v.Line == x.line {
			return v.Stated()
		}
	}
	return x.scenario.Stated()
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
	if f, ok := s.(*model.Feeder); ok && f.Material != 1 {
		text += fmt.Sprintf(" × %s for the material", exact(f.Material))
	}
	return text
}

// responsesOf returns what a station answers to each fault that has a choice.
func responsesOf(s model.Station) []scenarios.Statement {
	say := func(fault model.Fault, r model.Response) scenarios.Statement {
		return scenarios.Statement{Key: "response to a " + fault.String(), Value: r.String()}
	}
	switch s := s.(type) {
	case *model.Feeder:
		return []scenarios.Statement{say(model.Misfeed, s.OnMisfeed), say(model.Double, s.OnDouble)}
	case *model.Channel:
		return []scenarios.Statement{say(model.Misfeed, s.OnMisfeed), say(model.Double, s.OnDouble)}
	case *model.Reader:
		return []scenarios.Statement{say(model.NoRead, s.OnNoRead), say(model.Mismatch, s.OnMismatch)}
	case *model.Inserter:
		return []scenarios.Statement{say(model.Flap, s.OnFlap)}
	}
	return nil
}

// taken returns what is taken for a station where the file does not say it.
func taken(s model.Station) []scenarios.Statement {
	say := func(key, value string) scenarios.Statement {
		return scenarios.Statement{Key: key, Value: value, Source: notGiven}
	}
	part := func(key string, x float64) scenarios.Statement { return say(key, partWords(x)) }
	switch s := s.(type) {
	case *model.Feeder:
		return []scenarios.Statement{
			part("noticed", s.Noticed), part("caught", s.Caught), part("false_calls", s.FalseCalls), part("share", s.Share),
			say("material", exact(s.Material)), say("growth", exact(s.Growth)),
		}
	case *model.Channel:
		return []scenarios.Statement{part("noticed", s.Noticed), part("caught", s.Caught), part("false_calls", s.FalseCalls)}
	case *model.Inserter:
		return []scenarios.Statement{say("growth", exact(s.Growth))}
	}
	return nil
}

// partWords returns a probability in percent.
func partWords(x float64) string {
	if x == math.Trunc(x) {
		return exact(100*x) + " %"
	}
	return fmt.Sprintf("%.4g %%", 100*x)
}
