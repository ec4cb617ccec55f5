package sim

import (
	"context"
	"errors"
	"fmt"
	"runtime/debug"
	"sync"
)

// ahead is how many replications may be run and not yet folded: enough that nobody waits for the
// one that the next to be folded takes.
const ahead = Batch

// relay runs replications, each by whoever is free, and folds them in order: on the goroutine that
// calls run, which runs replications too and folds between them what is there.
type relay[R any] struct {
	crew  []func(replication int, r *R) error
	fold  func(replication int, r *R)
	apart bool // nothing runs while something is folded

	mu      sync.Mutex
	change  sync.Cond // of anything below
	slots   []slot[R] // of the replications run and not yet folded, each where its number falls
	drawn   int       // the next to be run
	running int       // how many are
	folded  int       // the next to be folded
	until   int       // the first that is not to be begun
}

// slot holds one replication.
type slot[R any] struct {
	result R
	ready  bool // it was run, and is not folded
	err    error
	crash  any    // what the replication panicked with
	stack  []byte // where
}

func newRelay[R any](crew []func(int, *R) error, slots int, apart bool, fold func(int, *R)) *relay[R] {
	r := &relay[R]{crew: crew, fold: fold, apart: apart, slots: make([]slot[R], slots)}
	r.change.L = &r.mu
	return r
}

// run runs replications from first on until the given one, and returns how many are folded then:
// all, unless ctx was cancelled or one failed. Those are the foremost ones, because whoever is free
// runs whatever number is next.
func (r *relay[R]) run(ctx context.Context, first, until int) (folded int, err error) {
	r.drawn, r.folded, r.until = first, first, until
	r.hand(ctx)
	if r.folded < r.drawn {
		err = r.slot(r.folded).failure(r.folded)
	}
	return r.folded, err
}

// hand runs and folds until nothing is left that is to be, or the next to be folded has failed.
// However it ends, nobody is at work when it returns.
func (r *relay[R]) hand(ctx context.Context) {
	var others sync.WaitGroup
	defer others.Wait()
	defer r.end()
	for _, run := range r.crew[1:] {
		others.Go(func() {
			for i, more := r.draw(ctx); more; i, more = r.draw(ctx) {
				r.play(run, i)
			}
		})
	}
	for {
		switch i, turn := r.turn(ctx); turn {
		case toFold:
			r.fold(i, &r.slot(i).result)
			r.folds()
		case toRun:
			r.play(r.crew[0], i)
		case toEnd:
			return
		}
	}
}

// slot returns where a replication stands between its run and its fold.
func (r *relay[R]) slot(replication int) *slot[R] { return &r.slots[replication%len(r.slots)] }

// begins reports whether replications are begun still.
func (r *relay[R]) begins(ctx context.Context) bool { return r.drawn < r.until && ctx.Err() == nil }

// full reports whether there is no room for another replication before one is folded.
func (r *relay[R]) full() bool { return r.drawn-r.folded == len(r.slots) }

// draw returns the next replication to be run, as soon as there is room for it. There is none when
// no more are to be begun.
func (r *relay[R]) draw(ctx context.Context) (replication int, more bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	for r.begins(ctx) && r.full() {
		r.change.Wait()
	}
	if !r.begins(ctx) {
		return 0, false
	}
	return r.begin(), true
}

// begin notes that the next replication is begun, and returns it.
func (r *relay[R]) begin() (replication int) {
	r.drawn++
	r.running++
	return r.drawn - 1
}

// turn is what the goroutine that folds does next.
type turn int

const (
	toFold turn = iota
	toRun
	toEnd
)

// turn returns what is to be done next, and with which replication: to fold goes first.
func (r *relay[R]) turn(ctx context.Context) (replication int, what turn) {
	r.mu.Lock()
	defer r.mu.Unlock()
	for {
		next := r.slot(r.folded)
		folds := next.ready && !(r.apart && (r.begins(ctx) || r.running > 0))
		switch {
		case folds && next.failed():
			return 0, toEnd
		case folds:
			return r.folded, toFold
		case r.begins(ctx) && !r.full():
			return r.begin(), toRun
		case r.folded == r.drawn:
			return 0, toEnd
		}
		r.change.Wait()
	}
}

// folds notes that the next replication is folded.
func (r *relay[R]) folds() {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.slot(r.folded).ready = false
	r.folded++
	r.change.Broadcast()
}

// play runs one replication. If it fails no other is begun.
func (r *relay[R]) play(run func(int, *R) error, replication int) {
	s := r.slot(replication)
	defer func() { // even if it ends its goroutine
		r.mu.Lock()
		defer r.mu.Unlock()
		s.ready = true
		r.running--
		if s.failed() {
			r.until = r.drawn
		}
		r.change.Broadcast()
	}()
	s.run(run, replication)
}

// end lets nobody begin another.
func (r *relay[R]) end() {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.until = r.drawn
	r.change.Broadcast()
}

// run runs one replication.
func (s *slot[R]) run(run func(int, *R) error, replication int) {
	s.err = errors.New("the replication ended its goroutine") // unless it returns
	defer func() {
		if s.crash = recover(); s.crash != nil {
			s.stack = debug.Stack()
		}
	}()
	s.err = run(replication, &s.result)
}

func (s *slot[R]) failed() bool { return s.err != nil || s.crash != nil }

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
