package study

import (
	"fmt"
	"slices"

	"netrate/model"
	"netrate/sim/output"
)

// apart returns the alternatives with the numbers of every file but the first as unknowns of their
// own: two makers who guess alike are not one maker. It leaves together what a file says is the
// same ([model.UncertainInput.Common]), and returns an error where that is written otherwise, or
// nowhere else.
func apart(alternatives []Alternative) ([]Alternative, error) {
	all := slices.Clone(alternatives)
	for i := range all {
		if a := &all[i]; a.File != all[0].File {
			a.own()
		}
	}
	return all, agree(all)
}

// own makes the unknowns of an alternative its own.
func (a *Alternative) own() {
	owned := func(l *model.Line) *model.Line {
		c := *l
		c.UncertainInputs = slices.Clone(l.UncertainInputs)
		for k := range c.UncertainInputs {
			if d := &c.UncertainInputs[k]; d.Owner == "" {
				d.Owner = a.Name
			}
		}
		return &c
	}
	if a.Group == nil {
		a.Line = owned(a.Line)
		return
	}
	group := *a.Group
	group.Lines = nil
	for _, l := range a.Group.Lines {
		group.Lines = append(group.Lines, owned(l))
	}
	a.Group = &group
}

// uncertainInputs returns what is uncertain of an alternative.
func (a *Alternative) uncertainInputs() []model.UncertainInput {
	if a.Group != nil {
		return a.Group.UncertainInputs()
	}
	return a.Line.UncertainInputs
}

// agree returns why a number of one file cannot be the same as that of another.
func agree(all []Alternative) error {
	said := map[model.Unknown]output.Prior{}
	for i := range all {
		for _, d := range all[i].uncertainInputs() {
			u := d.Unknown()
			of, known := said[u]
			switch {
			case !known && d.Common && all[i].File != all[0].File:
				return fmt.Errorf("%s: %s is said to be the same as %s, which is not uncertain in what it is compared with", all[i].InWords(), d.Path(), u.Path)
			case known && d.Common && of != d.Of:
				return fmt.Errorf("%s: %s is said to be the same as %s, which is written differently in what it is compared with: want the same numbers", all[i].InWords(), d.Path(), u.Path)
			case !known:
				said[u] = d.Of
			}
		}
	}
	return nil
}
