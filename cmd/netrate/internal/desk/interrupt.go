package desk

import (
	"context"
	"errors"
	"os"
	"os/signal"
	"syscall"
)

// UntilInterrupted returns a context that the first SIGINT, SIGTERM or SIGHUP ends, with an
// Interrupted error as its cause. The second one ends the program at once. After stop,
// signals do again what they did.
func UntilInterrupted() (ctx context.Context, stop func()) {
	ctx, cancel := context.WithCancelCause(context.Background())
	arrived := make(chan os.Signal, 1)
	for _, s := range []os.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(s) { // as in the background of a shell script, or under nohup
			signal.Notify(arrived, s)
		}
	}
	go func() {
		select {
		case s := <-arrived:
			signal.Stop(arrived)
			number, _ := s.(syscall.Signal)
			cancel(Interrupted{Signal: number})
		case <-ctx.Done():
		}
	}()
	return ctx, func() {
		signal.Stop(arrived)
		cancel(nil)
	}
}

// CutShort returns the error of a run that ctx ended after done shifts or jobs, as word says. Its
// answer is then known to be partial.
func (e Env) CutShort(ctx context.Context, done int, word string) error {
	if e.caught != nil {
		e.caught.partial = true
	}
	var early Interrupted
	errors.As(context.Cause(ctx), &early)
	early.text = "the answer is partial"
	if done == 0 {
		early.text = "not even one " + word + " was done, so there is no answer"
	}
	return early
}

// caught is the context of a verb that a signal ends, from the first question that it asks until
// the verb is done: between an answer and its printing there is no moment to lose it.
type caught struct {
	ctx     context.Context
	stop    func()
	partial bool // the answer is, and the status tells of the signal
}

// UntilInterrupted returns a context as the function of that name does, or what else ends the verb.
// Within a verb, signals do again what they did when the verb is done; else after done is called.
func (e Env) UntilInterrupted() (ctx context.Context, done func()) {
	if e.caught == nil {
		return UntilInterrupted()
	}
	if e.caught.ctx == nil {
		e.caught.ctx, e.caught.stop = UntilInterrupted()
	}
	if e.tape != nil {
		return e.tape.With(e.caught.ctx), func() {}
	}
	return e.caught.ctx, func() {}
}

// interrupted returns the error of a verb that a signal has ended, with what became of its
// answer; nil if none has.
func (e Env) interrupted(text string) error {
	var early Interrupted
	if e.caught == nil || e.caught.ctx == nil || !errors.As(context.Cause(e.caught.ctx), &early) {
		return nil
	}
	early.text = text
	return early
}
