package sim

import (
	"errors"
	"fmt"
)

// Plan says how many replications to run.
type Plan struct {
	Seed      uint64  // names the random numbers of all replications: for the workers, Replicate does not look at it
	Min, Max  int     // replications: at least Min, at most Max
	Precision float64 // stop when the 95 % interval of the figure watched is within ± this share of its mean; 0 to run Max
	Workers   int     // goroutines; 0 for one a core
}

// First returns how many replications are done when the precision is first looked at: a run
// that ends there may have been precise enough before.
func (p Plan) First() int {
	looks := (max(p.Min, 1) + Batch - 1) / Batch
	return min(looks*Batch, p.Max)
}

// Check returns what is wrong with the plan, all of it.
func (p Plan) Check() error {
	var errs []error
	if p.Min < 1 {
		errs = append(errs, fmt.Errorf("the least number of replications is %d, want at least 1", p.Min))
	}
	if p.Max < p.Min {
		errs = append(errs, fmt.Errorf("the most replications are %d, want at least the least, %d", p.Max, p.Min))
	}
	if !(p.Precision >= 0 && p.Precision < 1) {
		errs = append(errs, fmt.Errorf("precision is %g, want from 0 to below 1", p.Precision))
	}
	if p.Workers < 0 {
		errs = append(errs, fmt.Errorf("there are %d workers, want 0 or more", p.Workers))
	}
	return errors.Join(errs...)
}

// Ending says why replications ended. The zero Ending goes with an error.
type Ending int

// The ways to end.
const (
	Precise   Ending = iota + 1 // the precision wanted was reached
	AtMost                      // all replications allowed were run
	Cancelled                   // the context was cancelled
)

func (e Ending) String() string {
	switch e {
	case Precise:
		return "precise enough"
	case AtMost:
		return "all replications allowed"
	case Cancelled:
		return "cancelled"
	}
	return "failed"
}
