package study

import (
	"errors"
	"fmt"
	"reflect"

	"netrate/model"
	"netrate/model/runs"
)

// A question may be given an earlier answer to it, whose replications are kept: only more are
// run, and what comes out is what it would be if all had been run at once. What is uncertain is
// drawn anew.

// begun returns the studies that the replications of the alternative are added to: what is kept,
// or studies of none.
func (t *tried) begun() []*runs.Study {
	if t.before != nil {
		return keptStudies(t.before)
	}
	return t.work().Begun()
}

// keep takes over the replications of an earlier answer, or says why they are of something else.
func (t *tried) keep(s *runs.Study, seed uint64) error {
	before := []*runs.Study{s}
	switch {
	case t.Group != nil:
		before = s.Lines()
	case t.mix != nil:
		before = nil
		for _, j := range s.Jobs() {
			before = append(before, j.Study)
		}
	}
	if err := sameRun(before, t.work().Lines(), seed); err != nil {
		return fmt.Errorf("what is kept of %s: %w", t.InWords(), err)
	}
	t.before = before
	return nil
}

// sameRun returns why studies are not of these lines, or of another seed.
func sameRun(studies []*runs.Study, lines []*model.Line, seed uint64) error {
	if len(studies) != len(lines) {
		return fmt.Errorf("the lines are %d, want %d", len(studies), len(lines))
	}
	for i, s := range studies {
		switch {
		case s.Plan.Seed != seed:
			return fmt.Errorf("the seed was %d, want %d", s.Plan.Seed, seed)
		case !reflect.DeepEqual(s.Line, lines[i]):
			return errors.New("the line has changed since")
		}
	}
	return nil
}

// keepAll takes over the replications of an earlier answer with these lines.
func keepAll(all []*tried, lines []LineAnswer, seed uint64) error {
	if len(lines) != len(all) {
		return fmt.Errorf("what is kept has %d alternatives, want %d", len(lines), len(all))
	}
	for i, t := range all {
		if err := t.keep(lines[i].Nominal, seed); err != nil {
			return err
		}
	}
	return nil
}
