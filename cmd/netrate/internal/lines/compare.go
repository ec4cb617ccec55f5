package lines

import (
	"errors"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// CompareVerb returns the verb compare.
func CompareVerb() desk.Verb {
	return desk.Verb{
		Name: "compare", Takes: "FILE…", About: "compare the variants of a file, or several files",
		Simulates: true,
		More: `One file: its line, called the base, is compared with its variants. Several files: their
lines are compared, without their variants, and the first is the base. All lines get the
same random events, shift by shift, so that what differs is what was changed. The number
of shifts is run.min of the base, unless --reps says otherwise. Where inputs are uncertain it
is 4 for each draw of them, and --reps alone is that of all draws together. Where several
lines share a crew, they are compared by what all of them deliver together.

Where a file has costs, it also says what each variant costs a year and what it is worth.
Where they have a yearly volume of each job, all jobs are run, and each counts as much as
its volume.

--best looks for the best line only, and drops lines as soon as they are known not to be
ahead of another by --indifference. The choice is right with the confidence asked for if the
best line is ahead of every other by --indifference or more.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := newCompareFlags(flags)
			return func(e desk.Env, args []string) error { return o.run(e, args) }
		},
	}
}

// compareFlags is the command line of a comparison.
type compareFlags struct {
	*desk.PlanFlags
	*desk.Inputs
	*desk.Outputs
	why         string
	base        string
	best        bool
	worth       rate
	confidence  desk.Confidence
	uncertainty *uncertaintyDraws
}

func newCompareFlags(flags *pflag.FlagSet) *compareFlags {
	o := &compareFlags{Outputs: &desk.Outputs{}, confidence: say.Level}
	o.Inputs = desk.NewComparedInputs("compare", flags, "compare the variants of the example called `NAME`",
		"compare takes a file with variants, or several files; try netrate compare --example seventh-feeder")
	o.AddJob(flags)
	o.PlanFlags = desk.NewFixedPlanFlags(flags, "simulate this number of shifts of each line; with --best, at most")
	o.uncertainty = newUncertaintyFlag(flags)
	flags.StringVar(&o.why, "why", "", "say why one line delivers more or less than another: `A,B`; with base for the line of the file")
	flags.StringVar(&o.base, "base", "", "set the others against the variant, or the file, called `NAME`, instead of the first")
	flags.BoolVar(&o.best, "best", false, "only find the best line, in as few shifts as it takes")
	flags.Var(&o.worth, "indifference", "with --best: the indifference zone: smaller differences are ignored (default 1 % of the base)")
	flags.Var(&o.confidence, "confidence", "with --best: the confidence that the choice is right (default 95%)")
	o.AddJSON(flags, "print all figures as JSON instead")
	o.AddRows(flags, "write a row for each shift and line, at nominal values, to `FILE`; - prints them instead")
	o.AddFiles(flags)
	return o
}

func (o *compareFlags) run(e desk.Env, args []string) error {
	if err := o.compatible(); err != nil {
		return err
	}
	of, err := readAlternatives(e, o.Inputs, args)
	if err != nil {
		return err
	}
	if o.Changed("base") {
		if err := of.rebase(o.base); err != nil {
			return err
		}
	}
	o.Premise = desk.Premise(of.base()) + desk.WithoutYear(of.base()) + of.setUp()
	q, err := o.question(e, of)
	if err != nil {
		return err
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	a, early := desk.Asked(e, page.Period(of.all[0].Lines()[0]), shiftByShift(o.Outputs, of.names(), q.Ask), func(a *study.ComparisonAnswer) study.Settings { return a.Settings })
	if a == nil {
		return early
	}
	c := present.Comparison{ComparisonAnswer: a, Origins: of.origins, Command: of.command + o.asked() + o.drawn(of)}
	return errors.Join(early, page.Tell(e, o.Outputs, c))
}

// asked returns of which two the why is asked, as the command line has it.
func (o *compareFlags) asked() string {
	if o.why == "" {
		return ""
	}
	return " --why " + desk.Quoted(o.why)
}

// drawn returns how often what is uncertain is drawn, as the command line has it.
func (o *compareFlags) drawn(of *alternatives) string {
	if o.best {
		return o.uncertainty.again()
	}
	return o.uncertainty.again(of.lines()...)
}

// compatible returns what cannot be asked for together.
func (o *compareFlags) compatible() error {
	if err := o.Check(); err != nil {
		return err
	}
	switch {
	case !o.best && (o.Changed("indifference") || o.Changed("confidence")):
		return desk.Wrong("--indifference and --confidence say how --best chooses, and --best is not given")
	}
	return nil
}

// question returns what is asked, or why it cannot be.
func (o *compareFlags) question(e desk.Env, of *alternatives) (study.Comparison, error) {
	q := study.Comparison{Alternatives: of.all, Scenes: o.Wanted()}
	if o.why != "" {
		pair, err := study.PairNamed(of.all, o.why)
		if err != nil {
			return q, desk.Wrong("--why %v", err)
		}
		q.Why = &pair
	}
	if err := q.Check(); err != nil {
		return q, desk.WrongAsked(of.base(), err)
	}
	most := of.base().Run.Min
	if o.best {
		most = of.base().Run.Max
		q.Selection = &study.ComparisonSelection{Indifference: float64(o.worth), Confidence: float64(o.confidence)}
	}
	var err error
	if q.Plan, err = o.Fixed(e, of.base().Run, most); err != nil {
		return q, err
	}
	if !o.best {
		if err := o.uncertainty.asked(o.PlanFlags, q.Plan.Max, of.lines()...); err != nil {
			return q, err
		}
		q.Draws = int(*o.uncertainty)
	}
	if err := q.Check(); err != nil {
		return q, desk.WrongAsked(of.base(), err)
	}
	return q, nil
}

// rate is a flag that is a number an hour, with its unit.
type rate float64

func (r *rate) Set(text string) error {
	for unit, perHour := range map[string]float64{"/h": 1, "/min": 60} {
		if number, ok := strings.CutSuffix(text, unit); ok {
			x, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
			if err == nil && x > 0 && x*perHour <= mostRate {
				*r = rate(x * perHour)
				return nil
			}
		}
	}
	return errors.New("want a rate above 0 with its unit, such as 100/h or 2/min")
}

// mostRate is faster than any line.
const mostRate = 1e9

func (r *rate) String() string { return strconv.FormatFloat(float64(*r), 'f', -1, 64) + "/h" }
func (r *rate) Type() string   { return "RATE" }
