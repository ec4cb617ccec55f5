package study

import (
	"fmt"
	"math"

	"netrate/sim"
	"netrate/sim/fit"
)

// FitClearing is for how long the faults of a station stopped the line. The model has one
// distribution for all faults of a station.
type FitClearing struct {
	Kinds    *fit.Comparison   // the kinds of distributions; nil if there is too little
	Chosen   *fit.Candidate    // the best of them that can be simulated; nil if there is none
	None     string            // why there is none
	Lengths  []fit.Observation // of the stops that have one
	CutOff   int               // stops of them that were cut off
	Zeros    int               // stops of no length, which are left out, unless lengths were rounded
	Attended int               // stops of these that say when an operator was there, if they are enough: then there are no others, and they count from there on
	Step     sim.Seconds       // lengths were rounded to multiples of this; 0 if they are exact
}

// clearing fits the times for which faults stopped the line.
func clearing(stops []LogStop, draws int, seed uint64) (c FitClearing) {
	stops, c.Attended = fromArrival(stops)
	c.Step = rounding(stops)
	for _, s := range stops {
		switch {
		case !(s.Seconds > 0) && (c.Step == 0 || s.CutOff):
			c.Zeros++
			continue
		case s.CutOff:
			c.CutOff++
		}
		c.Lengths = append(c.Lengths, fit.Observation{Seconds: s.Seconds, Censored: s.CutOff, Step: c.Step})
	}
	if n := len(c.Lengths); n < FewFaults {
		c.None = fmt.Sprintf("too few stops: %d", n)
		return c
	}
	kinds, err := fit.Compare(c.Lengths, draws, seed)
	if err != nil {
		c.None = err.Error()
		return c
	}
	c.Kinds = &kinds
	for i := range kinds.Candidates {
		if _, err := kinds.Candidates[i].Duration(); err == nil {
			c.Chosen = &kinds.Candidates[i]
			return c
		}
	}
	c.None = "no kind that fits can be simulated"
	return c
}

// fromArrival returns the stops of which it is said when an operator was there, with the lengths
// from there on, and their number; all as they are, and 0, if they are too few.
func fromArrival(stops []LogStop) (from []LogStop, n int) {
	for _, s := range stops {
		if s.Attended {
			s.Seconds -= s.Waited
			from = append(from, s)
		}
	}
	if len(from) < FewFaults {
		return stops, 0
	}
	return from, len(from)
}

// rounding returns what the lengths of stops were rounded to: whole minutes, if there are enough
// of them and all are; 0 if they are exact enough.
func rounding(stops []LogStop) sim.Seconds {
	if len(stops) < FewFaults {
		return 0
	}
	for _, s := range stops {
		if whole := sim.Seconds(math.Round(float64(s.Seconds/minute)) * minute); math.Abs(float64(s.Seconds-whole)) > 1e-6 {
			return 0
		}
	}
	return minute
}

// Complete returns the lengths of the stops that were not cut off, in seconds.
func (c *FitClearing) Complete() (all []float64) {
	for _, x := range c.Lengths {
		if !x.Censored {
			all = append(all, float64(x.Seconds))
		}
	}
	return all
}

// Misfits reports whether not even the chosen distribution fits.
func (c *FitClearing) Misfits() bool {
	return c.Chosen != nil && c.Chosen.Goodness.Tested && c.Chosen.Goodness.P < ShownP
}
