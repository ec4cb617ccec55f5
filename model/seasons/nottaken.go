package seasons

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"netrate/model/setup"
)

// NotTaken is a line that could run a job, and is not taken for it: nobody who is ever there may do some work that
// it could call for at the job, set up for it from nothing unless it is at it when the plan begins.
type NotTaken struct {
	Line, Job int
	Lacks     []string // what nobody may do, a sort of work each
}

// NotTaken returns them, line by line. A plan is refused only for jobs that no line is taken for.
func (p *Plan) NotTaken() []NotTaken {
	if p.Crew.People == nil {
		return nil
	}
	return p.notTaken(setup.Cover(p.Lines, p.Products))
}

// notTaken returns them where it is known how each product fits each line.
func (p *Plan) notTaken(fits [][]*setup.Fit) (all []NotTaken) {
	if p.Crew.People == nil {
		return nil
	}
	type made struct {
		product int
		inHand  bool
	}
	t := p.time()
	ever := t.ever(MostWeeks)
	for i, line := range p.Lines {
		known := map[made][]string{}
		for j := range p.Jobs {
			if !p.runs(fits, i, j) {
				continue
			}
			of := made{p.Jobs[j].Product, p.Jobs[j].InHand == i}
			lacks, is := known[of]
			if !is {
				lacks = t.lacking(p.known(line), p.needs(line, of.product, !of.inHand), ever)
				known[of] = lacks
			}
			if len(lacks) > 0 {
				all = append(all, NotTaken{i, j, lacks})
			}
		}
	}
	return all
}

// runs reports whether a line can run a job and may do it, which may be in hand at another.
func (p *Plan) runs(fits [][]*setup.Fit, line, job int) bool {
	j := &p.Jobs[job]
	return fits[j.Product][line].Runs && j.may(line) && (j.InHand < 0 || j.InHand == line)
}

// isNotTaken reports whether a line is among those that are not taken for a job.
func isNotTaken(all []NotTaken, line, job int) bool {
	return slices.ContainsFunc(all, func(x NotTaken) bool { return x.Line == line && x.Job == job })
}

// never returns an error for each work that nobody may do who is ever there, of jobs that no line is taken for.
func (p *Plan) never(fits [][]*setup.Fit, aside []NotTaken) (errs []error) {
	type work struct {
		line int
		does string
	}
	var all []work
	jobs := map[work][]string{}
	for _, x := range aside {
		if p.taken(fits, aside, x.Job) {
			continue
		}
		for _, does := range x.Lacks {
			w := work{x.Line, does}
			if jobs[w] == nil {
				all = append(all, w)
			}
			jobs[w] = append(jobs[w], p.Jobs[x.Job].Name)
		}
	}
	for _, w := range all {
		text := nobodyMay(w.does)
		if len(p.Lines) > 1 {
			text = p.Lines[w.line].Name + ": " + text + ", as " + some(jobs[w]) + " may need, and no other line can do it"
		}
		errs = append(errs, errors.New(text))
	}
	return errs
}

// some names a few jobs, and says how many others there are.
func some(jobs []string) string {
	const few = 3
	if more := len(jobs) - few; more > 1 {
		return fmt.Sprintf("%s or %d other jobs", strings.Join(jobs[:few], ", "), more)
	}
	if last := len(jobs) - 1; last > 0 {
		return strings.Join(jobs[:last], ", ") + " or " + jobs[last]
	}
	return jobs[0]
}

// taken reports whether some line is taken for a job.
func (p *Plan) taken(fits [][]*setup.Fit, aside []NotTaken, job int) bool {
	for i := range p.Lines {
		if p.runs(fits, i, job) && !isNotTaken(aside, i, job) {
			return true
		}
	}
	return false
}
