package desk

import (
	"errors"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/setup"
	"netrate/model/study"
	"netrate/scenarios"
)

// AddJob adds the flag of a verb that simulates lines set up for a job.
func (o *Inputs) AddJob(flags *pflag.FlagSet) {
	flags.StringArrayVar(&o.jobs, "job", nil, "set the line up for the job `NAME` of the file; LINE=NAME for one of several lines")
}

// Job returns the job that is named; "" if none is, or one for each line.
func (o *Inputs) Job() string {
	if len(o.jobs) == 1 {
		return o.jobs[0]
	}
	return ""
}

// SetUp returns a scenario whose line, or lines, are set up for the job that is named or, where none
// is, for the only one; and for what they were. With yearly volumes of jobs and none named it stays
// as it is. An error says that there is no work, or lists the jobs.
func (o *Inputs) SetUp(sc *scenarios.Scenario) (*scenarios.Scenario, []*setup.Setup, error) {
	a := study.Alternative{Name: sc.Name, Line: sc.Line, Group: sc.LineGroup, Costs: sc.Costs, Products: sc.Products}
	if a.Group != nil {
		a.Line = nil
	}
	a, err := o.AtWork(a, sc)
	if err != nil {
		return nil, nil, err
	}
	as := *sc
	as.Costs, as.LineGroup, as.Job = a.Costs, a.Group, JobOf(a.Setups)
	if as.Line = a.Line; a.Group != nil {
		as.Line = a.Group.Lines[0]
	}
	return &as, a.Setups, nil
}

// JobOf returns the job that lines are set up for, or those of several; "" if they are as they stand.
func JobOf(setups []*setup.Setup) string {
	var names []string
	for _, s := range setups {
		if !slices.Contains(names, s.Product.Name) {
			names = append(names, s.Product.Name)
		}
	}
	return strings.Join(names, ", ")
}

// AtWork returns an alternative of a scenario set up in the same way.
func (o *Inputs) AtWork(a study.Alternative, sc *scenarios.Scenario) (study.Alternative, error) {
	if sc.NoWork && len(o.jobs) == 0 && (len(sc.Products) != 1 || sc.Season != nil) {
		return a, WorkFor(o.verb, sc)
	}
	set, err := a.SetUp(sc.NoWork, o.jobs...)
	switch {
	case err == nil:
		return set, nil
	case errors.Is(err, setup.ErrWhich):
		return a, Wrong("%s: %v with --job NAME", ShownFile(sc.File), err)
	}
	return a, Wrong("%s: %v", ShownFile(sc.File), err)
}

// With returns what the line of the subject is with several values changed, set up as it is.
func (s *Subject) With(settings []scenarios.Setting) (study.Alternative, error) {
	shop, err := s.ShopWith(settings)
	if err != nil {
		return study.Alternative{}, err
	}
	var names []string
	for _, x := range s.Setups {
		names = append(names, x.Product.Name)
	}
	a := study.Alternative{Name: s.Name, Line: shop.Line, Group: shop.LineGroup, Costs: shop.Costs, Products: shop.Products}
	if a.Group != nil {
		a.Line = nil
		for i, l := range a.Group.Lines[:len(names)] {
			names[i] = l.Name + "=" + names[i]
		}
	}
	return a.SetUp(shop.NoWork, names...)
}

// Mixed returns an error where a scenario has yearly volumes of jobs and none is chosen, of a verb
// that is about one.
func (o *Inputs) Mixed(sc *scenarios.Scenario) error {
	if sc.Costs == nil || len(sc.Costs.Volumes) == 0 || sc.LineGroup != nil {
		return nil
	}
	jobs, _ := sc.Costs.Shares()
	return Wrong("%s has yearly volumes of %s, and %s is about one job: choose it with --job NAME; run, compare, sweep, sensitivity and strategy take all of them together",
		ShownFile(sc.File), say.List(jobs), o.verb)
}

// MoneyOfJobs returns an error where a job is named, and a design is looked for in money that is of all jobs: the
// costs of the file have yearly volumes of them.
func (o *Inputs) MoneyOfJobs(sc *scenarios.Scenario) error {
	d := sc.Design
	if len(o.jobs) == 0 || d == nil || d.Goal != scenarios.DesignCost && d.Goal != scenarios.DesignValue {
		return nil
	}
	line, err := d.Designed(make([]int, len(d.Options))) // a scenario that is set up for a job has no costs of several
	if err != nil || line.Costs == nil || len(line.Costs.Volumes) == 0 {
		return nil
	}
	jobs, _ := line.Costs.Shares()
	return WrongAt(sc, []string{"costs", "volumes"}, "there are yearly volumes of %s, and the goal of the design is %s, which is of all of them together: leave --job out",
		say.List(jobs), d.Goal)
}
