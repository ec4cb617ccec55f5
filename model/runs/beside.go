package runs

import (
	"context"
	"fmt"

	"netrate/model"
	"netrate/sim"
)

// beside is a line and many others on common random numbers, of which only the net rates are
// kept. They run some replications of one line, then of the next: all of them could not be
// ready to run at once.
type beside struct {
	base  *Study        // of the first line
	lines []*model.Line // that one, then the others
	rates []sim.Sample  // of each line
}

// stretch is some replications of one line.
type stretch struct {
	rates []float64
	each  []replication // of the first line, else nil
	err   error
}

// run runs the plan of the first line's study, with as many replications of every other. After
// each replication, in order, it calls watch, if there is one.
//
// When ctx is cancelled, replications that some lines have and others have not are dropped. At
// the beginning stretches are short, so that there soon is something to report.
func (b *beside) run(ctx context.Context, watch func(replication int)) error {
	plan := b.base.Plan
	if err := plan.Check(); err != nil {
		return err
	}
	if err := within(len(b.lines), plan); err != nil {
		return err
	}
	for {
		done := len(b.base.Shifts)
		ending, over := plan.Over(b.rates[0])
		if over {
			b.base.Ending = ending
			return nil
		}
		all, err := b.stretches(ctx, done, min(max(8, done), sim.Batch, plan.Max-done))
		if err != nil {
			return err
		}
		if len(all) < len(b.lines) {
			b.base.Ending = sim.Cancelled
			return nil
		}
		for k := range all[0].each {
			b.base.take(&all[0].each[k])
			for i := range all {
				b.rates[i] = append(b.rates[i], all[i].rates[k])
			}
			if watch != nil {
				watch(done + k)
			}
		}
	}
}

// stretches returns some replications of each line, from the first on; of fewer lines if ctx
// is cancelled.
func (b *beside) stretches(ctx context.Context, first, many int) (all []stretch, err error) {
	plan := sim.Plan{Min: len(b.lines), Max: len(b.lines), Workers: b.base.Plan.Workers}
	worker := func() (func(int, *stretch) error, error) {
		return func(line int, s *stretch) error {
			*s = b.stretch(line, first, many)
			return nil
		}, nil
	}
	_, _, failed := sim.Replicate(ctx, plan, worker, func(_ int, s *stretch) float64 {
		if err == nil {
			err = s.err
		}
		all = append(all, *s)
		return 0
	})
	if err == nil {
		err = failed
	}
	return all, err
}

// stretch runs some replications of one line.
func (b *beside) stretch(line, first, many int) (s stretch) {
	running, err := newReady(b.lines[line])
	if err != nil {
		s.err = fmt.Errorf("%s: %w", b.lines[line].Name, err)
		return s
	}
	if s.rates = make([]float64, many); line == 0 {
		s.each = make([]replication, many)
	}
	var one replication
	for k := range s.rates {
		to := &one
		if line == 0 {
			to = &s.each[k]
		}
		if err := running.run(b.base.Plan.Seed, first+k, to); err != nil {
			s.err = fmt.Errorf("replication %d: %s: %w", first+k, b.lines[line].Name, err)
			return s
		}
		s.rates[k] = to.NetRate()
	}
	return s
}
