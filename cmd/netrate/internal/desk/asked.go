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
	if e.Terminal || e.Far != nil {
		told = func(s study.Sofar[A]) { shown.heard(count{s.Done, s.Most, s.Expected, s.Lines, s.Ahead}, s.Draws) }
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

// count is how far a question is: see [study.Sofar].
type count struct{ done, most, expected, lines, ahead int }

// asking shows how far a question is: how many shifts or jobs, of all its lines together.
type asking struct {
	env   Env
	word  string
	draws bool // they are shown
	bar   *Progress

	done int // replications, of which the lines had
	runs int // so many, together
}

// heard takes in how far the question is.
func (a *asking) heard(c count, draws bool) {
	if a.bar == nil || draws != a.draws {
		a.stop()
		word := a.word
		if draws {
			word = "draw"
		}
		a.bar, a.draws, a.done, a.runs = newProgress(a.env, 0, word), draws, 0, 0
	}
	lines := max(1, c.lines)
	a.runs += max(0, c.done-a.done) * lines
	a.done = c.done
	expected := 0
	switch {
	case c.ahead > 0:
		expected = a.runs + c.ahead
	case c.expected > 0:
		expected = a.runs + max(0, c.expected-c.done)*lines
	}
	a.bar.Lines(lines)
	a.bar.Most(a.runs + max(0, c.most-c.done)*lines)
	a.bar.Aim(expected)
	a.bar.Done(a.runs)
}

func (a *asking) stop() {
	if a.bar != nil {
		a.bar.Stop()
	}
}
