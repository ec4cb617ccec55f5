package runs

import (
	"context"
	"fmt"

	"netrate/model"
	"netrate/sim"
	"netrate/sim/tape"
)

// beside is a line and many others on common random numbers, of which only the net rates are
// kept. They run some replications of one line, then of the next: all of them could not be
// ready to run at once. Each is a line at one kind of work, or one at every job of a mix.
type beside struct {
	mix   *Mix            // nil if there is one kind of work
	base  []*Study        // of the first line, at each job
	lines [][]*model.Line // that one, then the others, at each job
	rates []sim.Sample    // of each line, all its jobs together
}

// besides returns lines that are to be run, each at every job.
func besides(mix *Mix, lines [][]*model.Line, plan sim.Plan) *beside {
	b := &beside{mix: mix, lines: lines, rates: make([]sim.Sample, len(lines))}
	for _, l := range lines[0] {
		b.base = append(b.base, &Study{Line: l, Plan: plan})
	}
	return b
}

// study returns the study of the first line as it stands, of all its jobs.
func (b *beside) study() *Study {
	if b.mix == nil {
		return b.base[0]
	}
	return Mixed(b.mix.Line, b.base, b.mix.Shares)
}

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

// stretch is some replications of one line.
type stretch struct {
	rates []float64
	each  [][]replication // of the first line, at each job; else nil
	err   error
}

// run runs the plan of the first line's study, with as many replications of every other. After
// each replication, in order, it calls watch, if there is one.
//
// When ctx is cancelled, replications that some lines have and others have not are dropped. At
// the beginning stretches are short, so that there soon is something to report.
func (b *beside) run(ctx context.Context, watch func(replication int)) error {
	plan := b.base[0].Plan
	if err := plan.Check(); err != nil {
		return err
	}
	if err := within(len(b.lines)*len(b.base), plan); err != nil {
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
		if len(all) < len(b.lines) {
			b.end(sim.Cancelled)
			return nil
		}
		for k := range all[0].rates {
			for j, s := range b.base {
				s.take(&all[0].each[j][k])
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

// stretches returns some replications of each line, from the first on; of fewer lines if ctx
// is cancelled.
func (b *beside) stretches(ctx context.Context, first, many int) (all []stretch, err error) {
	plan := sim.Plan{Min: len(b.lines), Max: len(b.lines), Workers: b.base[0].Plan.Workers}
	worker := func() (func(int, *stretch) error, error) {
		return func(line int, s *stretch) error {
			*s = b.stretch(line, first, many)
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

// stretch runs some replications of one line, at each of its jobs.
func (b *beside) stretch(line, first, many int) (s stretch) {
	hours := make([]float64, many) // for one good envelope; without a mix not used
	for j, l := range b.lines[line] {
		var each []replication
		if s.rates, each, s.err = b.stretchOf(l, first, many, line == 0); s.err != nil {
			return s
		}
		s.each = append(s.each, each)
		for k, rate := range s.rates {
			if b.mix != nil {
				hours[k] += b.mix.Shares[j] / rate
			}
		}
	}
	if b.mix == nil {
		return s
	}
	for k := range hours { // infinite where a job delivers nothing
		s.rates[k] = 1 / hours[k]
	}
	return s
}

// stretchOf runs them at one kind of work, and returns all of them if they are to be kept.
func (b *beside) stretchOf(l *model.Line, first, many int, kept bool) (rates []float64, each []replication, err error) {
	running, err := newReady(l)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", l.Name, err)
	}
	if rates = make([]float64, many); kept {
		each = make([]replication, many)
	}
	var one replication
	for k := range rates {
		to := &one
		if kept {
			to = &each[k]
		}
		if err := running.run(b.base[0].Plan.Seed, first+k, to); err != nil {
			return nil, nil, fmt.Errorf("replication %d: %s: %w", first+k, l.Name, err)
		}
		rates[k] = to.NetRate()
	}
	return rates, each, nil
}
