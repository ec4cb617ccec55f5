package weeks

import (
	"errors"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/plots"
	"netrate/scenarios"
	"netrate/sim"
)

// SeasonVerb returns the verb season.
func SeasonVerb() desk.Verb {
	return desk.Verb{
		Name: "season", Takes: "FILE", About: "simulate the work of several weeks, job after job, and report what is late",
		Simulates: true,
		More: `The season of the file is run on its line as it stands, called the base, and in each
variant, with the same random events. FILE may be -, which is standard input. --reps,
--precision, --seed and --workers may also be set by NETRATE_REPS and so on.

The season of several lines is planned as netrate plan does: the jobs of a week may begin
when it does, and are due when its last shift ends.

Hours are hours of working time: breaks, nights and maintenance are not simulated but
taken out. A job that is not done when its week ends goes on in the next. Each season draws what
is uncertain anew, for all of its weeks: --reps says how often.

The rows of --csv are written as the seasons are simulated: of a run that is interrupted
they have all that was done, also of a configuration that is left out of the answer.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action { return newSeasonFlags(flags).run },
	}
}

// seasonFlags is the command line of a season.
type seasonFlags struct {
	*desk.LineFlags
	order   sequence
	service desk.Share
}

func newSeasonFlags(flags *pflag.FlagSet) *seasonFlags {
	o := &seasonFlags{LineFlags: &desk.LineFlags{
		Inputs:  desk.NewInputs("season", flags, "use the example called `NAME` instead of a file", ""),
		Outputs: &desk.Outputs{},
	}}
	o.PlanFlags = desk.NewFixedPlanFlags(flags, "simulate exactly this number of seasons of each (default 400)")
	flags.Var(&o.Precision, "precision", "go on until the work of all weeks is known to within this share of it: 0.5%")
	flags.Var(&o.order, "order", "do the jobs of a week as given, or in the best order, whatever the file says")
	flags.Var(&o.service, "service", "find the configuration with the fewest operators that gets all weeks done in time in this share of the seasons: 95%")
	o.AddJSON(flags, "print all figures as JSON instead")
	o.AddRows(flags, "write a row for each season and week to `FILE`; - prints them instead")
	o.AddFiles(flags)
	return o
}

// sequence is a flag that is the order of the jobs of a week.
type sequence string

func (s *sequence) Set(text string) error {
	if text != "given" && text != "best" {
		return errors.New("want given or best")
	}
	*s = sequence(text)
	return nil
}

func (s *sequence) String() string { return string(*s) }
func (s *sequence) Type() string   { return "ORDER" }

func (o *seasonFlags) run(e desk.Env, args []string) error {
	about, err := o.Subject(e, args)
	switch {
	case err != nil:
		return err
	case about.SeasonPlan != nil:
		return o.ofLines(e, about)
	case about.Season == nil:
		if about.Plan != nil {
			return desk.Wrong("%s has a plan and no season: ask netrate plan", desk.ShownFile(about.File))
		}
		return desk.Wrong("%s has no season: add weeks under season, or try netrate season --example flats-season", desk.ShownFile(about.File))
	}
	plan, err := o.seasonPlan(e, about.Run)
	if err != nil {
		return err
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	question := newSeasons(about, plan, float64(o.service), o.order)
	if err := question.Check(); err != nil {
		return desk.WrongSeason(about.Scenario, err)
	}
	answer, ended := desk.Asked(e, "season", page.Growing(o.Outputs, question.Ask, seasonRows),
		func(a *study.SeasonsAnswer) study.Settings { return a.Settings })
	if answer == nil {
		return ended
	}
	coverage := study.Coverage{Alternatives: page.AlternativesOf(about.Scenario)}.Ask()
	s := present.Seasons{SeasonsAnswer: answer, Coverage: coverage, Origin: page.OriginOf(about), Plan: plan, Order: string(o.order), Command: about.Again}
	return errors.Join(ended, page.Tell(e, o.Outputs, s))
}

// ofLines plans the season of several lines.
func (o *seasonFlags) ofLines(e desk.Env, about desk.Subject) error {
	switch {
	case o.order != "":
		return desk.Wrong("--order is for one line: of several, which does which job when is found")
	case o.service > 0:
		return desk.Wrong("--service of season is for one line; netrate plan --service chooses among what is optional under staff")
	case o.Precision > 0:
		return desk.Wrong("--precision of season is for one line: of several, --reps says how many replications there are")
	}
	of := func(s *scenarios.Shop) *scenarios.Plan { return s.SeasonPlan }
	return (&planFlags{LineFlags: o.LineFlags}).answer(e, about, of)
}

// seasonPlan returns how many seasons to run: a fixed number, unless a precision is asked
// for.
func (o *seasonFlags) seasonPlan(e desk.Env, asked scenarios.Settings) (sim.Plan, error) {
	plan, err := o.Fixed(e, asked, desk.UsualReps)
	if plan.Precision > 0 {
		plan.Max = max(desk.UsualReps, asked.Max)
	}
	return plan, err
}

// newSeasons returns the question for a scenario that has a season.
func newSeasons(about desk.Subject, plan sim.Plan, service float64, order sequence) *study.Seasons {
	q := &study.Seasons{Configurations: desk.SeasonsOf(about.Scenario), Plan: plan, Service: service}
	for i := range q.Configurations {
		if order != "" {
			q.Configurations[i].Season.Best = order == "best"
		}
	}
	return q
}

// seasonRows returns the rows of the last season.
func seasonRows(s study.Sofar[study.SeasonsAnswer]) (plots.Table, bool) {
	return present.SeasonsRows(s.Season()), true
}
