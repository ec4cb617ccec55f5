package main

import (
	"context"
	"errors"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
)

func runVerb() verb {
	return verb{
		name: "run", takes: "FILE", about: "simulate a scenario and print what came out",
		more: `FILE may be -, which is standard input. --reps, --precision, --seed and --workers may
also be set by NETRATE_REPS and so on. A flag wins over such a variable, and that wins
over what the file says under run. The result is the same for any number of workers.
Ctrl-C ends a run with the answer up to there; a second one ends it at once.

Where several lines share a crew, all are run together and, in the same shifts, each by
itself with as many people, to see what sharing costs.

--against compares the scenario with the line itself: the work that the counts of a log
have, day by day, is simulated again and again, 400 times or --reps, and the stops of the
log are one such record or they are not. Its flags are those of fit.`,
		prepare: func(flags *pflag.FlagSet) action {
			o := newRunFlags(flags)
			return func(e env, args []string) error { return o.run(e, args) }
		},
	}
}

// runFlags is the command line of a run.
type runFlags struct {
	*planFlags
	*outputs
	example string
	doubt   *doubtDraws
	json    bool
	csv     string
	against *againstFlags
}

func newRunFlags(flags *pflag.FlagSet) *runFlags {
	o := &runFlags{}
	flags.StringVar(&o.example, "example", "", "run the example called `NAME` instead of a file")
	o.planFlags = newPlanFlags(flags)
	o.doubt = newDoubtFlag(flags)
	flags.BoolVar(&o.json, "json", false, "print all figures as JSON instead")
	flags.StringVar(&o.csv, "csv", "", "write a row for each shift to `FILE`; - prints them instead")
	o.against = newAgainstFlags(flags)
	o.outputs = newOutputs(flags)
	return o
}

func (o *runFlags) run(e env, args []string) error {
	if err := o.against.check(o, args); err != nil {
		return err
	}
	sc, source, again, err := o.scenario(e, args)
	if err != nil {
		return err
	}
	if err := workFor("run", sc); err != nil {
		return err
	}
	if o.against.log != "" {
		return o.runAgainst(e, again, sc, source)
	}
	plan, err := o.plan(e, sc.Run)
	if err != nil {
		return err
	}
	if sc.Hall != nil {
		return o.runHall(e, again, sc, source, plan)
	}
	rows, err := createRows(o.csv)
	if err != nil {
		return err
	}
	defer rows.drop()
	defer o.drop()
	if err := o.begin(); err != nil {
		return err
	}
	x := entrant{name: sc.Name, scenario: sc, line: sc.Line}
	err = o.simulate(e, &x, plan)
	if x.study == nil {
		return err
	}
	if rows != nil {
		if wrote := errors.Join(writeCSV(rows, x.study), rows.finish()); wrote != nil {
			return errors.Join(err, wrote)
		}
	}
	return errors.Join(err, o.print(e, again+o.doubt.again(), x, source))
}

// simulate runs the plan, and draws what is in doubt.
func (o *runFlags) simulate(e env, x *entrant, plan sim.Plan) (err error) {
	ctx, stop := untilInterrupted()
	defer stop()
	if x.study, err = simulate(ctx, e, x.line, plan); err != nil {
		return err
	}
	studies, err := drawDoubt(ctx, e, []*model.Line{x.line}, nil, plan, *o.doubt)
	if len(studies) > 0 {
		x.doubt = studies[0]
	}
	return err
}

// scenario reads what is to be run, and returns the command that runs it again.
func (o *runFlags) scenario(e env, args []string) (sc *scenarios.Scenario, source []byte, again string, err error) {
	switch {
	case o.json && o.csv == "-":
		return nil, nil, "", wrong("--json and --csv - cannot both be printed")
	case o.example != "" && len(args) > 0:
		return nil, nil, "", wrong("run takes --example or a file, not both: found %q", args[0])
	case o.example != "":
		sc, source, err = loadExample(o.example)
		return sc, source, "netrate run --example " + o.example, err
	case len(args) != 1:
		return nil, nil, "", wrong("run takes one file, found %d; try netrate run --example direct-mail", len(args))
	}
	sc, source, err = load(e, args[0])
	return sc, source, "netrate run " + quoted(args[0]), err
}

// simulate runs the plan. When ctx ends early it returns the study up to there and the
// cause, or no study if no shift was done.
func simulate(ctx context.Context, e env, l *model.Line, plan sim.Plan) (*model.Study, error) {
	var watch func(int, *model.Outcome)
	if e.terminal {
		p := newProgress(e.err, plan.Max, period(l))
		defer p.stop()
		watch = func(replication int, _ *model.Outcome) { p.done(replication + 1) }
	}
	study, err := model.Run(ctx, l, plan, watch)
	if err != nil || study.Ending != sim.Cancelled {
		return study, err
	}
	early := cutShort(ctx, len(study.Shifts), period(l))
	if len(study.Shifts) == 0 {
		return nil, early
	}
	return study, early
}

// print writes the answer in the form that is asked for, and the files beside it.
func (o *runFlags) print(e env, again string, x entrant, source []byte) (err error) {
	says := e.out
	switch {
	case o.json:
		says = e.err // the document stands alone
		err = writeJSON(e.out, version(), x, source)
	case o.csv == "-":
		says = e.err
		err = writeCSV(e.out, x.study)
	default:
		_, err = io.WriteString(e.out, answer(again, x))
	}
	if err != nil || !o.wanted() {
		return err
	}
	f := &field{entrants: []entrant{x}, origins: []origin{{x.scenario, source}}, again: again}
	r, err := runReport(version(), f)
	if err != nil {
		return err
	}
	return o.write(says, r.page, r.tables, r.figures)
}

// quoted returns a file name as a shell takes it.
func quoted(name string) string {
	plain := func(c rune) bool {
		return c > 127 || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.ContainsRune("-_./:,+@%=", c)
	}
	if name != "" && strings.IndexFunc(name, func(c rune) bool { return !plain(c) }) < 0 {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
}
