package lines

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
)

// alternatives is what is compared, the base first, and where it was read.
type alternatives struct {
	all     []study.Alternative
	origins []page.Origin // one of each alternative, or one of all
	command string        // that compares them again, without its flags
}

// base returns the scenario of the base, whose settings hold for all.
func (a *alternatives) base() *scenarios.Scenario { return a.origins[0].Scenario }

// names returns what the alternatives are called.
func (a *alternatives) names() (names []string) {
	for i := range a.all {
		names = append(names, a.all[i].Name)
	}
	return names
}

// lines returns the lines of all alternatives.
func (a *alternatives) lines() (lines []*model.Line) {
	for i := range a.all {
		lines = append(lines, a.all[i].Lines()...)
	}
	return lines
}

// readAlternatives reads what is to be compared: the variants of one file or example, or several
// files.
func readAlternatives(e desk.Env, in *desk.Inputs, args []string) (*alternatives, error) {
	names, err := in.Names(args)
	if err != nil {
		return nil, err
	}
	if len(names) > 1 {
		if in.Chosen() {
			return nil, desk.Wrong("--variant chooses variants of one file, found %d files", len(names))
		}
		of, err := basesOf(e, in, names)
		return of.atWork(in, err)
	}
	about, err := in.Read(e, names[0])
	if err != nil {
		return nil, err
	}
	of, err := variantsOf(page.OriginOf(about), about.Again, in.Called(names[0]))
	return of.atWork(in, err)
}

// rebase makes the alternative of a name the base, which the others are set against. What was the
// base is called the line of the file then, if the file does not name it.
func (a *alternatives) rebase(name string) error {
	n := slices.Index(a.names(), name)
	if n < 0 {
		return desk.Wrong("--base %s: want one of %s", desk.Quoted(name), say.List(a.names()))
	}
	if n > 0 && a.all[0].Name == scenarios.BaseName {
		a.all[0].Name, a.all[0].Called = "the file", "the line of the file"
	}
	chosen := a.all[n]
	a.all = slices.Insert(slices.Delete(a.all, n, n+1), 0, chosen)
	if len(a.origins) > 1 {
		from := a.origins[n]
		a.origins = slices.Insert(slices.Delete(a.origins, n, n+1), 0, from)
	}
	a.command += " --base " + desk.Quoted(name)
	return nil
}

// atWork returns the alternatives set up for their jobs; or the error of reading them, or why not
// all of them can be.
func (a *alternatives) atWork(in *desk.Inputs, err error) (*alternatives, error) {
	if err != nil {
		return nil, err
	}
	var errs []error
	for i := range a.all {
		set, err := in.AtWork(a.all[i], a.origins[min(i, len(a.origins)-1)].Scenario)
		if err != nil {
			errs = append(errs, err)
		}
		a.all[i] = set
	}
	for i := range a.origins {
		as := *a.origins[i].Scenario
		as.Job = desk.JobOf(a.all[i].Setups)
		a.origins[i].Scenario = &as
	}
	return a, errors.Join(errs...)
}

// setUp says what the alternatives are set up for, on lines of its own; "" if they are as they
// stand.
func (a *alternatives) setUp() string {
	var speeds []string
	names := map[string][]string{}
	for i := range a.all {
		for k, s := range a.all[i].Setups {
			name := a.all[i].InWords()
			if a.all[i].Group != nil {
				name = a.all[i].Group.Lines[k].Name + " of " + name
			}
			speed := fmt.Sprintf("at %s/h, set by %s", say.Exact(s.Fit.Speed), strings.Join(s.Fit.LimitedBy, " and "))
			if names[speed] == nil {
				speeds = append(speeds, speed)
			}
			names[speed] = append(names[speed], name)
		}
	}
	for i, speed := range speeds {
		speeds[i] = say.List(names[speed]) + " " + speed
	}
	if speeds == nil {
		return desk.SpeedNotes(a.all...)
	}
	text := "Set up for the job " + desk.JobOf(a.all[0].Setups) + ": " + strings.Join(speeds, "; ") + "."
	if c := a.base().Costs; c != nil && a.all[0].Costs == nil {
		text += " The costs are at yearly volumes of all jobs, and are not evaluated for one."
	}
	return say.Wrapped(text, say.Prose()) + desk.SpeedNotes(a.all...)
}

// variantsOf returns the line of a file and its variants.
func variantsOf(from page.Origin, command, called string) (*alternatives, error) {
	if len(from.Scenario.Variants) == 0 {
		return nil, desk.Wrong("%s has no variants, so there is nothing to compare: add some under variants,\n"+
			"or name several files; netrate example seventh-feeder shows how", called)
	}
	return &alternatives{page.AlternativesOf(from.Scenario), []page.Origin{from}, command}, nil
}

// basesOf returns the line of each file. They go by the names of the scenarios, or by those of
// the files if two scenarios have the same name.
func basesOf(e desk.Env, in *desk.Inputs, files []string) (*alternatives, error) {
	a := &alternatives{command: "netrate compare"}
	byName := map[string]bool{}
	for i, file := range files {
		for _, before := range files[:i] {
			switch {
			case before == file:
				return nil, desk.Wrong("%s is given twice", desk.ShownFile(file))
			case desk.SameFile(before, file):
				return nil, desk.Wrong("%s is the same file as %s: want different ones, or variants of one", desk.ShownFile(file), desk.ShownFile(before))
			}
		}
		about, err := in.Read(e, file)
		if err != nil {
			return nil, err
		}
		byName[about.Name] = true
		a.command += " " + desk.Quoted(file)
		a.origins = append(a.origins, page.OriginOf(about))
		a.all = append(a.all, page.AlternativeOf(about.Scenario, about.Name))
	}
	a.command += in.Flags()
	if len(byName) < len(files) {
		for i, file := range files {
			a.all[i].Name = strings.TrimSuffix(desk.ShownFile(file), ".yaml")
		}
	}
	return a, nil
}
