package fit

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/sim"
	"netrate/sim/portable"
)

// Observation is one recorded duration.
type Observation struct {
	Seconds  sim.Seconds // how long it took; more than 0
	Censored bool        // it was still going on after these seconds, when last seen
	Step     sim.Seconds // it was rounded to a multiple of this: it lasted up to half of it more or less; 0: it is exact
}

// Complete returns observations that all ran to their end.
func Complete(seconds ...sim.Seconds) []Observation {
	obs := make([]Observation, len(seconds))
	for i, s := range seconds {
		obs[i] = Observation{Seconds: s}
	}
	return obs
}

// longest bounds what is taken for a duration: some thirty years, as in package sim.
const longest sim.Seconds = 1e9

// records are observations that have been looked through: events ran to their end, cut
// did not. Both are in seconds.
type records struct {
	events, cut []float64
	ranges      [][2]float64 // of those that were rounded: between what they ended
}

// ended returns the events, with the middle of each that was rounded.
func (r records) ended() []float64 {
	if len(r.ranges) == 0 {
		return r.events
	}
	all := slices.Clone(r.events)
	for _, x := range r.ranges {
		all = append(all, x[0]+float64((x[1]-x[0])/2))
	}
	return all
}

// look sorts the observations into those that ended and those cut short, and reports
// every one that cannot be used.
func look(obs []Observation) (records, error) {
	var r records
	var wrong error
	for i, o := range obs {
		switch {
		case !(o.Seconds > 0 && o.Seconds <= longest || o.Seconds == 0 && o.Step > 0 && !o.Censored), !(o.Step >= 0 && o.Step <= longest):
			wrong = errors.Join(wrong, fmt.Errorf("observation %d is %g s, want more than 0 and at most %g",
				i+1, float64(o.Seconds), float64(longest)))
		case o.Step > 0 && !o.Censored:
			half := float64(o.Step / 2)
			r.ranges = append(r.ranges, [2]float64{max(0, float64(o.Seconds)-half), float64(o.Seconds) + half})
		case o.Censored:
			r.cut = append(r.cut, float64(o.Seconds))
		default:
			r.events = append(r.events, float64(o.Seconds))
		}
	}
	if wrong == nil && len(r.events)+len(r.ranges) == 0 {
		wrong = errors.New("none of the observations ran to its end, want at least one that did")
	}
	return r, wrong
}

// differ reports whether two of the events are far enough apart to tell a spread.
func (r records) differ() bool {
	low, high := math.Inf(1), 0.0
	for _, x := range r.ended() {
		low, high = min(low, x), max(high, x)
	}
	return portable.Log(high/low) > 1e-3
}

// each calls use with every duration, those cut short too.
func (r records) each(use func(x float64)) {
	for _, x := range r.ended() {
		use(x)
	}
	for _, x := range r.cut {
		use(x)
	}
}
