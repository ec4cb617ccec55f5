package buy

import (
	"cmp"
	"errors"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim/accept"
)

// AcceptVerb returns the verb accept.
func AcceptVerb() desk.Verb {
	return desk.Verb{
		Name: "accept", Takes: "FILE", About: "plan an acceptance test: how long, how many envelopes, with which risks",
		Simulates: true,
		More: `A test tells a good line, which is as promised, from a bad one, which is just
unacceptable. Name a variant of the file for each (--good, --bad; the file as it stands is
called base, and as its base: says), or give two net rates (--promised, --unacceptable): then both lines are made of
the file's, with all its faults more or less often. The test is simulated with both.

--clause adds a clause to that of the net rate: stops, clearing, defective or diverted. Its levels are
those of the two lines, or GOOD:BAD as given: stops in 1,000 sets started, mean seconds to
clear a fault, defective envelopes in a million, sets diverted or outsorted in 1,000.

--result takes the counts of a test that was run, a row for each part of it; with --sequential a
row for each shift, in their order. It is judged by the limits that the same command plans without
it or, better, by those that were signed: --hours, --demand and --limit, or --stages. The plan ends
with the command that has them. See netrate help accepting. FILE may be -, which is standard input.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action { return newAcceptFlags(flags).run },
	}
}

// acceptFlags is the command line of accept.
type acceptFlags struct {
	*desk.LineFlags
	good, bad              string
	promised, unacceptable rate
	seller, buyer          desk.Share
	hours                  hours
	demand                 envelopes
	clauses                clauses
	limits                 limits
	sequential             bool
	result, stops, mapped  string
	stages, stagesOut      string // files of limits after each shift
}

func newAcceptFlags(flags *pflag.FlagSet) *acceptFlags {
	o := &acceptFlags{seller: 0.05, buyer: 0.05, LineFlags: &desk.LineFlags{
		Inputs:  desk.NewInputs("accept", flags, "use the example called `NAME` instead of a file", ""),
		Outputs: &desk.Outputs{},
	}}
	flags.StringVar(&o.good, "good", "", "the variant `NAME` is as promised (without it, the file as it stands)")
	flags.StringVar(&o.bad, "bad", "", "the variant `NAME` is just unacceptable")
	flags.Var(&o.promised, "promised", "instead of --good: the net rate promised, good envelopes an hour")
	flags.Var(&o.unacceptable, "unacceptable", "instead of --bad: the net rate that is just unacceptable")
	flags.Var(&o.seller, "seller-risk", "how often a good line may fail")
	flags.Var(&o.buyer, "buyer-risk", "how often a bad line may pass")
	flags.Var(&o.hours, "hours", "length of the test in hours as planned; without it, as long as the risks demand")
	flags.Var(&o.demand, "demand", "with --hours or --result: the good envelopes that the contract demands in the test")
	flags.Var(&o.limits, "limit", "with --hours or --result: the limit NAME=X that the contract has for a clause; may be repeated")
	flags.BoolVar(&o.sequential, "sequential", false, "plan besides a test of the net rate that may end after each shift; with --result, judge by it")
	flags.Var(&o.clauses, "clause", "add the clause `NAME` or NAME=GOOD:BAD; may be repeated")
	flags.StringVar(&o.result, "result", "", "say what a test has shown: its counts are in `FILE`")
	flags.StringVar(&o.stops, "result-stops", "", "with --result: take the stops for faults from the stop log `FILE`")
	flags.StringVar(&o.mapped, "result-map", "", "read that log as `FILE` says, which fit --map-out writes")
	flags.StringVar(&o.stages, "stages", "", "with --sequential: the limits after each shift that the contract has are in `FILE`, which --stages-out writes")
	flags.StringVar(&o.stagesOut, "stages-out", "", "with --sequential: write the limits after each shift to `FILE`, for --stages")
	desk.Reads(flags, "result", "result-stops", "result-map", "stages")
	desk.Writes(flags, "stages-out")
	o.AddChoices(flags)
	o.AddJob(flags)
	o.PlanFlags = desk.NewFixedPlanFlags(flags, "simulate this number of tests of each line (default 2000)")
	o.AddJSON(flags, "print all figures as JSON instead")
	o.AddData(flags, "csv", "write the clauses to `FILE`; - prints them instead")
	o.AddFiles(flags)
	return o
}

func (o *acceptFlags) run(e desk.Env, args []string) error {
	if err := o.check(); err != nil {
		return err
	}
	about, err := o.Line(e, args)
	if err == nil {
		err = o.Mixed(about.Scenario)
	}
	if err != nil {
		return err
	}
	question, err := o.question(e, about)
	if err != nil {
		return err
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	answer, ended := desk.Asked(e, "test", question.Ask,
		func(a *study.AcceptanceAnswer) study.Settings { return a.Settings })
	if answer == nil {
		if not, is := errors.AsType[*study.AcceptanceImpossible](ended); is {
			return desk.Wrong("%v", not)
		}
		return ended
	}
	if err := o.writeStages(e, answer.Stages); err != nil {
		return err
	}
	shown := present.Acceptance{AcceptanceAnswer: answer, Origin: page.OriginOf(about), Command: o.command(about.Again), Judging: o.judging(about.Again, answer), Fixed: o.judgingFixed(about.Again, answer), Writing: o.writing(about.Again, answer)}
	return errors.Join(ended, page.Tell(e, o.Outputs, shown))
}

// check returns what of the flags does not go together.
func (o *acceptFlags) check() error {
	rates := o.promised > 0 || o.unacceptable > 0
	switch {
	case rates && (o.good != "" || o.bad != ""):
		return desk.Wrong("--promised and --unacceptable make both lines of the file's, --good and --bad name them: give one pair")
	case rates && !(o.promised > 0 && o.unacceptable > 0):
		return desk.Wrong("--promised and --unacceptable go together: a test tells two net rates apart")
	case !rates && o.bad == "":
		return desk.Wrong("say what is just unacceptable: --bad NAME, a variant of the file, or --promised and --unacceptable, two net rates")
	case o.stops != "" && o.result == "":
		return desk.Wrong("--result-stops goes with --result, which has the hours and the good envelopes of the test")
	case o.sequential && (o.hours > 0 || o.demand > 0):
		return desk.Wrong("--sequential plans a test that ends when enough was seen, and its limits: leave out --hours and --demand")
	case o.mapped != "" && o.stops == "":
		return desk.Wrong("--result-map goes with --result-stops, the log that it is about")
	case len(o.limits) > 0 && o.hours == 0 && o.result == "":
		return desk.Wrong("--limit goes with --hours, or with --result, which has the hours")
	case o.stops == "-" && o.result == "-":
		return desk.Wrong("the counts and the stop log cannot both come from standard input")
	case o.demand > 0 && o.hours == 0 && o.result == "":
		return desk.Wrong("--demand goes with --hours, or with --result, which has the hours")
	case !o.sequential && (o.stages != "" || o.stagesOut != ""):
		return desk.Wrong("--stages and --stages-out go with --sequential, the test that may end after each shift")
	case o.stages != "" && o.stagesOut != "":
		return desk.Wrong("--stages has the limits that --stages-out would write: give one of them")
	}
	return nil
}

// question returns what is asked.
func (o *acceptFlags) question(e desk.Env, about desk.Subject) (*study.Acceptance, error) {
	plan, err := o.Fixed(e, about.Run, study.AcceptanceReps)
	if err != nil {
		return nil, err
	}
	q := &study.Acceptance{
		Good: about.Line, Names: [2]string{"as promised", "just unacceptable"},
		Promised: float64(o.promised), Unacceptable: float64(o.unacceptable),
		Risks: accept.Risks{Seller: float64(o.seller), Buyer: float64(o.buyer)},
		Hours: float64(o.hours), Demand: float64(o.demand), Plan: plan,
		Clauses: o.limits.of(o.clauses), Sequential: o.sequential,
	}
	if o.bad != "" {
		if err := o.named(q, about.Scenario); err != nil {
			return nil, err
		}
	}
	if o.result != "" {
		if q.Result, err = readResult(e, o.result); err != nil {
			return nil, err
		}
	}
	if o.stages != "" {
		if q.Stages, err = readStages(e, o.stages, float64(about.Line.Shift)/3600); err != nil {
			return nil, err
		}
	}
	if o.stops != "" {
		if err := addStops(e, o.stops, o.mapped, o.sequential, q.Result); err != nil {
			return nil, err
		}
	}
	if err := q.Check(); err != nil {
		return nil, desk.Wrong("%v", err)
	}
	return q, nil
}

// named takes the two lines by their names.
func (o *acceptFlags) named(q *study.Acceptance, sc *scenarios.Scenario) error {
	good, bad := o.good, o.bad
	if sc.Variant != "" {
		return desk.Wrong("--variant takes one line of the file and leaves out all others, of which --bad is one: without it, --good %q --bad %q tell the two lines apart", cmp.Or(good, sc.Variant), bad)
	}
	for _, name := range []*string{&good, &bad} {
		if *name == "" || *name == scenarios.BaseName { // which is what no variant is called
			*name = sc.Base
		}
	}
	all := page.AlternativesOf(sc)
	for _, x := range []struct {
		flag, name string
		set        func(*study.Alternative)
	}{
		{"good", good, func(a *study.Alternative) { q.Good, q.Names[0] = a.Line, a.Name }},
		{"bad", bad, func(a *study.Alternative) { q.Bad, q.Names[1] = a.Line, a.Name }},
	} {
		if why := sc.Unmade[x.name]; why != "" {
			return desk.Wrong("--%s: the variant %s cannot be made of the line with the choices that are taken: %s", x.flag, x.name, why)
		}
		a, err := chosen(all, x.flag, x.name)
		if err != nil {
			return err
		}
		if x.name != sc.Base { // the base is set up
			if a, err = o.AtWork(a, sc); err != nil {
				return err
			}
		}
		if a.Line == nil {
			return desk.Wrong("--%s %s: several lines with one crew are not tested together", x.flag, x.name)
		}
		x.set(&a)
	}
	if q.Names[0] == q.Names[1] {
		return desk.Wrong("--good and --bad are both %s: a test tells two lines apart", q.Names[0])
	}
	return nil
}

// chosen returns the alternative of a name.
func chosen(all []study.Alternative, flag, name string) (study.Alternative, error) {
	var names []string
	for _, a := range all {
		if a.Name == name {
			return a, nil
		}
		names = append(names, a.Name)
	}
	return study.Alternative{}, desk.Wrong("--%s is %q, which is no variant of the file%s", flag, name, desk.Meant(name, names, ""))
}
