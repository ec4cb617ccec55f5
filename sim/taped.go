package sim

import (
	"cmp"
	"context"
	"fmt"
	"math"

	"netrate/sim/tape"
)

// taped is Resume where a tape goes along: what is recorded is folded as if it had been run, and
// the rest is run in part and recorded, or missing. Then the error is [tape.ErrElsewhere].
func taped[R any](
	ctx context.Context, plan Plan, before []float64,
	newWorker func() (func(int, *R) error, error), fold func(int, *R) float64, apart bool,
) (done int, ending Ending, err error) {
	p := &playing[R]{plan: plan, fold: fold, apart: apart, done: len(before)}
	for _, x := range before {
		p.figures.add(x)
	}
	stage, err := tape.Begin(ctx, fmt.Sprintf("%T of %d to %d with seed %d, to %g, after %d", *new(R), plan.Min, plan.Max, plan.Seed, plan.Precision, p.done))
	if err != nil {
		return p.done, 0, err
	}
	blocks, err := stage.Blocks(p.done)
	if err != nil {
		return p.done, 0, err
	}
	if err := p.play(ctx, blocks); err != nil {
		return p.done, 0, err
	}
	switch {
	case p.over:
		return p.done, p.ending, nil
	case ctx.Err() != nil:
		return p.done, Cancelled, nil
	}
	return p.done, 0, beyond(ctx, stage, plan, p.done, plan.round(&p.figures, apart), newWorker)
}

// playing is replications that are recorded, while they are folded.
type playing[R any] struct {
	plan    Plan
	fold    func(int, *R) float64
	apart   bool
	figures running
	done    int
	look    int // after how many something is to be looked at next
	over    bool
	ending  Ending
	err     error
}

// mostReaders is how many blocks are read at a time, at most: each is some megabytes, and more are not
// folded as fast.
const mostReaders = 8

// play folds blocks until the plan is over. They are read by whoever is free, and folded in order.
func (p *playing[R]) play(ctx context.Context, blocks []tape.Block) error {
	p.looks(ctx)
	if p.over || len(blocks) == 0 {
		return nil
	}
	reading, stop := context.WithCancel(ctx)
	defer stop()
	crew := make([]func(int, *played[R]) error, min(p.plan.workers(), mostReaders, len(blocks)))
	for i := range crew {
		var from tape.Reader
		crew[i] = func(b int, into *played[R]) error {
			into.read(&from, blocks[b])
			return nil
		}
	}
	_, err := newRelay(crew, len(crew)+1, false, func(b int, read *played[R]) {
		if !p.folds(ctx, blocks[b], read) {
			stop()
		}
	}).run(reading, 0, len(blocks))
	return cmp.Or(p.err, err)
}

// played is what was read of a block.
type played[R any] struct {
	results []R
	err     error
}

// read reads a block in the place of what was read before, whose memory is used again.
func (r *played[R]) read(from *tape.Reader, b tape.Block) {
	all := r.results[:0]
	_, r.err = from.Read(b, func(i int) tape.Recorded {
		if i < cap(all) {
			all = all[:i+1]
		} else {
			all = append(all, *new(R))
		}
		return any(&all[i]).(tape.Recorded)
	})
	r.results = all
}

// folds folds what was read of a block, and reports whether the next is wanted.
func (p *playing[R]) folds(ctx context.Context, b tape.Block, read *played[R]) bool {
	if p.over || p.err != nil {
		return false
	}
	if p.err = read.err; p.err != nil {
		return false
	}
	for i := range read.results {
		p.figures.add(p.fold(p.done, &read.results[i]))
		if p.done++; p.done == p.look {
			p.looks(ctx)
		}
		if p.over {
			return false
		}
	}
	p.err = b.Ends(p.done)
	return p.err == nil
}

// looks looks whether the plan is over, or was ended by what was folded, and when to look next.
func (p *playing[R]) looks(ctx context.Context) {
	if p.ending, p.over = p.plan.over(&p.figures); !p.over && ctx.Err() != nil {
		p.ending, p.over = Cancelled, true
	}
	p.look = min(p.done-p.done%Batch+Batch, p.plan.next(p.done, p.apart))
}

// round returns up to which replication the next round goes: to the end where their number is
// known, as far as the precision looks to be away, or over twice as many where a selection drops lines.
func (p Plan) round(figures *running, apart bool) int {
	until := p.Max
	switch n := figures.n; {
	case apart:
		until = max(2*n, 4*Batch)
	case p.Precision == 0:
	case n < p.First():
		until = p.First()
	default:
		until = n + Batch
		if figures.mean != 0 {
			half := halfWidth(math.Sqrt(figures.squares/float64(n-1)), n, 0.95)
			times := half / (p.Precision * math.Abs(figures.mean))
			until = max(until, int(min(float64(n)*times*times*1.1, float64(p.Max))))
		}
	}
	return min((until+Batch-1)/Batch*Batch, p.Max)
}

// beyond runs and records the part of the shard of the replications from first on that are not
// recorded.
func beyond[R any](ctx context.Context, stage *tape.Stage, plan Plan, first, last int, newWorker func() (func(int, *R) error, error)) error {
	stage.Lacks(first, last)
	if !stage.Records() {
		return tape.ErrElsewhere
	}
	from, to := stage.Part(first, last)
	if from == to {
		return tape.ErrElsewhere
	}
	crew, err := hire(plan, newWorker)
	if err != nil {
		return err
	}
	record := stage.Record(from, to)
	relay := newRelay(crew, ahead, false, func(_ int, r *R) { record(any(r).(tape.Recorded)) })
	done, err := relay.run(ctx, from, to)
	if err != nil {
		return err
	}
	if done < to {
		return context.Cause(ctx)
	}
	if err := stage.Recorded(); err != nil {
		return err
	}
	return tape.ErrElsewhere
}
