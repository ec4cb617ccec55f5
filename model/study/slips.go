package study

import (
	"slices"

	"netrate/model"
	"netrate/sim"
)

// Slip is a value that is possible and surely not meant.
type Slip struct {
	What  SlipWhat
	Path  string  // of a rate or a time, as in a scenario file: stations.letter.misfeed
	Value string  // of a rate, as it was given
	Size  float64 // the rate; the time, s; the speed asked for, cycles an hour
	Most  float64 // of a speed: the highest that a station is rated for
}

// SlipWhat is what is odd.
type SlipWhat int

// What can be odd.
const (
	SlipShift SlipWhat = iota // the shift is short
	SlipRate                  // a fault is frequent
	SlipTime                  // walking or clearing takes long
	SlipSpeed                 // more is asked for than any station is rated for
)

// What is beyond these can be, but is more likely a slip of the pen: a zero too few, seconds
// for minutes. Common practice, no source.
const (
	mostLikelyRate   = 0.05                 // of misfeeds, doubles and jams
	mostLikelyTime   = 30 * 60              // seconds, of walking and clearing
	leastLikelyShift = sim.Seconds(30 * 60) // of a shift
)

// likelyRates are the parameters that are rates of faults.
var likelyRates = []string{"misfeed", "double", "jam", "envelope_misfeed"}

// Slips returns the values of an alternative that are possible and surely not meant; its work
// is looked at only if it has some.
func Slips(a *Alternative, work bool) []Slip {
	var slips []Slip
	lines := a.Lines()
	if shift := lines[0].Shift; work && !a.Job() && shift < leastLikelyShift {
		slips = append(slips, Slip{What: SlipShift, Size: float64(shift)})
	}
	for n, l := range lines {
		for _, v := range l.Parameters() {
			if v.Path() == "crew.walk" && n > 0 {
				continue // it is that of the first line
			}
			switch x := v.Size(); {
			case slices.Contains(likelyRates, v.Name) && x > mostLikelyRate:
				slips = append(slips, Slip{What: SlipRate, Path: v.Path(), Value: v.Value, Size: x})
			case (v.Name == "clear" || v.Name == "crew.walk") && x > mostLikelyTime:
				slips = append(slips, Slip{What: SlipTime, Path: v.Path(), Size: x})
			}
		}
		if most := fastest(l); most > 0 && l.Speed > most {
			slips = append(slips, Slip{What: SlipSpeed, Size: l.Speed, Most: most})
		}
	}
	return slips
}

// fastest returns the highest rated speed of the stations; 0 if none has one.
func fastest(l *model.Line) float64 {
	most := 0.0
	for _, s := range l.Stations {
		most = max(most, s.Where().Rated)
	}
	return most
}
