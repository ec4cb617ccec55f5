package sim

import (
	"context"
	"math"
	"runtime"

	"netrate/sim/tape"
)

// Batch is how many replications run between two looks at the precision. It must
// not depend on the number of workers: results would.
const Batch = 64

// Replicate runs the replications 0, 1, 2, … of a plan and returns how many were
// folded and why they ended.
//
// It calls newWorker once for each worker. The function that newWorker returns runs
// one replication into r, which holds an older replication or nothing and is
// overwritten; it is called from one goroutine at a time. Replicate calls fold with
// each result, in order of the replications and on the goroutine that called
// Replicate; fold must not keep r. It returns the figure watched. Later replications
// may run meanwhile: they must not depend on anything that fold changes.
//
// The precision is looked at after every 64 replications, so the result is the same
// bit for bit for any number of workers, as long as a replication depends on nothing
// but its number. The interval is the one of [Sample.Interval]; looking at it
// again and again makes it right a little less often than 95 times in 100, unless Min
// is large. A mean of zero has no relative precision and runs to Max.
//
// When ctx is cancelled, the replications begun are finished and folded, and the
// error is nil. When replications fail, the error is that of the first of them, and
// those before it are folded. A replication that panics panics here.
func Replicate[R any](
	ctx context.Context,
	plan Plan,
	newWorker func() (run func(replication int, r *R) error, err error),
	fold func(replication int, r *R) (watched float64),
) (done int, ending Ending, err error) {
	return Resume(ctx, plan, nil, newWorker, fold, false)
}

// Resume is [Replicate] after some replications have been done already: as many as there are
// figures of them, which fold returned then. It goes on with the next, and ends as if all had
// been run at once; done counts them all.
//
// Where a [tape.Tape] goes along in ctx and R can be recorded, replications are played from it,
// and only what a shard records is run: see package tape.
//
// If apart, no replication runs while fold is called, which is after every 64: fold may then change
// what the next depend on.
func Resume[R any](
	ctx context.Context,
	plan Plan,
	before []float64,
	newWorker func() (run func(replication int, r *R) error, err error),
	fold func(replication int, r *R) (watched float64),
	apart bool,
) (done int, ending Ending, err error) {
	if err := plan.Check(); err != nil {
		return 0, 0, err
	}
	if tape.Of(ctx) {
		if _, recorded := any(new(R)).(tape.Recorded); recorded {
			return taped(ctx, plan, before, newWorker, fold, apart)
		}
	}
	crew, err := hire(plan, newWorker)
	if err != nil {
		return 0, 0, err
	}
	var figures running
	for _, x := range before {
		figures.add(x)
	}
	done = len(before)
	relay := newRelay(crew, min(ahead, plan.Max), apart, func(replication int, r *R) { figures.add(fold(replication, r)) })
	for {
		if ending, over := plan.over(&figures); over {
			return done, ending, nil
		}
		until := plan.next(done, apart)
		if done, err = relay.run(ctx, done, until); err != nil {
			return done, 0, err
		}
		if done < until {
			return done, Cancelled, nil
		}
	}
}

// next returns after how many replications, of which some are done, something is to be looked at
// next: after a batch, of which those that cannot be the last do not count where nothing else is.
func (p Plan) next(done int, each bool) int {
	next := done - done%Batch + Batch
	switch {
	case each:
	case p.Precision == 0:
		next = p.Max
	default:
		next = max(next, p.First())
	}
	return min(next, p.Max)
}

// Over reports whether a run that has come to these figures is at its end, and how it ends there.
func (p Plan) Over(figures []float64) (ending Ending, over bool) {
	var all running
	for _, x := range figures {
		all.add(x)
	}
	return p.over(&all)
}

func (p Plan) over(figures *running) (ending Ending, over bool) {
	done := figures.n
	switch looked := done > 0 && (done%Batch == 0 || done >= p.Max); {
	case looked && done >= p.Min && figures.within(p.Precision):
		return Precise, true
	case looked && done >= p.Max:
		return AtMost, true
	}
	return 0, false
}

// hire makes the workers of a plan.
func hire[R any](plan Plan, newWorker func() (func(int, *R) error, error)) ([]func(int, *R) error, error) {
	crew := make([]func(int, *R) error, min(plan.workers(), Batch, plan.Max))
	for i := range crew {
		run, err := newWorker()
		if err != nil {
			return nil, err
		}
		crew[i] = run
	}
	return crew, nil
}

// workers returns how many replications are run at a time.
func (p Plan) workers() int {
	if p.Workers == 0 {
		return runtime.GOMAXPROCS(0)
	}
	return p.Workers
}

// running is the mean and the spread of figures that are not kept.
//
// Source: Welford, Note on a method for calculating corrected sums of squares and
// products, Technometrics 4 (1962) 419–420 (from memory).
type running struct {
	n       int
	mean    float64
	squares float64 // sum of the squared distances from the mean
}

func (r *running) add(x float64) {
	r.n++
	distance := x - r.mean
	r.mean += distance / float64(r.n)
	r.squares += float64(distance * (x - r.mean))
}

// within reports whether the 95 % interval of the mean is within ± the given share
// of it. It is false for a mean of zero, for NaN and for a share of 0.
func (r *running) within(share float64) bool {
	if r.n < 2 || share == 0 || r.mean == 0 {
		return false
	}
	sd := math.Sqrt(r.squares / float64(r.n-1))
	return halfWidth(sd, r.n, 0.95) <= share*math.Abs(r.mean)
}
