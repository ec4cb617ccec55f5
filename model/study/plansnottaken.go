package study

import (
	"slices"

	"netrate/model/seasons"
)

// PlansNotTaken is a line that could run some jobs, and is not taken for them, since nobody who is ever there may do
// what it could call for at them.
type PlansNotTaken struct {
	Line  string   `json:"line"`
	Jobs  []string `json:"jobs"`
	Lacks []string `json:"nobody_may"` // what somebody would have to do
}

// PlansNotTakenOf returns the lines that are not taken for jobs in a plan that passes its check; of a line each
// reason once.
func PlansNotTakenOf(p *seasons.Plan) (all []PlansNotTaken) {
	aside := p.NotTaken()
	first := -1 // of the line
	for k, x := range aside {
		if k == 0 || aside[k-1].Line != x.Line {
			first = len(all)
		}
		i := slices.IndexFunc(all[first:], func(y PlansNotTaken) bool { return slices.Equal(y.Lacks, x.Lacks) })
		if i < 0 {
			all = append(all, PlansNotTaken{Line: p.Lines[x.Line].Name, Lacks: x.Lacks})
			i = len(all) - 1 - first
		}
		of := &all[first+i]
		of.Jobs = append(of.Jobs, p.Jobs[x.Job].Name)
	}
	return all
}
