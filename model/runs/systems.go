package runs

import (
	"cmp"
	"context"
	"errors"

	"netrate/model"
	"netrate/sim"
)

// Systems are many lines, of which each is made when it is run and forgotten after: more than
// there is memory for.
type Systems struct {
	Number int                                   // of lines
	Line   func(number int) (*model.Line, error) // called from many goroutines
}

// Run runs the replications from first to the one before last of each line, on random numbers that
// all have in common, and calls take with the study of each, in order, which take must not keep. Only the plan's seed and
// workers count. It returns false if ctx was done before the last line was.
//
// The studies are the same bit for bit for any number of workers, and those that [Together] has.
func (x Systems) Run(ctx context.Context, plan sim.Plan, first, last int, take func(number int, s *Study)) (whole bool, err error) {
	if x.Number < 1 || last <= first || first < 0 {
		return false, errors.New("there is nothing to run")
	}
	worker := func() (func(int, *Study) error, error) {
		var r replication
		return func(number int, s *Study) error {
			l, err := x.Line(number)
			if err != nil {
				return err
			}
			line, err := newReady(l)
			if err != nil {
				return err
			}
			*s = Study{Line: l, Plan: plan, Shifts: s.Shifts[:0]}
			for k := first; k < last; k++ {
				if err := line.Run(plan.Seed, k, &r.Outcome); err != nil {
					return err
				}
				s.Fold(&r.Outcome)
			}
			return nil
		}, nil
	}
	var unmade error
	fold := func(number int, s *Study) float64 {
		if s.Line == nil { // it was recorded, without its line
			l, err := x.Line(number)
			if err != nil {
				unmade = cmp.Or(unmade, err)
				return 0
			}
			s.Line, s.Plan = l, plan
		}
		take(number, s)
		return 0
	}
	lines := sim.Plan{Min: x.Number, Max: x.Number, Workers: plan.Workers}
	_, ending, err := sim.Replicate(ctx, lines, worker, fold)
	err = cmp.Or(err, unmade)
	return err == nil && ending != sim.Cancelled, err
}
