package desk

import (
	"context"

	"netrate/sim"
)

// Watched runs shifts or jobs, as word says, at most most of them, and shows on a terminal how
// far they are. When a signal ended them it returns the cause.
func Watched(e Env, most int, word string, run func(ctx context.Context, watch func(replication int)) (done int, ending sim.Ending, err error)) error {
	ctx, stop := e.UntilInterrupted()
	defer stop()
	var watch func(int)
	if e.Terminal {
		p := NewProgress(e.Err, most, word)
		defer p.Stop()
		watch = func(replication int) { p.Done(replication + 1) }
	}
	done, ending, err := run(ctx, watch)
	if err != nil || ending != sim.Cancelled {
		return inWords(err, word)
	}
	return e.CutShort(ctx, done, word)
}
