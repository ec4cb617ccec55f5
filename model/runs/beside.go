package runs

import (
	"context"
	"fmt"

	"netrate/sim"
	"netrate/sim/tape"
)

// beside is a work and many others on common random numbers, of which only the net rates are
// kept. They run some replications of one, then of the next: all of them could not be
// ready to run at once.
type beside struct {
	works []Work       // the first, then the others
	base  []*Study     // of the lines of the first
	rates []sim.Sample // of each work
}

// besides returns works that are to be run.
func besides(works []Work, plan sim.Plan) *beside {
	b := &beside{works: works, base: works[0].Begun(), rates: make([]sim.Sample, len(works))}
	for _, s := range b.base {
		s.Plan = plan
	}
	return b
}

// study returns the study of the first work as it stands.
func (b *beside) study() *Study { return b.works[0].Joined("", b.base) }

// kept returns a copy of it that goes on to grow, as if it had been cancelled here.
func (b *beside) kept() *Study {
	copied := *b
	copied.base = nil
	for _, s := range b.base {
		copied.base = append(copied.base, s.Kept())
	}
	return copied.study()
}

// end says why there are no more replications.
func (b *beside) end(why sim.Ending) {
	for _, s := range b.base {
		s.Ending = why
	}
}

// stretch is some replications of one work.
type stretch struct {
	rates []float64
	each  [][]replication // of the first work, each of all its lines; else nil
	err   error
}

// run runs the plan of the first work's studies, with as many replications of every other. After
// each replication, in order, it calls watch, if there is one.
//
// When ctx is cancelled, replications that some works have and others have not are dropped. At
// the beginning stretches are short, so that there soon is something to report.
func (b *beside) run(ctx context.Context, watch func(replication int)) error {
	plan := b.base[0].Plan
	if err := plan.Check(); err != nil {
		return err
	}
	if err := within(len(b.works)*len(b.base), plan); err != nil {
		return err
	}
	var elsewhere tape.Elsewhere // where no precision is looked at
	for done := 0; ; {
		ending, over := plan.Over(b.rates[0])
		if over || elsewhere.Err() != nil && done == plan.Max {
			b.end(ending)
			return elsewhere.Err()
		}
		many := min(max(8, done), sim.Batch, plan.Max-done)
		all, err := b.stretches(elsewhere.Next(ctx), done, many)
		if plan.Precision == 0 {
			err = elsewhere.Keep(err)
		}
		if err != nil {
			return err
		}
		if elsewhere.Err() != nil {
			done += many
			continue
		}
		if len(all) < len(b.works) {
			b.end(sim.Cancelled)
			return nil
		}
		for k := range all[0].rates {
			for j, s := range b.base {
				s.take(&all[0].each[k][j])
			}
			for i := range all {
				b.rates[i] = append(b.rates[i], all[i].rates[k])
			}
			if watch != nil {
				watch(done + k)
			}
		}
		done += many
	}
}

// stretches returns some replications of each work, from the first on; of fewer works if ctx
// is cancelled.
func (b *beside) stretches(ctx context.Context, first, many int) (all []stretch, err error) {
	plan := sim.Plan{Min: len(b.works), Max: len(b.works), Workers: b.base[0].Plan.Workers}
	worker := func() (func(int, *stretch) error, error) {
		return func(work int, s *stretch) error {
			*s = b.stretch(work, first, many)
			if tape.Of(ctx) { // what has failed is not recorded
				return s.err
			}
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

// stretch runs some replications of one work; those of the first are kept.
func (b *beside) stretch(work, first, many int) (s stretch) {
	w := b.works[work]
	run, err := w.readyWork()
	if err != nil {
		return stretch{err: err}
	}
	one, parts := make([]replication, len(b.base)), make([]float64, len(b.base))
	for k := range many {
		if work == 0 {
			one = make([]replication, len(b.base))
			s.each = append(s.each, one)
		}
		if err := run(b.base[0].Plan.Seed, first+k, one); err != nil {
			return stretch{err: fmt.Errorf("replication %d: %w", first+k, err)}
		}
		for i := range one {
			parts[i] = one[i].NetRate()
		}
		s.rates = append(s.rates, w.Rate(parts))
	}
	return s
}
