package study

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"netrate/model"
	"netrate/model/money"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
	"netrate/sim/portable"
	"netrate/sim/tape"
)

// Comparison asks which of several alternatives delivers most good envelopes an hour, and by
// how much. All get the same replications with common random numbers: the same random events,
// shift by shift, so that what differs is what was changed.
//
// The alternatives are all single lines or all line groups; of a group all lines count
// together. Where the costs have a yearly volume of each job, a line is set up for all of them,
// and each counts as much as its volume. Lines with costs are evaluated, too ([Worth]).
type Comparison struct {
	Alternatives []Alternative // two at least; the first is the base
	// Plan says how many replications are run of each. A precision in it is that of the base's
	// net rate; with Selection the plan's Max is the most that are run, and Min and Precision do
	// not count.
	Plan      sim.Plan
	Selection *ComparisonSelection // if only the best is looked for
	Draws     int                  // of what is uncertain; 0 for none, else [UncertaintyLeast] or more. Not with Selection
	// Why is the two alternatives of which the steps say why one delivers more or less than the
	// other; nil for what is best or, of lines with costs, recommended.
	Why    *[2]int
	Scenes bool              // those two have them, too
	Kept   *ComparisonAnswer // an earlier answer to the question, whose replications are kept; nil for none. With the same seed and selection
}

// ComparisonSelection says how the best is looked for: an alternative is run no further once it
// is known not to be ahead of another by the indifference. The choice is right with the
// confidence asked for, if the best is ahead of every other by that much; alternatives closer
// than that count as equal.
type ComparisonSelection struct {
	Indifference float64 // good envelopes an hour; 0 for a hundredth of what the base delivers on paper
	Confidence   float64 // 0 for [Level]
}

// The first look of a selection, and the usual indifference.
const (
	selectionFirst     = 64   // replications of each, which settle how much they vary: those that run at a time
	usualIndifference  = 0.01 // of what the base delivers on paper
	indifferenceDigits = 1    // of a usual one
)

// indifference returns the smallest difference that matters.
func (q *Comparison) indifference(all []*tried) float64 {
	if x := q.Selection.Indifference; x != 0 {
		return x
	}
	return usualIndifferenceOf(all[0].work().Paper())
}

// usualIndifferenceOf returns the usual part of a figure, with few digits; NaN of 0.
func usualIndifferenceOf(figure float64) float64 {
	x := usualIndifference * figure
	step := math.Pow10(int(math.Floor(portable.Log10(x))) - indifferenceDigits)
	return math.Round(x/step) * step
}

// Check returns why the question cannot be asked; nil if it can.
func (q *Comparison) Check() error {
	_, _, err := q.prepare()
	return err
}

// prepare returns what is to be run, and the selection if there is one.
func (q *Comparison) prepare() ([]*tried, *selection, error) {
	all, err := q.tried()
	if err == nil && q.Kept != nil {
		err = keepAll(all, q.Kept.Lines, q.Plan.Seed)
	}
	if err != nil || q.Selection == nil {
		return all, nil, err
	}
	s := &selection{indifference: q.indifference(all), confidence: q.Selection.Confidence, most: q.Plan.Max, usual: q.Selection.Indifference == 0}
	if s.usual && !(s.indifference > 0) {
		return nil, nil, fmt.Errorf("%s delivers nothing on paper, and the usual difference that matters is a part of that: say which one does", q.Alternatives[0].Name)
	}
	if s.confidence == 0 {
		s.confidence = Level
	}
	if s.Selection, err = output.NewSelection(len(all), selectionFirst, s.indifference, s.confidence); err != nil {
		return nil, nil, err
	}
	s.Cap(q.Plan.Max)
	return all, s, nil
}

// tried returns the alternatives as they are run, or why they cannot be compared.
func (q *Comparison) tried() ([]*tried, error) {
	if err := errors.Join(ofLines(q.Alternatives...), namedApart(q.Alternatives)); err != nil {
		return nil, err
	}
	alternatives, err := apart(q.Alternatives)
	if err != nil {
		return nil, err
	}
	all := make([]*tried, len(alternatives))
	groups := 0
	for i := range alternatives {
		all[i] = &tried{Alternative: &alternatives[i], means: q.Selection != nil}
		if all[i].Group != nil {
			groups++
		}
	}
	if err := errors.Join(costsRight(all), setUpJobs(all)); err != nil {
		return nil, err
	}
	for _, t := range all {
		if err := meansFit(t.Lines()...); t.means && err != nil {
			return nil, err
		}
	}
	switch n := len(all); {
	case q.Why != nil && (min(q.Why[0], q.Why[1]) < 0 || max(q.Why[0], q.Why[1]) >= n):
		return nil, fmt.Errorf("why is asked of the alternatives %d and %d, and there are %d", q.Why[0], q.Why[1], n)
	case n < 2:
		return nil, fmt.Errorf("alternatives to compare are %d, want 2 or more", n)
	case groups > 0 && groups < n:
		return nil, errors.New("one file or variant has one line and another has several with one crew: want all of a kind")
	}
	return all, nil
}

// answer compares alternatives that were run.
func (q *Comparison) answer(all []*tried, selected *selection) *ComparisonAnswer {
	a := compared(all, selected)
	if q.Why != nil {
		a.Explain(q.Why[0], q.Why[1])
		a.asked = true
	}
	return a
}

// PairNamed returns the numbers of two alternatives by their names with a comma between, such as
// "base,twin".
func PairNamed(alternatives []Alternative, text string) ([2]int, error) {
	var names []string
	for i := range alternatives {
		names = append(names, alternatives[i].Name)
	}
	for at, c := range text {
		if c != ',' {
			continue
		}
		from, to := slices.Index(names, strings.TrimSpace(text[:at])), slices.Index(names, strings.TrimSpace(text[at+1:]))
		if from >= 0 && to >= 0 && from != to {
			return [2]int{from, to}, nil
		}
	}
	return [2]int{}, fmt.Errorf("%q is not two of the lines that are compared: want A,B of %s", text, model.Listed(names))
}

// volumes returns the yearly volumes of jobs that the costs have; nil if they have none.
func (a *Alternative) volumes() map[string]money.Value {
	if a.Costs == nil || a.Group != nil {
		return nil
	}
	return a.Costs.Volumes
}

// Unmixed says why lines cannot be run at the yearly volumes of their jobs.
type Unmixed struct{ Why string }

func (e *Unmixed) Error() string { return e.Why }

// setUpJobs sets all lines up for the jobs with a yearly volume, if the costs have such, or
// returns why they cannot be compared at them.
func setUpJobs(all []*tried) error {
	var errs []error
	for _, t := range all {
		switch called := t.InWords(); {
		case !maps.Equal(t.volumes(), all[0].volumes()):
			return &Unmixed{fmt.Sprintf("%s has other yearly volumes of jobs than %s: lines are compared at the same work", called, all[0].InWords())}
		case len(t.volumes()) > 0:
			var err error
			jobs, shares := t.Costs.Shares()
			if t.mix, err = runs.NewMix(t.Line, t.Products, jobs, shares); err != nil {
				errs = append(errs, fmt.Errorf("%s: %s", called, strings.ReplaceAll(err.Error(), "\n", "\n"+called+": ")))
			}
		}
	}
	if err := errors.Join(errs...); err != nil {
		return &Unmixed{"not every line can run all jobs that have a yearly volume:\n" + err.Error()}
	}
	return nil
}

// Ask runs the replications and compares, then draws what is uncertain. After each replication
// and each draw it calls told, if there is one.
//
// When ctx is cancelled the answer is of what was done by then; it is nil if no replication was.
// The answer is the same bit for bit for any number of workers.
func (q Comparison) Ask(ctx context.Context, told func(Sofar[ComparisonAnswer])) (*ComparisonAnswer, error) {
	all, selected, err := q.prepare()
	if err != nil {
		return nil, err
	}
	if err := drawsFit(all, q.Draws); err != nil {
		return nil, err
	}
	var elsewhere tape.Elsewhere // draws do not depend on what is at nominal values
	if err := elsewhere.Keep(q.replicate(elsewhere.Next(ctx), all, selected, told)); err != nil {
		return nil, err
	}
	if elsewhere.Err() == nil && len(all[0].study.Shifts) == 0 {
		return nil, nil
	}
	if selected == nil && (elsewhere.Err() != nil || all[0].study.Ending != sim.Cancelled) {
		if err := q.draw(elsewhere.Next(ctx), all, told); err != nil {
			return nil, err
		}
	}
	if err := elsewhere.Err(); err != nil {
		return nil, err
	}
	a := q.answer(all, selected)
	if err := a.evaluate(); err != nil {
		return nil, err
	}
	for i := range a.Lines {
		x := &a.Lines[i]
		if x.Mix == nil {
			if err := x.Target.winBack(ctx, x.Study, a.Basis, x.Of.Line, q.Plan.Workers); err != nil {
				return nil, err
			}
		}
	}
	if q.Scenes {
		err = a.scenes()
	}
	return a, err
}
