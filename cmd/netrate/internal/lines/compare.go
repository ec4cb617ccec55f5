package lines

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
)

// CompareVerb returns the verb compare.
func CompareVerb() desk.Verb {
	return desk.Verb{
		Name: "compare", Takes: "FILE…", About: "compare the variants of a file, or several files",
		More: `One file: its line, called the base, is compared with its variants. Several files: their
lines are compared, variants left aside, and the first is the base. All lines get the
same luck, shift by shift, so that what differs is what was changed. The number of
shifts is run.min of the base, unless --reps says otherwise. Where several lines share a
crew, what counts is what all of them deliver together.

Where a file has costs, it also says what each variant costs a year and what it is worth.
Where they have a yearly volume of each job, all jobs are run, and each counts as much as
its volume.

--best looks for the best line only, and drops lines as soon as they are known not to be
ahead of another by --worth. The choice is right with the confidence asked for if the
best line is ahead of every other by --worth or more.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := newCompareFlags(flags)
			return func(e desk.Env, args []string) error { return o.run(e, args) }
		},
	}
}

// compareFlags is the command line of a comparison.
type compareFlags struct {
	*desk.PlanFlags
	*desk.Outputs
	example    string
	best       bool
	worth      rate
	confidence desk.Share
	doubt      *doubtDraws
}

func newCompareFlags(flags *pflag.FlagSet) *compareFlags {
	o := &compareFlags{Outputs: &desk.Outputs{}, confidence: say.Level}
	flags.StringVar(&o.example, "example", "", "compare the variants of the example called `NAME`")
	o.PlanFlags = desk.NewFixedPlanFlags(flags, "simulate so many shifts of each line; with --best, at most")
	o.doubt = newDoubtFlag(flags)
	flags.BoolVar(&o.best, "best", false, "only find the best line, in as few shifts as it takes")
	flags.Var(&o.worth, "worth", "with --best: the least difference that matters; 1 % of the base if not given")
	flags.Var(&o.confidence, "confidence", "with --best: how sure the choice shall be; 95% if not given")
	o.AddJSON(flags, "print all figures as JSON instead")
	o.AddData(flags, "csv", "write a row for each shift and line to `FILE`; - prints them instead")
	o.AddFiles(flags)
	return o
}

func (o *compareFlags) run(e desk.Env, args []string) error {
	if err := o.compatible(); err != nil {
		return err
	}
	f, err := entered(e, o.example, args)
	if err != nil {
		return err
	}
	if err := o.comparable(f); err != nil {
		return err
	}
	plan, race, err := o.prepare(e, f)
	if err != nil {
		return err
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	early := simulateAll(e, f, plan, race)
	if f.entrants[0].study == nil {
		return early
	}
	if early == nil && race == nil {
		early = f.drawDoubtOfAll(e, plan, *o.doubt)
	}
	f.again += o.doubt.again()
	c := decide(f, race)
	c.weigh()
	return errors.Join(early, o.tell(e, c))
}

// compatible returns what cannot be asked for together.
func (o *compareFlags) compatible() error {
	if err := o.Check(); err != nil {
		return err
	}
	switch {
	case !o.best && (o.Changed("worth") || o.Changed("confidence")):
		return desk.Wrong("--worth and --confidence say how --best chooses, and --best is not given")
	}
	return nil
}

// comparable returns why what was entered cannot be compared.
func (o *compareFlags) comparable(f *field) error {
	for _, from := range f.origins {
		if err := desk.WorkFor("compare", from.Scenario); err != nil {
			return err
		}
	}
	if err := f.setUpJobs(); err != nil {
		return err
	}
	switch n := len(f.halls()); {
	case o.best && f.mixes() != nil:
		return desk.Wrong("--best is not built for yearly volumes of jobs: without it compare runs all lines")
	case n == 0:
		return nil
	case o.best:
		return desk.Wrong("--best is not built for several lines with one crew: without it compare runs them all")
	case n < len(f.entrants):
		return desk.Wrong("one file or variant has one line and another has several with one crew: want all of a kind")
	}
	return nil
}

// prepare returns how many shifts are run, and the race if there is one.
func (o *compareFlags) prepare(e desk.Env, f *field) (sim.Plan, *race, error) {
	if !o.best {
		plan, err := o.Fixed(e, f.base().Run, f.base().Run.Min)
		return plan, nil, err
	}
	plan, err := o.Fixed(e, f.base().Run, f.base().Run.Max)
	if err != nil {
		return sim.Plan{}, nil, err
	}
	r := &race{worth: float64(o.worth), confidence: float64(o.confidence), cap: plan.Max}
	if !o.Changed("worth") {
		r.usual = true
		r.worth = usualWorth * f.base().Line.Hand().NetRate
		step := math.Pow10(say.Magnitude(r.worth) - 1)
		r.worth = math.Round(r.worth/step) * step
	}
	r.Selection, err = output.NewSelection(len(f.entrants), raceFirst, r.worth, r.confidence)
	if err != nil {
		return sim.Plan{}, nil, desk.Wrong("%v", err)
	}
	r.Cap(plan.Max)
	return plan, r, nil
}

// A race looks at nothing before its first shifts, which settle how much the lines vary.
const (
	raceFirst  = 64   // shifts of each line: those that are simulated at a time
	usualWorth = 0.01 // of what the base delivers on paper
)

// simulateAll runs the plan and gives each entrant its study, if at least one shift was
// done. When a signal ended it the error is the cause.
func simulateAll(e desk.Env, f *field, plan sim.Plan, r *race) error {
	var selection *output.Selection
	if r != nil {
		selection = r.Selection
	}
	return desk.Watched(e, plan.Max, f.period(), func(ctx context.Context, watch func(int)) (done int, ending sim.Ending, err error) {
		studies, err := f.together(ctx, plan, selection, watch)
		if err != nil {
			return 0, 0, err
		}
		for _, s := range studies {
			done = max(done, len(s.Shifts))
		}
		for i, s := range studies {
			if done > 0 {
				f.entrants[i].study, f.entrants[i].line = s, s.Line
			}
		}
		return done, studies[0].Ending, nil
	})
}

// drawDoubtOfAll draws what is in doubt, until a signal ends it.
func (f *field) drawDoubtOfAll(e desk.Env, plan sim.Plan, draws doubtDraws) error {
	ctx, stop := desk.UntilInterrupted()
	defer stop()
	return f.drawDoubt(ctx, e, plan, draws)
}

// together runs all entrants in the same shifts. The study of a hall is that of all its lines,
// and that of a line with yearly volumes of jobs is of all its jobs.
func (f *field) together(ctx context.Context, plan sim.Plan, selection *output.Selection, watch func(int)) ([]*model.Study, error) {
	if mixes := f.mixes(); mixes != nil {
		return model.TogetherMixed(ctx, mixes, plan, watch)
	}
	if f.halls() == nil {
		return model.Together(ctx, f.lines(), plan, selection, model.Counting(watch))
	}
	each, err := model.RunHalls(ctx, f.halls(), plan, watch)
	if err != nil {
		return nil, err
	}
	var studies []*model.Study
	for i, lines := range each {
		studies = append(studies, model.Gathered(f.entrants[i].name, lines))
	}
	return studies, nil
}

// tell writes the answer in the forms that are asked for.
func (o *compareFlags) tell(e desk.Env, c *contest) error {
	return o.Deliver(e, desk.Answer{
		Text:     desk.Text(c.answer),
		Document: func(to io.Writer) error { return writeCompareJSON(to, desk.Version(), c) },
		Data:     func(to io.Writer) error { return writeAllCSV(to, c.field) },
		Page:     page.Made(func() (*page.Report, error) { return compareReport(desk.Version(), c) }),
	})
}

// flags returns the flags that do the comparison again.
func (c *contest) flags() string {
	s := c.entrants[c.best].study
	text := fmt.Sprintf(" --seed %d", s.Plan.Seed)
	if c.race == nil {
		return text + fmt.Sprintf(" --reps %d", len(s.Shifts))
	}
	return text + fmt.Sprintf(" --reps %d --best --worth %s/h --confidence %s%%", c.race.cap,
		strconv.FormatFloat(c.race.worth, 'f', -1, 64), strconv.FormatFloat(100*c.race.confidence, 'g', 6, 64))
}

// rate is a flag that is so many an hour, with its unit.
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
