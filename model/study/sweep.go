package study

import (
	"context"
	"fmt"
	"unicode"
	"unicode/utf8"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// Sweep asks what the values of one parameter of a line, or of two, do to its net rate. All
// its lines run the same replications, with common random numbers.
type Sweep struct {
	Vary []SweepParameter // one or two
	// Lines holds a line for each value of the first parameter and, if there are two, in each
	// of these one for each value of the second.
	Lines []*model.Line
	Mixes []*runs.Mix // the jobs of each of these lines, by their yearly volumes; nil for one kind of work
	// Groups are instead of lines what takes the values: several lines with one crew.
	Groups []*model.LineGroup
	Plan   sim.Plan
}

// SweepParameter is what takes which values.
type SweepParameter struct {
	Path   string       `json:"path"`       // what it is called, such as crew.operators
	Unit   string       `json:"unit"`       // of the numbers, such as "s" or "/h"; "" if they have none
	Values []SweepValue `json:"values"`     // two at least, their numbers rising
	Speed  bool         `json:"line_speed"` // it is the speed at which the line is asked to run, cycles an hour
}

// SweepValue is one value of a parameter.
type SweepValue struct {
	Text   string `json:"text"`   // as people write it: "15000/h"
	Number Number `json:"number"` // in the parameter's unit; of words their number from 0
}

// MostSweepPoints is the most lines of one sweep: the replications of all are in memory.
const MostSweepPoints = 400

// Words reports whether the values are words, such as stop and divert.
func (p *SweepParameter) Words() bool {
	first, _ := utf8.DecodeRuneInString(p.Values[0].Text)
	return unicode.IsLetter(first)
}

// Counts reports whether the values are whole numbers of something, such as operators.
func (p *SweepParameter) Counts() bool {
	if p.Unit != "" || p.Words() {
		return false
	}
	for _, v := range p.Values {
		if v.Number != Number(int64(v.Number)) {
			return false
		}
	}
	return true
}

// Ask runs the lines and compares them. It calls told, if there is one, after each
// replication. When ctx is done first, the answer is that of the replications up to there; if
// there are none, it has no points.
func (q *Sweep) Ask(ctx context.Context, told func(Sofar[SweepAnswer])) (*SweepAnswer, error) {
	if err := q.check(); err != nil {
		return nil, err
	}
	work, err := q.work().atMeans()
	if err != nil {
		return nil, err
	}
	basis := q.work().basis()
	answer := func(studies []*runs.Study) *SweepAnswer {
		a := q.answer(studies)
		a.Basis = basis
		return a
	}
	studies, err := together(ctx, work, q.Plan, answer, told)
	if err != nil {
		return nil, err
	}
	return answer(studies), nil
}

// check returns what is wrong with the question.
func (q *Sweep) check() error {
	if n := len(q.Vary); n < 1 || n > 2 {
		return fmt.Errorf("a sweep varies one parameter or two, found %d", n)
	}
	points := 1
	for _, p := range q.Vary {
		if len(p.Values) < 2 {
			return fmt.Errorf("%s: a parameter takes two values at least, found %d", p.Path, len(p.Values))
		}
		for i, v := range p.Values[1:] {
			if !(v.Number > p.Values[i].Number) {
				return fmt.Errorf("%s: %s comes after %s, want rising values", p.Path, v.Text, p.Values[i].Text)
			}
		}
		points *= len(p.Values)
	}
	if points > MostSweepPoints {
		return fmt.Errorf("a sweep of %d points, want at most %d", points, MostSweepPoints)
	}
	if n := len(q.Lines) + len(q.Groups); n != points {
		return fmt.Errorf("a sweep of %d points has %d lines, want one for each", points, n)
	}
	if n := len(q.Mixes); n != 0 && n != points {
		return fmt.Errorf("a sweep of %d points has the jobs of %d lines, want those of all", points, n)
	}
	return nil
}

// work returns what runs at each point.
func (q *Sweep) work() (all works) {
	for i, l := range q.Lines {
		if q.Mixes != nil {
			all = append(all, runs.Work{Mix: q.Mixes[i]})
			continue
		}
		all = append(all, runs.Work{Line: l})
	}
	for _, g := range q.Groups {
		all = append(all, runs.Work{Group: g})
	}
	return all
}

// runSpeed returns at what speed the line of a point runs: of several jobs, at the fastest; several
// lines at all their speeds together.
func (q *Sweep) runSpeed(point int) float64 {
	speed := 0.0
	for _, l := range q.work()[point].Lines() {
		if q.Groups != nil {
			speed += l.RunSpeed()
			continue
		}
		speed = max(speed, l.RunSpeed())
	}
	return speed
}

// values returns the values of a point.
func (q *Sweep) values(point int) []SweepValue {
	if len(q.Vary) == 1 {
		return []SweepValue{q.Vary[0].Values[point]}
	}
	of := len(q.Vary[1].Values)
	return []SweepValue{q.Vary[0].Values[point/of], q.Vary[1].Values[point%of]}
}
