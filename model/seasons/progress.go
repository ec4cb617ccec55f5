package seasons

import (
	"fmt"
	"slices"

	"netrate/sim"
)

// Progress is what is done of one job of a plan.
type Progress struct {
	Job  string // its name
	Sets int64  // that are finished
	Line string // that is at it now; "" for none
}

// After returns the plan of what is left at a time: jobs that are done are left out, one that a line
// is at stays there and goes first. It says everything that is wrong with what is done.
func (p *Plan) After(now sim.Seconds, done []Progress) (*Plan, []error) {
	left := *p
	left.From, left.Jobs = now, nil
	var errs []error
	note := func(text string, args ...any) { errs = append(errs, fmt.Errorf(text, args...)) }
	at := map[int]string{}
	for _, d := range done {
		switch i := slices.IndexFunc(p.Jobs, func(j PlanJob) bool { return j.Name == d.Job }); {
		case i < 0:
			note("the plan has no job %q", d.Job)
		case d.Sets < 0 || d.Sets > p.Jobs[i].Sets:
			note("%d sets of %s are done, want from 0 to %d", d.Sets, d.Job, p.Jobs[i].Sets)
		}
	}
	for _, j := range p.Jobs {
		for _, d := range done {
			if d.Job != j.Name {
				continue
			}
			if j.Sets -= d.Sets; d.Line == "" || j.Sets == 0 {
				continue
			}
			j.InHand = p.line(d.Line)
			switch {
			case j.InHand < 0:
				note("no line is named %q", d.Line)
			case at[j.InHand] != "":
				note("%s is at %s and at %s", d.Line, at[j.InHand], j.Name)
			case !j.may(j.InHand):
				note("%s may not do %s", d.Line, j.Name)
			default:
				at[j.InHand] = j.Name
			}
		}
		if j.Sets > 0 {
			left.Jobs = append(left.Jobs, j)
		}
	}
	if len(left.Jobs) == 0 && len(errs) == 0 {
		note("all jobs are done")
	}
	return &left, errs
}

// line returns the number of the line of a name; -1 for none. Of one line the name does not count.
func (p *Plan) line(name string) int {
	for i, l := range p.Lines {
		if l.Name == name || len(p.Lines) == 1 {
			return i
		}
	}
	return -1
}

// Kept returns the orders of an earlier plan without the jobs that are done, where what a line is at
// goes first.
func (p *Plan) Kept(earlier *Made) [][]int {
	orders := make([][]int, len(p.Lines))
	for line, order := range earlier.Order {
		for _, j := range order {
			name := earlier.Plan.Jobs[j].Name
			if k := slices.IndexFunc(p.Jobs, func(x PlanJob) bool { return x.Name == name }); k >= 0 && p.Jobs[k].InHand < 0 {
				orders[line] = append(orders[line], k)
			}
		}
	}
	for k, j := range p.Jobs {
		if j.InHand >= 0 {
			orders[j.InHand] = slices.Insert(orders[j.InHand], 0, k)
		}
	}
	return orders
}
