package lines

import (
	"errors"
	"io"

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
		Name: "run", Takes: "FILE", About: "simulate a scenario and print what came out",
		More: `FILE may be -, which is standard input. --reps, --precision, --seed and --workers may
also be set by NETRATE_REPS and so on. A flag wins over such a variable, and that wins
over what the file says under run. The result is the same for any number of workers.
Ctrl-C ends a run with the answer up to there; a second one ends it at once.

Where several lines share a crew, all are run together and, in the same shifts, each by
itself with as many people, to see what sharing costs.

--against compares the scenario with the line itself: the work that the counts of a log
have, day by day, is simulated again and again, 400 times or --reps, which tests whether
the log is consistent with the model. Its flags are those of fit.`,
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
	example     string
	uncertainty *uncertaintyDraws
	against     *learn.AgainstFlags
}

func newRunFlags(flags *pflag.FlagSet) *runFlags {
	o := &runFlags{Outputs: &desk.Outputs{}}
	flags.StringVar(&o.example, "example", "", "run the example called `NAME` instead of a file")
	o.PlanFlags = desk.NewPlanFlags(flags)
	o.uncertainty = newUncertaintyFlag(flags)
	o.AddJSON(flags, "print all figures as JSON instead")
	o.AddData(flags, "csv", "write a row for each shift to `FILE`; - prints them instead")
	o.against = learn.NewAgainstFlags(flags)
	o.AddFiles(flags)
	return o
}

func (o *runFlags) run(e desk.Env, args []string) error {
	if err := o.against.Check(o.trial(), args); err != nil {
		return err
	}
	sc, source, again, err := o.scenario(e, args)
	if err != nil {
		return err
	}
	if err := desk.WorkFor("run", sc); err != nil {
		return err
	}
	if o.against.Asked() {
		return o.against.Run(e, o.trial(), desk.Subject{Scenario: sc, Source: source, Again: again})
	}
	plan, err := o.Plan(e, sc.Run)
	if err != nil {
		return err
	}
	if sc.LineGroup != nil {
		return o.runLineGroup(e, again, sc, source, plan)
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	q := study.Run{Alternative: study.Alternative{Name: sc.Name, File: sc.File, Line: sc.Line}, Plan: plan, Draws: int(*o.uncertainty)}
	a, err := desk.Asked(e, page.Period(sc.Line), q.Ask, func(a *study.RunAnswer) study.Settings { return a.Settings })
	if a == nil {
		return err
	}
	return errors.Join(err, o.tell(e, present.Run{RunAnswer: a, Origin: page.Origin{Scenario: sc, Text: source}, Command: again + o.uncertainty.again()}))
}

// trial returns what of the run matters where it is compared with a log.
func (o *runFlags) trial() learn.Trial {
	return learn.Trial{PlanFlags: o.PlanFlags, Outputs: o.Outputs, Draws: int(*o.uncertainty)}
}

// scenario reads what is to be run, and returns the command that runs it again.
func (o *runFlags) scenario(e desk.Env, args []string) (sc *scenarios.Scenario, source []byte, again string, err error) {
	if err := o.Check(); err != nil {
		return nil, nil, "", err
	}
	switch {
	case o.example != "" && len(args) > 0:
		return nil, nil, "", desk.Wrong("run takes --example or a file, not both: found %q", args[0])
	case o.example != "":
		sc, source, err = desk.LoadExample(o.example)
		return sc, source, "netrate run --example " + o.example, err
	case len(args) != 1:
		return nil, nil, "", desk.Wrong("run takes one file, found %d; try netrate run --example direct-mail", len(args))
	}
	sc, source, err = desk.Load(e, args[0])
	return sc, source, "netrate run " + desk.Quoted(args[0]), err
}

// tell writes the answer in the forms that are asked for.
func (o *runFlags) tell(e desk.Env, run present.Run) error {
	return o.Deliver(e, desk.Answer{
		Text:     desk.Text(run.Text),
		Document: page.Document(func() any { return run.Document(desk.Version()) }),
		Data:     func(to io.Writer) error { return writeCSV(to, run.Study) },
		Page:     page.Made(func() (*page.Report, error) { return run.Report(desk.Version()) }),
	})
}
