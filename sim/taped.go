package sim

import (
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
	var figures running
	for _, x := range before {
		figures.add(x)
	}
	done = len(before)
	stage, err := tape.Begin(ctx, fmt.Sprintf("%T of %d to %d with seed %d, to %g, after %d", *new(R), plan.Min, plan.Max, plan.Seed, plan.Precision, done))
	if err != nil {
		return done, 0, err
	}
	var r R
	for {
		if ending, over := plan.over(&figures); over {
			return done, ending, nil
		}
		if ctx.Err() != nil {
			return done, Cancelled, nil
		}
		for until := min(done-done%Batch+Batch, plan.next(done, apart)); done < until; done++ {
			recorded, err := stage.Read(done, any(&r).(tape.Recorded))
			if err != nil {
				return done, 0, err
			}
			if !recorded {
				return done, 0, beyond(ctx, stage, plan, done, plan.round(&figures, apart), newWorker)
			}
			figures.add(fold(done, &r))
		}
	}
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
