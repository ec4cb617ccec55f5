package workbench

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"netrate/scenarios"
)

// moveJob puts a job of the plan at a place of a line, and keeps the order of all others. Where the text
// gives no order, that which was found for it is written into it first.
func (w *work) moveJob(op Op) (done, error) {
	sc, err := w.load()
	switch {
	case err != nil:
		return done{}, errors.New("the text is no scenario yet: mend it first")
	case sc.Plan == nil:
		return done{}, errors.New("the text has no plan")
	}
	order := op.found
	if sc.Plan.Order != nil {
		order = orderOf(sc.Plan)
	}
	if order == nil {
		return done{}, errors.New("the plan is still being made: its jobs can be moved in a moment")
	}
	order, err = moved(order, op.Name, op.Line, op.At)
	if err != nil {
		return done{}, err
	}
	text, err := scenarios.EditedOrder(w.Title, []byte(w.text), order)
	if err != nil {
		return done{}, plainly(err)
	}
	after, err := scenarios.Load(w.Title, text)
	if err == nil {
		plan, _, _ := after.Plan.ChosenNamed(stillOptional(after, w.chosen))
		err = plan.Check()
	}
	if err != nil {
		return done{}, plainly(err)
	}
	d, err := w.step(string(text), op.Group)
	d.said = fmt.Sprintf("%s stands at place %d of %s.", op.Name, op.At+1, cmp.Or(op.Line, "the line"))
	return d, err
}

// orderOf returns the order that a plan gives, by names.
func orderOf(p *scenarios.Plan) []scenarios.LineOrder { return named(p, p.Order) }

// named returns an order of the jobs of a plan by their names.
func named(p *scenarios.Plan, order [][]int) (all []scenarios.LineOrder) {
	for i, l := range p.Lines {
		one := scenarios.LineOrder{Jobs: []string{}}
		if len(p.Lines) > 1 {
			one.Line = l.Name
		}
		for _, j := range order[i] {
			one.Jobs = append(one.Jobs, p.Jobs[j].Name)
		}
		all = append(all, one)
	}
	return all
}

// moved returns an order with a job at another place; beyond the last it is the last.
func moved(order []scenarios.LineOrder, job, line string, at int) ([]scenarios.LineOrder, error) {
	to := slices.IndexFunc(order, func(o scenarios.LineOrder) bool { return o.Line == line })
	if to < 0 {
		return nil, fmt.Errorf("no line is named %q", line)
	}
	found := false
	next := slices.Clone(order)
	for i := range next {
		jobs := slices.DeleteFunc(slices.Clone(next[i].Jobs), func(name string) bool { return name == job })
		found = found || len(jobs) < len(next[i].Jobs)
		next[i].Jobs = jobs
	}
	if !found {
		return nil, fmt.Errorf("the plan has no job %q", job)
	}
	next[to].Jobs = slices.Insert(next[to].Jobs, min(max(at, 0), len(next[to].Jobs)), job)
	return next, nil
}
