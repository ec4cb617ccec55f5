package main

import (
	"fmt"
	"slices"
	"strings"

	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
)

// What is beyond these can be, but is more likely a slip of the pen: a zero too few, seconds
// for minutes. Common practice, no source.
const (
	mostLikelyRate  = 0.05                 // of misfeeds, doubles and jams
	mostLikelyTime  = 30 * 60              // seconds, of walking and clearing
	leastLikelyTurn = sim.Seconds(30 * 60) // of a shift
)

// likelyRates are the levers that are rates of faults.
var likelyRates = []string{"misfeed", "double", "jam", "envelope_misfeed"}

// slipNotes returns a line for each value of a scenario, its variants left aside, that is
// possible and surely not meant.
func slipNotes(sc *scenarios.Scenario) string {
	var b strings.Builder
	say := func(text string, args ...any) {
		b.WriteString(note("  note: ", fmt.Sprintf(text, args...)) + "\n")
	}
	if !sc.NoWork && sc.Line.Job.Sets == 0 && sc.Line.Shift < leastLikelyTurn {
		say("the shift is %s min long: is that meant?", exact(float64(sc.Line.Shift)/60))
	}
	for n, l := range attended(sc.Line, sc.Hall) {
		for _, v := range l.Levers() {
			if v.Path() == "crew.walk" && n > 0 {
				continue // it is that of the first line
			}
			slip(say, v)
		}
		if most := fastest(l); most > 0 && l.Speed > most {
			say("%s an hour are asked for, and no station is rated for more than %s", exact(l.Speed), exact(most))
		}
	}
	return b.String()
}

// slip says what is odd about a rate or a time of a line.
func slip(say func(string, ...any), v model.Lever) {
	x := v.Size()
	switch {
	case slices.Contains(likelyRates, v.Name) && x > mostLikelyRate:
		say("%s is %s, one in %s: is that meant?", v.Path(), v.Value, exact(1/x))
	case (v.Name == "clear" || v.Name == "crew.walk") && x > mostLikelyTime:
		say("%s takes %s min in the mean: is that meant?", v.Path(), exact(x/60))
	}
}

// fastest returns the highest rated speed of the stations; 0 if none has one.
func fastest(l *model.Line) float64 {
	most := 0.0
	for _, s := range l.Stations {
		most = max(most, s.Where().Rated)
	}
	return most
}
