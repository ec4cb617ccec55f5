package study

import (
	"fmt"
	"slices"
	"strings"

	"netrate/model"
	"netrate/model/runs"
	"netrate/model/setup"
)

// A line with jobs is never simulated as it stands: it is set up for one of them or, by their
// yearly volumes, for all. What each takes out of a line and how fast it may run decide how much
// comes out.

// SetUp returns the alternative set up for the job of the name; where none is named, for its only
// job. It is returned as it is where it has no jobs or where, none named, it has yearly volumes of
// them: a question takes it at all of them then. An error lists the jobs, or says why the line
// cannot run the one; noWork says that the number of sets of the job is all the work there is.
//
// Several lines with one crew are set up for the same job, or each for its own: names are then of
// the form LINE=JOB.
//
// Costs at yearly volumes of jobs are not those of one job, and are left out then.
func (a Alternative) SetUp(noWork bool, names ...string) (Alternative, error) {
	switch {
	case len(names) == 0 && (len(a.Products) == 0 || len(a.volumes()) > 0):
		return a, nil
	case a.Group != nil:
		return a.setUpGroup(names)
	case len(names) > 1:
		return a, fmt.Errorf("one line is set up for one job, found %d", len(names))
	}
	p, err := setup.Chosen(a.Products, strings.Join(names, ""))
	if err != nil {
		return a, err
	}
	s, err := setup.For(a.Line, p, len(a.Products) > 1, noWork)
	if err != nil {
		return a, fmt.Errorf("%s: %w", a.InWords(), err)
	}
	if len(a.volumes()) > 0 {
		a.Costs = nil
	}
	a.Line, a.Setups = s.Line, []*setup.Setup{s}
	return a, nil
}

// Mix returns the work of a single line at its jobs, each in its share of their yearly volumes; nil
// where it has no such volumes. An error says why the line cannot run all of them.
func (a Alternative) Mix() (*runs.Mix, error) {
	all := []*tried{{Alternative: &a}}
	err := setUpJobs(all)
	return all[0].mix, err
}

// setUpGroup sets each line of a group up.
func (a Alternative) setUpGroup(names []string) (Alternative, error) {
	group := *a.Group
	group.Lines, a.Setups = nil, nil
	for _, l := range a.Group.Lines {
		p, err := setup.Chosen(a.Products, jobOf(l, names))
		if err != nil {
			return a, fmt.Errorf("%s: %w", l.Name, err)
		}
		s, err := setup.For(l, p, false, false)
		if err != nil {
			return a, fmt.Errorf("%s: %w", l.Name, err)
		}
		group.Lines, a.Setups = append(group.Lines, s.Line), append(a.Setups, s)
	}
	a.Group = &group
	for _, name := range names {
		if line, _, of := strings.Cut(name, "="); of && !slices.ContainsFunc(group.Lines, func(l *model.Line) bool { return l.Name == line }) {
			return a, fmt.Errorf("there is no line %s for the job %s", line, name)
		}
	}
	return a, nil
}

// jobOf returns the job of a line of a group: its own, or that of all; "" if none is named.
func jobOf(l *model.Line, names []string) string {
	all := ""
	for _, name := range names {
		line, job, of := strings.Cut(name, "=")
		switch {
		case of && line == l.Name:
			return job
		case !of:
			all = name
		}
	}
	return all
}
