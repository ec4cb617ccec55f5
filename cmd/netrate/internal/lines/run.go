package lines

import (
	"context"
	"errors"
	"io"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/learn"
	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
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
have, day by day, is simulated again and again, 400 times or --reps, and the stops of the
log are one such record or they are not. Its flags are those of fit.`,
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
	example string
	doubt   *doubtDraws
	against *learn.AgainstFlags
}

func newRunFlags(flags *pflag.FlagSet) *runFlags {
	o := &runFlags{Outputs: &desk.Outputs{}}
	flags.StringVar(&o.example, "example", "", "run the example called `NAME` instead of a file")
	o.PlanFlags = desk.NewPlanFlags(flags)
	o.doubt = newDoubtFlag(flags)
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
	if sc.Hall != nil {
		return o.runHall(e, again, sc, source, plan)
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	f := &field{
		entrants: []entrant{{name: sc.Name, scenario: sc, line: sc.Line}},
		origins:  []page.Origin{{Scenario: sc, Text: source}}, again: again + o.doubt.again(),
	}
	err = o.simulate(e, f, plan)
	if f.entrants[0].study == nil {
		return err
	}
	return errors.Join(err, o.tell(e, f))
}

// trial returns what of the run matters where it is compared with a log.
func (o *runFlags) trial() learn.Trial {
	return learn.Trial{PlanFlags: o.PlanFlags, Outputs: o.Outputs, Doubt: int(*o.doubt)}
}

// simulate runs the plan, and draws what is in doubt.
func (o *runFlags) simulate(e desk.Env, f *field, plan sim.Plan) (err error) {
	ctx, stop := desk.UntilInterrupted()
	defer stop()
	if f.entrants[0].study, err = simulate(ctx, e, f.entrants[0].line, plan); err != nil {
		return err
	}
	return f.drawDoubt(ctx, e, plan, *o.doubt)
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

// simulate runs the plan. When ctx ends early it returns the study up to there and the
// cause, or no study if no shift was done.
func simulate(ctx context.Context, e desk.Env, l *model.Line, plan sim.Plan) (*model.Study, error) {
	var watch func(int, *model.Outcome)
	if e.Terminal {
		p := desk.NewProgress(e.Err, plan.Max, page.Period(l))
		defer p.Stop()
		watch = func(replication int, _ *model.Outcome) { p.Done(replication + 1) }
	}
	study, err := model.Run(ctx, l, plan, watch)
	if err != nil || study.Ending != sim.Cancelled {
		return study, err
	}
	early := desk.CutShort(ctx, len(study.Shifts), page.Period(l))
	if len(study.Shifts) == 0 {
		return nil, early
	}
	return study, early
}

// tell writes the answer in the forms that are asked for.
func (o *runFlags) tell(e desk.Env, f *field) error {
	x := f.entrants[0]
	return o.Deliver(e, desk.Answer{
		Text:     desk.Text(func() string { return answer(f.again, x) }),
		Document: func(to io.Writer) error { return writeJSON(to, desk.Version(), x, f.origins[0].Text) },
		Data:     func(to io.Writer) error { return writeCSV(to, x.study) },
		Page:     page.Made(func() (*page.Report, error) { return runReport(desk.Version(), f) }),
	})
}
