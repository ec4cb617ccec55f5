package sim

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"
)

// Batch is how many replications run between two looks at the precision. It must
// not depend on the number of workers: results would.
const Batch = 64

// Replicate runs the replications 0, 1, 2, … of a plan and returns how many were
// folded and why they ended.
//
// It calls newWorker once for each worker. The function that newWorker returns runs
// one replication into r, which holds an older replication and is overwritten; it is
// called from one goroutine at a time. Replicate then calls fold with each result,
// in order of the replications and on the goroutine that called Replicate; fold must
// not keep r. It returns the figure watched.
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
	return Resume(ctx, plan, nil, newWorker, fold)
}

// Resume is [Replicate] after some replications have been done already: as many as there are
// figures of them, which fold returned then. It goes on with the next, and ends as if all had
// been run at once; done counts them all.
func Resume[R any](
	ctx context.Context,
	plan Plan,
	before []float64,
	newWorker func() (run func(replication int, r *R) error, err error),
	fold func(replication int, r *R) (watched float64),
) (done int, ending Ending, err error) {
	if err := plan.Check(); err != nil {
		return 0, 0, err
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
	slots := make([]slot[R], min(Batch, plan.Max))
	for {
		if ending, over := plan.over(&figures); over {
			return done, ending, nil
		}
		wanted := min(Batch-done%Batch, plan.Max-done)
		finished := runBatch(ctx, crew, done, slots[:wanted])
		for i := range finished {
			if err := slots[i].failure(done); err != nil {
				return done, 0, err
			}
			figures.add(fold(done, &slots[i].result))
			done++
		}
		if finished < wanted {
			return done, Cancelled, nil
		}
	}
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
	n := plan.Workers
	if n == 0 {
		n = runtime.GOMAXPROCS(0)
	}
	crew := make([]func(int, *R) error, min(n, Batch, plan.Max))
	for i := range crew {
		run, err := newWorker()
		if err != nil {
			return nil, err
		}
		crew[i] = run
	}
	return crew, nil
}

// slot holds one replication of a batch.
type slot[R any] struct {
	result R
	err    error
	crash  any    // what the replication panicked with
	stack  []byte // where
}

// runBatch runs the replications from first on, one for each slot, and returns how
// many it ran: all, unless ctx was cancelled or one failed. Those it ran are the
// foremost ones, because a worker runs whatever number it has drawn.
func runBatch[R any](ctx context.Context, crew []func(int, *R) error, first int, slots []slot[R]) int {
	var drawn atomic.Int64
	var failed atomic.Bool
	var wait sync.WaitGroup
	for _, run := range crew {
		wait.Go(func() { // a goroutine costs a microsecond, a batch some milliseconds
			for ctx.Err() == nil && !failed.Load() {
				i := int(drawn.Add(1)) - 1
				if i >= len(slots) {
					return
				}
				if !slots[i].run(run, first+i) {
					failed.Store(true)
				}
			}
		})
	}
	wait.Wait()
	return min(int(drawn.Load()), len(slots))
}

// run runs one replication and reports whether it went well.
func (s *slot[R]) run(run func(int, *R) error, replication int) (ok bool) {
	s.err = errors.New("the replication ended its goroutine") // unless it returns
	defer func() {
		if s.crash = recover(); s.crash != nil {
			s.stack = debug.Stack()
			ok = false
		}
	}()
	s.err = run(replication, &s.result)
	return s.err == nil
}

// failure returns the error of the replication, and passes on its panic.
func (s *slot[R]) failure(replication int) error {
	if s.crash != nil {
		panic(fmt.Sprintf("sim: replication %d panicked: %v\n%s", replication, s.crash, s.stack))
	}
	if s.err != nil {
		return fmt.Errorf("replication %d: %w", replication, s.err)
	}
	return nil
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
