package seasons

import (
	"fmt"
	"slices"

	"netrate/model/setup"
	"netrate/sim"
)

// Progress is what is done of one job of a plan.
type Progress struct {
	Job  string // its name
	Sets int64  // that are finished
	Line string // that is at it now; "" for none

	Remakes int64 // of it that lie at the bench beside the lines
}

// WrongProgress is what is wrong with what is said to be done.
type WrongProgress struct {
	Row   int // of what is done; -1 for all of it
	Why   string
	Word  string   // that names nothing; "" if it is not that
	Names []string // one of which it should be
}

func (e *WrongProgress) Error() string { return e.Why }

// After returns the plan of what is left at a time: jobs that are done are left out, one that a line
// is at stays there and goes first. It says everything that is wrong with what is done, each a
// [WrongProgress].
func (p *Plan) After(now sim.Seconds, done []Progress) (*Plan, []error) {
	left := *p
	left.From, left.Jobs = now, slices.Clone(p.Jobs)
	var errs []error
	at := map[int]string{}
	for row, d := range done {
		i := slices.IndexFunc(p.Jobs, func(j PlanJob) bool { return j.Name == d.Job })
		wrong := p.wrong(i, d, at)
		if wrong == nil && p.Jobs[i].NotBefore > now && (d.Sets > 0 || d.Line != "" || d.Remakes > 0) {
			wrong = &WrongProgress{Why: fmt.Sprintf("%s is begun, and by its not_before it may begin only later: if it was begun all the same, give an earlier one", d.Job)}
		}
		if wrong != nil {
			wrong.Row = row
			errs = append(errs, wrong)
			continue
		}
		j := &left.Jobs[i]
		if j.Sets -= d.Sets; d.Line != "" && j.Sets > 0 {
			j.InHand, j.NotBefore = p.line(d.Line), 0 // it has begun
			at[j.InHand] = j.Name
		}
		if d.Remakes > 0 {
			left.OnBench = append(left.OnBench, OpenRemakes{*j, d.Remakes})
		}
	}
	left.Jobs = slices.DeleteFunc(left.Jobs, func(j PlanJob) bool { return j.Sets == 0 })
	if p.Order != nil {
		left.Order = left.reordered(p, p.Order)
		left.Overruled = left.overruled(p, p.Order)
	}
	left.Known = nil
	for _, known := range p.Known {
		left.Known = append(left.Known, left.reordered(p, known))
	}
	if len(left.Jobs) == 0 && len(errs) == 0 {
		why := "all jobs are done"
		if hours := left.BenchWork() / 3600; hours > 0 {
			why += fmt.Sprintf(" but for remakes, for which the bench needs %.3g h of working time", float64(hours))
		}
		errs = append(errs, &WrongProgress{Row: -1, Why: why})
	}
	return &left, errs
}

// wrong returns what is wrong with what is done of a job, by the job's number, where lines are at some
// others; nil if nothing is.
func (p *Plan) wrong(job int, d Progress, at map[int]string) *WrongProgress {
	note := func(text string, args ...any) *WrongProgress { return &WrongProgress{Why: fmt.Sprintf(text, args...)} }
	if job < 0 {
		e := note("the plan has no job %q", d.Job)
		e.Word = d.Job
		for _, j := range p.Jobs {
			e.Names = append(e.Names, j.Name)
		}
		return e
	}
	j, line := &p.Jobs[job], p.line(d.Line)
	if wrong := p.wrongRemakes(j, d); wrong != nil {
		return wrong
	}
	switch {
	case d.Sets < 0 || d.Sets > j.Sets:
		return note("%d sets of %s are done, want from 0 to %d", d.Sets, d.Job, j.Sets)
	case d.Line == "" || d.Sets == j.Sets:
		return nil
	case line < 0:
		e := note("no line is named %q", d.Line)
		e.Word = d.Line
		for _, l := range p.Lines {
			e.Names = append(e.Names, l.Name)
		}
		return e
	case at[line] != "":
		return note("%s is at %s and at %s", d.Line, at[line], j.Name)
	case !j.may(line):
		return note("%s may not do %s", d.Line, j.Name)
	}
	if _, fit := setup.Fitted(p.Lines[line], p.Products[j.Product]); !fit.Runs {
		return note("%s cannot do %s: %s", d.Line, j.Name, first(fit.Reasons))
	}
	return nil
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

// overruled returns the jobs that lines are at, where an order of an earlier plan has them elsewhere or
// later: what is begun stays where it is.
func (p *Plan) overruled(earlier *Plan, order [][]int) (all []int) {
	for k, j := range p.Jobs {
		if j.InHand < 0 {
			continue
		}
		next := slices.IndexFunc(order[j.InHand], func(i int) bool {
			return slices.ContainsFunc(p.Jobs, func(x PlanJob) bool { return x.Name == earlier.Jobs[i].Name })
		})
		if next < 0 || earlier.Jobs[order[j.InHand][next]].Name != j.Name {
			all = append(all, k)
		}
	}
	return all
}

// Kept returns the orders of an earlier plan without the jobs that are done, where what a line is at
// goes first.
func (p *Plan) Kept(earlier *Made) [][]int { return p.reordered(earlier.Plan, earlier.Order) }

func (p *Plan) reordered(earlier *Plan, order [][]int) [][]int {
	names := make([][]string, len(p.Lines))
	for line, jobs := range order {
		for _, j := range jobs {
			names[line] = append(names[line], earlier.Jobs[j].Name)
		}
	}
	return p.InOrder(names)
}

// InOrder returns the order that says, of each line, the names of its jobs: without those that the plan has
// not, and where what a line is at goes first.
func (p *Plan) InOrder(names [][]string) [][]int {
	orders := make([][]int, len(p.Lines))
	for line, jobs := range names {
		for _, name := range jobs {
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
