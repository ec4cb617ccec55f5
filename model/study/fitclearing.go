package study

import (
	"fmt"

	"netrate/sim/fit"
)

// FitClearing is for how long the faults of a station stopped the line. The model has one
// distribution for all faults of a station.
type FitClearing struct {
	Kinds   *fit.Comparison   // the kinds of distributions; nil if there is too little
	Chosen  *fit.Candidate    // the best of them that can be simulated; nil if there is none
	None    string            // why there is none
	Lengths []fit.Observation // of the stops that have one
	CutOff  int               // stops of them that were cut off
	Zeros   int               // stops of no length, which are left out
}

// clearing fits the times for which faults stopped the line.
func clearing(stops []LogStop, draws int, seed uint64) (c FitClearing) {
	for _, s := range stops {
		switch {
		case !(s.Seconds > 0):
			c.Zeros++
			continue
		case s.CutOff:
			c.CutOff++
		}
		c.Lengths = append(c.Lengths, fit.Observation{Seconds: s.Seconds, Censored: s.CutOff})
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

// Misfits reports whether not even the chosen distribution fits.
func (c *FitClearing) Misfits() bool {
	return c.Chosen != nil && c.Chosen.Goodness.Tested && c.Chosen.Goodness.P < ShownP
}
