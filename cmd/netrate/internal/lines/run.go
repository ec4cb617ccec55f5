package lines

import (
	"errors"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/learn"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/scenarios"
)

// RunVerb returns the verb run.
func RunVerb() desk.Verb {
	return desk.Verb{
		Name: "run", Takes: "FILE", About: "simulate a scenario and print the results",
		Simulates: true,
		More: `FILE may be -, which is standard input. --reps, --precision, --seed and --workers may
also be set by NETRATE_REPS and so on. A flag takes precedence over such a variable,
and that over what the file says under run. The result is the same for any number of workers.
Ctrl-C ends a run with the answer so far; a second one ends it at once.

Where the file has jobs, the line is set up for the one that --job names, or for the only
one; where costs give yearly volumes of jobs, it is run for all of them.

Where several lines share a crew, all are run together and, in the same shifts, each by
itself with that number of people, to see what sharing costs.

--against compares the scenario with the line itself: the work in the counts of a log is
simulated day by day, 400 times or the number of --reps, to test whether the log is
consistent with the model. Its flags are those of fit.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := newRunFlags(flags)
			return func(e desk.Env, args []string) error { return o.run(e, args) }
		},
	}
}

// runFlags is the command line of a run.
type runFlags struct {
	*desk.PlanFlags
	*desk.Outputs
	*desk.Inputs
	uncertainty *uncertaintyDraws
	against     *learn.AgainstFlags
}

func newRunFlags(flags *pflag.FlagSet) *runFlags {
	o := &runFlags{Outputs: &desk.Outputs{}}
	o.Inputs = desk.NewInputs("run", flags, "run the example called `NAME` instead of a file", "; try netrate run --example direct-mail")
	o.AddJob(flags)
	o.PlanFlags = desk.NewPlanFlags(flags)
	o.uncertainty = newUncertaintyFlag(flags)
	o.AddJSON(flags, "print all figures as JSON instead")
	o.AddRows(flags, "write a row for each shift, at nominal values, to `FILE`; - prints them instead")
	o.against = learn.NewAgainstFlags(flags)
	o.AddFiles(flags)
	return o
}

func (o *runFlags) run(e desk.Env, args []string) error {
	if err := o.against.Check(o.trial(), args); err != nil {
		return err
	}
	if err := o.Check(); err != nil {
		return err
	}
	about, err := o.One(e, args)
	if err != nil {
		return err
	}
	o.Premise = desk.Premise(about.Scenario) + desk.WithoutYear(about.Scenario)
	if o.against.Asked() {
		return o.runAgainst(e, about)
	}
	if about.Scenario, about.Setups, err = o.SetUp(about.Scenario); err != nil {
		return err
	}
	of := page.AlternativeOf(about.Scenario, about.Name)
	of.Setups = about.Setups
	o.Premise += desk.SetUpFor(about.Setups, of.Lines()) + desk.SpeedNotes(of)
	plan, err := o.Plan(e, about.Run)
	if err != nil {
		return err
	}
	if err := o.uncertainty.asked(o.PlanFlags, plan.Max, of.Lines()...); err != nil {
		return err
	}
	switch {
	case about.LineGroup != nil:
		return o.runLineGroup(e, about, plan)
	case o.Mixed(about.Scenario) != nil:
		return o.runMix(e, about, plan)
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	q := study.Run{Alternative: study.Alternative{Name: about.Name, File: about.File, Line: about.Line, Costs: about.Costs, Target: about.Target}, Plan: plan, Draws: int(*o.uncertainty), Scenes: o.Wanted()}
	a, err := desk.Asked(e, page.Period(about.Line), shiftByShift(o.Outputs, nil, q.Ask), func(a *study.RunAnswer) study.Settings { return a.Settings })
	if a == nil {
		return err
	}
	x := present.Run{RunAnswer: a, Origin: page.OriginOf(about), Command: about.Again + o.uncertainty.again(about.Line), Slips: slips(about.Scenario)}
	return errors.Join(err, page.Tell(e, o.Outputs, x))
}

// runAgainst compares the line with a log: set up for the job whose rows are taken, or for the only
// one of the file; else for each that the log names.
func (o *runFlags) runAgainst(e desk.Env, about desk.Subject) error {
	if n := len(about.Products); about.LineGroup == nil && (n == 1 || n > 0 && o.Job() != "") {
		var err error
		if about.Scenario, about.Setups, err = o.SetUp(about.Scenario); err != nil {
			return err
		}
		o.Premise += desk.SetUpFor(about.Setups, nil)
	}
	return o.against.Run(e, o.trial(), about, o.Job())
}

// slips returns what of a file is surely not meant.
func slips(sc *scenarios.Scenario) []study.Slip {
	return study.Slips(&page.AlternativesOf(sc)[0], true, sc.StatesPolicy())
}

// trial returns what of the run matters where it is compared with a log.
func (o *runFlags) trial() learn.Trial {
	return learn.Trial{PlanFlags: o.PlanFlags, Outputs: o.Outputs, Draws: int(*o.uncertainty)}
}
