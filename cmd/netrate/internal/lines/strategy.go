package lines

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
)

// StrategyVerb returns the verb strategy.
func StrategyVerb() desk.Verb {
	return desk.Verb{
		Name: "strategy", Takes: "FILE", About: "find the best response to each fault, at an accepted risk",
		Simulates: true,
		More: `A strategy is a response to every fault of every station. All that the line can have
are compared on paper; those that may be best run the same shifts with the same random events.
The best is the one with the highest net rate of those that deliver no more defective
envelopes than --max-defective says: 2/1e6, 0.0002% or 0.000002. If it is not given, no
more than the strategy of the file delivers; differences up to 1 % are ignored.

Personalised sets that could not be read or matched are not shipped, except where the file
itself has that response: --allow-unread also considers it. A set that was not read may be
right, so it is not counted as defective; nobody knows that it is right.

Where several lines share a crew, the strategies of all are looked for, line by line, each
with the others at the best found so far, until no change at one line helps; --line asks for
one of them while the others keep theirs. Net rates are of all lines together, and the limit
is on each.

Where costs give yearly volumes of jobs, a strategy is for all of them together, each in
its share; --job NAME asks for one.

What policy: never: of the file and --never forbid is not considered, and its price is
given: how much more the best strategy with it would deliver. The file's own strategy must
keep to it too.

How many are defective follows from the rates in the file; what takes two faults at once
is left out, unless the count of the shifts shows more. --reps, --seed and --workers may
also be set by NETRATE_REPS and so on. FILE may be -, which is standard input.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := &strategyFlags{}
			flags.Var(&o.limit, "max-defective", "accept this share of the delivered envelopes as defective: 2/1e6")
			flags.Var(&o.never, "never", "forbid this response, such as double=ship, and say what that costs; may be repeated")
			flags.BoolVar(&o.unread, "allow-unread", false, "also consider shipping sets that could not be read or matched")
			flags.StringVar(&o.line, "line", "", "of several lines with one crew, find the strategy of the line `NAME` alone")
			o.LineFlags = desk.NewLineFlags("strategy", flags)
			return o.run
		},
	}
}

// strategyFlags is the command line of a search for a strategy.
type strategyFlags struct {
	*desk.LineFlags
	limit  desk.Part
	unread bool
	never  forbidden
	line   string // of several with one crew
}

func (o *strategyFlags) run(e desk.Env, args []string) error {
	about, err := o.Work(e, args)
	if err != nil {
		return err
	}
	line, err := o.chosen(about)
	if err != nil {
		return err
	}
	if line == nil {
		return o.together(e, about)
	}
	plan, err := o.Fixed(e, about.Run, desk.UsualReps)
	if err != nil {
		return err
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	q := study.Strategies{Line: line, Mix: about.Mix, Group: about.LineGroup, AllowUnread: o.unread, Plan: plan, Incidents: o.Wanted()}
	q.Never, q.MaxDefective = o.forbids(about), o.accepted()
	if why := q.Breach(); why != "" {
		return breached(why)
	}
	switch {
	case about.Costs == nil:
	case about.LineGroup != nil:
		q.Volume = about.Costs.Volumes[line.Name].Mean()
	default:
		q.Volume = about.Costs.Envelopes()
	}
	a, early := desk.Asked(e, page.Period(line), q.Ask, func(a *study.StrategiesAnswer) study.Settings { return a.Settings })
	if a == nil {
		return early
	}
	x := present.Strategies{StrategiesAnswer: a, Origin: page.OriginOf(about), Command: o.again(about)}
	return errors.Join(early, page.Tell(e, o.Outputs, x))
}

// forbids returns what no strategy answers, by the file or a flag.
func (o *strategyFlags) forbids(about desk.Subject) []model.Forbidden {
	return append(slices.Clone(about.Never), o.never.notIn(about.Never)...)
}

// breached returns the error of lines that cannot do without what is forbidden.
func breached(why string) error {
	return desk.Wrong("what is forbidden cannot be avoided: %s; the strategy of the file must keep to it too", why)
}

// accepted returns the share of the envelopes that may be defective; nil if none is given.
func (o *strategyFlags) accepted() *float64 {
	if o.Changed("max-defective") {
		return &o.limit.Value
	}
	return nil
}

// again returns the command that asks again.
func (o *strategyFlags) again(about desk.Subject) string {
	flags := []string{about.Again}
	for _, x := range o.never {
		flags = append(flags, "--never "+x.String())
	}
	if o.line != "" {
		flags = append(flags, "--line "+desk.Quoted(o.line))
	}
	if o.Changed("max-defective") {
		flags = append(flags, "--max-defective "+desk.Quoted(o.limit.Text))
	}
	if o.unread {
		flags = append(flags, "--allow-unread")
	}
	return strings.Join(flags, " ")
}

// chosen returns the line whose strategy is looked for, and says what of the answer is of all lines
// where several share the crew; nil if those of all of them are.
func (o *strategyFlags) chosen(about desk.Subject) (*model.Line, error) {
	if about.LineGroup == nil {
		if o.line != "" {
			return nil, desk.Wrong("--line chooses one of several lines, and %s has one", desk.ShownFile(about.File))
		}
		return about.Line, nil
	}
	var names, others []string
	var line *model.Line
	for _, l := range about.LineGroup.Lines {
		names = append(names, l.Name)
		if l.Name == o.line {
			line = l
		} else {
			others = append(others, l.Name)
		}
	}
	switch {
	case o.line == "":
		return nil, nil
	case line == nil:
		return nil, desk.Wrong("--line %s: want one of %s", desk.Quoted(o.line), say.List(names))
	}
	keep := "keeps its own strategy"
	if len(others) > 1 {
		keep = "keep their own strategies"
	}
	o.Premise += say.Wrapped(fmt.Sprintf("Strategies of %s; %s %s. Net rates are of all lines together, with the crew that they share; defective envelopes are those of %s.",
		line.Name, say.List(others), keep, line.Name), say.Prose())
	return line, nil
}

// forbidden are the responses that --never names.
type forbidden []model.Forbidden

func (x *forbidden) String() string { return "" }
func (x *forbidden) Type() string   { return "FAULT=RESPONSE" }

// Set takes one more.
func (x *forbidden) Set(text string) error {
	one, err := model.ForbiddenOf(text)
	if err == nil {
		*x = append(*x, one)
	}
	return err
}

// notIn returns those that are not among others, once each.
func (x forbidden) notIn(others []model.Forbidden) []model.Forbidden {
	var all []model.Forbidden
	for _, one := range x {
		if !slices.Contains(others, one) && !slices.Contains(all, one) {
			all = append(all, one)
		}
	}
	return all
}
