package desk

import (
	"context"

	"netrate/model/study"
)

// Asked asks a question until it is answered or a signal ends it, and shows on a terminal how far
// it is: how many shifts or jobs, as word says, and how many draws. When a signal ended it the
// error is the cause, and the answer is what was found by then; nil if that is nothing.
func Asked[A any](e Env, word string, ask func(context.Context, func(study.Sofar[A])) (*A, error), settings func(*A) study.Settings) (*A, error) {
	ctx, stop := e.UntilInterrupted()
	defer stop()
	shown := &asking{env: e, word: word}
	defer shown.stop()
	var told func(study.Sofar[A])
	if e.Terminal {
		told = func(s study.Sofar[A]) { shown.done(s.Done, s.Most, s.Expected, s.Draws) }
	}
	a, err := ask(ctx, told)
	switch {
	case err != nil:
		return nil, inWords(err, word)
	case a == nil || settings(a).Reps == 0:
		return nil, e.CutShort(ctx, 0, word)
	case settings(a).Partial:
		return a, e.CutShort(ctx, settings(a).Reps, word)
	}
	return a, nil
}

// asking shows how far a question is.
type asking struct {
	env   Env
	word  string
	draws bool // they are shown
	bar   *Progress
}

// done says how many shifts or jobs are done, or how many draws, and how many are expected in all; 0
// if that is not known.
func (a *asking) done(n, most, expected int, draws bool) {
	if a.bar == nil || draws != a.draws {
		a.stop()
		word := a.word
		if draws {
			word = "draw"
		}
		a.bar, a.draws = NewProgress(a.env.Err, most, word), draws
	}
	a.bar.Done(n)
	a.bar.Aim(expected)
}

func (a *asking) stop() {
	if a.bar != nil {
		a.bar.Stop()
	}
}
