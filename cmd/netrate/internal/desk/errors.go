package desk

import (
	"errors"
	"fmt"
	"syscall"

	"netrate/model"
)

// wrongInput is an error of the command line or of a file: running again is of no use.
type wrongInput struct{ text string }

// Error returns what is wrong, and what was wanted.
func (w wrongInput) Error() string { return w.text }

// Wrong returns an error of the command line or of a file, with which the command ends with
// status 2.
func Wrong(format string, args ...any) error { return wrongInput{fmt.Sprintf(format, args...)} }

// Interrupted is the error of a run that a signal ended.
type Interrupted struct {
	Signal syscall.Signal
	text   string // what became of the answer
}

// Error returns that the run was interrupted, and what became of the answer.
func (i Interrupted) Error() string { return "interrupted: " + i.text }

// Saying returns the error with other words on what became of the answer.
func (i Interrupted) Saying(text string) Interrupted {
	i.text = text
	return i
}

// needsRound is the error of a merge whose question needs another round of shards.
type needsRound struct{ text string }

// Error returns what is to be run.
func (n needsRound) Error() string { return n.text }

// Status returns the exit status: 0 done, 1 failed, 2 the input is wrong, 3 shards are to be run in
// another round, and as a shell has it 130 or 143 after a signal.
func Status(err error) int {
	var round needsRound
	var stopped Interrupted
	var input wrongInput
	var draw *model.ImpossibleDraw
	switch {
	case err == nil:
		return 0
	case errors.As(err, &stopped):
		return 128 + int(stopped.Signal)
	case errors.As(err, &round):
		return 3
	case errors.As(err, &input) || errors.As(err, &draw):
		return 2
	}
	return 1
}

// Each returns the errors that were joined, each once.
func Each(err error) (all []error) {
	if err == nil {
		return nil
	}
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []error{err}
	}
	said := map[string]bool{}
	for _, one := range joined.Unwrap() {
		for _, each := range Each(one) {
			if !said[each.Error()] {
				said[each.Error()] = true
				all = append(all, each)
			}
		}
	}
	return all
}
