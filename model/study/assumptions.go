package study

import (
	"slices"
	"strings"

	"netrate/model"
)

// Assumption is one thing that an answer rests on.
type Assumption struct {
	Alternative string // that it holds of, where it is not as it is in the first; "" of the first
	Line        string // of a line group; else ""
	Stations    []string
	Kind        AssumptionKind
	Key         string // in the words of a scenario file; of a response its fault
	Text        string // as it was stated; of a response, of what a crew does, of lots and of days its name; "" of a number
	Source      string // "" if none is stated

	Number    float64  // of what is taken; of a speed, cycles an hour
	Share     bool     // the number is a share or a probability
	LimitedBy []string // stations that allow no more speed; "" is the speed asked for
	Rated     bool     // of the rate of a fault: it is that at the rated speed
	Material  float64  // of the rate of a fault: what the insert multiplies it by; 0 for nothing
}

// AssumptionKind says where an assumption comes from.
type AssumptionKind int

// The kinds.
const (
	AssumptionStated   AssumptionKind = iota // somebody stated it
	AssumptionSpeed                          // what the line runs at
	AssumptionResponse                       // what a station answers to a fault, as somebody stated
	AssumptionTaken                          // it is taken where nothing is stated
	AssumptionCrew                           // what a crew sees to first, where nothing is stated
	AssumptionDefault                        // what a station answers to a fault where nothing is stated
)

// AssumptionBasis is what an answer rests on: lines, and what is stated of them.
type AssumptionBasis struct {
	Name    string        // of the alternative
	Lines   []*model.Line // attended by one crew
	Grouped bool          // they are told apart by their names
	Crew    model.Crew    // of them all
	Stated  []AssumptionStatement
	Work    []AssumptionStatement // what is reported instead of the speed, where a line is set up for several jobs
}

// AssumptionStatement is what somebody stated.
type AssumptionStatement struct {
	Line, Station      string // "" if it is of none
	Key, Value, Source string
}

// Assumptions returns what an answer rests on: all of the first basis, and of the others what is
// not as it is there. What is alike of several stations is one assumption.
func Assumptions(of ...AssumptionBasis) []Assumption {
	var all []Assumption
	base := map[assumed]bool{}
	for i, x := range of {
		rests := x.assumed()
		if i == 0 {
			for _, s := range rests {
				base[s] = true
			}
		} else {
			rests = slices.DeleteFunc(rests, func(s assumed) bool { return base[s] })
		}
		for _, a := range assumedTogether(rests) {
			if i > 0 {
				a.Alternative = x.Name
			}
			all = append(all, a)
		}
	}
	return all
}

// assumed is an assumption of one station, or of none, that can be compared.
type assumed struct {
	line, station, key, text, source, limits string
	kind                                     AssumptionKind
	number, material                         float64
	share, rated                             bool
}

// assumedTogether puts into one assumption what is alike of several stations.
func assumedTogether(rests []assumed) []Assumption {
	type group struct {
		assumed // without its station
		ofNone  bool
	}
	var order []group
	stations := map[group][]string{}
	for _, s := range rests {
		g := group{s, s.station == ""}
		g.station = ""
		if _, known := stations[g]; !known {
			order = append(order, g)
			stations[g] = nil
		}
		if !g.ofNone {
			stations[g] = append(stations[g], s.station)
		}
	}
	var all []Assumption
	for _, g := range order {
		a := Assumption{
			Line: g.line, Stations: stations[g], Kind: g.kind, Key: g.key, Text: g.text, Source: g.source,
			Number: g.number, Share: g.share, Rated: g.rated, Material: g.material,
		}
		if g.kind == AssumptionSpeed {
			a.LimitedBy = strings.Split(g.limits, "\n")
		}
		all = append(all, a)
	}
	return all
}
