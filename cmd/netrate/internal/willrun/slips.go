package willrun

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
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
	tell := func(text string, args ...any) {
		b.WriteString(say.Hanging("  note: ", fmt.Sprintf(text, args...), rulesWidth) + "\n")
	}
	if !sc.NoWork && sc.Line.Job.Sets == 0 && sc.Line.Shift < leastLikelyTurn {
		tell("the shift is %s min long: is that meant?", say.Exact(float64(sc.Line.Shift)/60))
	}
	for n, l := range page.Attended(sc.Line, sc.Hall) {
		for _, v := range l.Levers() {
			if v.Path() == "crew.walk" && n > 0 {
				continue // it is that of the first line
			}
			slip(tell, v)
		}
		if most := fastest(l); most > 0 && l.Speed > most {
			tell("%s an hour are asked for, and no station is rated for more than %s", say.Exact(l.Speed), say.Exact(most))
		}
	}
	return b.String()
}

// slip says what is odd about a rate or a time of a line.
func slip(tell func(string, ...any), v model.Lever) {
	x := v.Size()
	switch {
	case slices.Contains(likelyRates, v.Name) && x > mostLikelyRate:
		tell("%s is %s, one in %s: is that meant?", v.Path(), v.Value, say.Exact(1/x))
	case (v.Name == "clear" || v.Name == "crew.walk") && x > mostLikelyTime:
		tell("%s takes %s min in the mean: is that meant?", v.Path(), say.Exact(x/60))
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
