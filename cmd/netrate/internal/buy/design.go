package buy

import (
	"errors"
	"strconv"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// DesignVerb returns the verb design.
func DesignVerb() desk.Verb {
	return desk.Verb{
		Name: "design", Takes: "FILE", About: "find what to buy: the best of all combinations of options, within limits",
		Simulates: true,
		More: `The file says under design what may be bought: options with their choices, what each costs,
what it changes, needs and excludes; a goal; and limits of price, defective mail, space and
operators. All combinations that these allow are looked at on paper, those are left out that
cannot be the best, and the rest are simulated with the same random events until one is left.
It is the best with the confidence asked for, if it is ahead of every other by --indifference;
designs closer than that count as equal, and of these the cheapest is advised. It is then compared
with the line as it is, with what came near it and with what is best for less money. The search takes uncertain inputs at their means;
that comparison draws them (--uncertainty), and says how probable it is that the choice is the best of
those. See netrate help designing.

FILE may be -, which is standard input.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action { return newDesignFlags(flags).run },
	}
}

// designFlags is the command line of design.
type designFlags struct {
	*desk.LineFlags
	indifference amount
	confidence   desk.Confidence
	draws        draws
}

// designReps is how many shifts of each design are simulated at most, if nothing else is asked for.
const designReps = 2000

func newDesignFlags(flags *pflag.FlagSet) *designFlags {
	o := &designFlags{confidence: say.Level, draws: study.UncertaintyDraws, LineFlags: &desk.LineFlags{
		Inputs:  desk.NewInputs("design", flags, "use the example called `NAME` instead of a file", ""),
		Outputs: &desk.Outputs{},
	}}
	o.AddJob(flags)
	o.PlanFlags = desk.NewFixedPlanFlags(flags, "simulate at most this number of shifts of each design, and as many of each of the last ones (default 2000)")
	flags.Var(&o.indifference, "indifference", "the smallest difference that matters: good envelopes an hour or, of costs, money a thousand (default 1 % of what the line as it is comes to on paper; of costs, of those of its hours, upkeep and price)")
	flags.Var(&o.draws, "uncertainty", "with uncertain inputs: draw them this number of times in the comparison at the end, 40 or more (default 500); 0 for nominal values only")
	flags.Var(&o.confidence, "confidence", "the confidence that the choice is right (default 95%)")
	o.AddJSON(flags, "print all figures as JSON instead")
	o.AddData(flags, "csv", "write the designs to `FILE`; - prints them instead")
	o.AddFiles(flags)
	return o
}

func (o *designFlags) run(e desk.Env, args []string) error {
	about, err := o.Line(e, args)
	if err == nil {
		err = o.MoneyOfJobs(about.Scenario)
	}
	if err != nil {
		return err
	}
	if about.Design == nil {
		return desk.Wrong("%s says nothing of what may be bought: it has no design (netrate help designing)", desk.ShownFile(about.File))
	}
	plan, err := o.Fixed(e, about.Run, designReps)
	if err != nil {
		return err
	}
	q := o.question(plan, about.Scenario)
	if err := q.Check(); err != nil {
		return desk.Wrong("%v", err)
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	answer, ended := desk.Asked(e, "design", q.Ask, func(a *study.DesignAnswer) study.Settings { return a.Settings })
	if none, is := errors.AsType[*study.DesignNone](ended); is {
		return desk.Wrong("%v", none)
	}
	if answer == nil {
		return ended
	}
	shown := present.Design{DesignAnswer: answer, Origin: page.OriginOf(about), Command: o.command(about.Again)}
	return errors.Join(ended, page.Tell(e, o.Outputs, shown))
}

// question returns what is asked.
func (o *designFlags) question(plan sim.Plan, sc *scenarios.Scenario) *study.Design {
	d := sc.Design
	q := &study.Design{
		Goal: goalOf(d.Goal), Target: d.Target, Share: d.Share, Limits: study.DesignLimits(d.Limits),
		Worth: float64(o.indifference), Confidence: float64(o.confidence), Plan: plan, Draws: int(o.draws),
		Line: func(choices []int) (*study.Alternative, error) { return o.designed(sc, choices) },
	}
	for _, option := range d.Options {
		x := study.DesignOption{Name: option.Name, Optional: option.Optional}
		for _, c := range option.Choices {
			x.Choices = append(x.Choices, study.DesignChoice{Name: c.Name, Price: study.Number(c.Price), Needs: c.Needs, Excludes: c.Excludes})
		}
		q.Options = append(q.Options, x)
	}
	return q
}

// goalOf returns what is looked for.
func goalOf(g scenarios.DesignGoal) study.DesignGoal {
	switch g {
	case scenarios.DesignCost:
		return study.DesignCost
	case scenarios.DesignValue:
		return study.DesignValue
	case scenarios.DesignOperators:
		return study.DesignOperators
	case scenarios.DesignNetRate:
	}
	return study.DesignNetRate
}

// designed returns the line with a choice of each option, set up for the job; or why it cannot be, in
// a sentence.
func (o *designFlags) designed(sc *scenarios.Scenario, choices []int) (*study.Alternative, error) {
	v, err := sc.Design.Designed(choices)
	if problems, is := errors.AsType[scenarios.Problems](err); is && len(problems) > 0 {
		return nil, errors.New(problems[0].Text)
	}
	if err != nil {
		return nil, err
	}
	a, err := o.AtWork(study.Alternative{Name: sc.Name, Changes: v.Changes, File: sc.File, Line: v.Line, Costs: v.Costs, Products: v.Products}, sc)
	return &a, err
}

// command returns the command that asks again.
func (o *designFlags) command(again string) string {
	if o.indifference > 0 {
		again += " --indifference " + o.indifference.String()
	}
	if o.Changed("confidence") {
		again += " --confidence " + o.confidence.String()
	}
	if o.Changed("uncertainty") {
		again += " --uncertainty " + o.draws.String()
	}
	return again
}

// amount is a number above 0.
type amount float64

func (x *amount) String() string {
	if *x == 0 {
		return ""
	}
	return strconv.FormatFloat(float64(*x), 'g', -1, 64)
}

func (x *amount) Set(text string) error {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !(v > 0 && v <= 1e9) {
		return errors.New("want a number above 0, such as 50")
	}
	*x = amount(v)
	return nil
}

// Type is what a value is called in the help.
func (*amount) Type() string { return "NUMBER" }
