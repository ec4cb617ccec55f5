package weeks

import (
	"context"
	"errors"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/sim"
)

// SeasonVerb returns the verb season.
func SeasonVerb() desk.Verb {
	return desk.Verb{
		Name: "season", Takes: "FILE", About: "simulate the work of some weeks, job after job, and say what is late",
		More: `The season of the file is run on its line as it stands, called the base, and in each
variant, on the same luck. FILE may be -, which is standard input. --reps, --precision,
--seed and --workers may also be set by NETRATE_REPS and so on.

Hours are hours of working time: breaks, nights and maintenance are not simulated but
taken out. A job that is not done when its week ends goes on in the next.`,
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
	o := &seasonFlags{LineFlags: &desk.LineFlags{Verb: "season", Outputs: &desk.Outputs{}}}
	flags.StringVar(&o.Example, "example", "", "take the example called `NAME` instead of a file")
	o.PlanFlags = desk.NewFixedPlanFlags(flags, "simulate exactly so many seasons of each; 400 if it is not given")
	flags.Var(&o.Precision, "precision", "go on until the work of all weeks is known to ± so much of it: 0.5%")
	flags.Var(&o.order, "order", "do the jobs of a week as given, or in the best order, whatever the file says")
	flags.Var(&o.service, "service", "find the configuration with the fewest operators in a shift that has all weeks done in time so often: 95%")
	o.AddJSON(flags, "print all figures as JSON instead")
	o.AddData(flags, "csv", "write a row for each season and week to `FILE`; - prints them instead")
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
	case about.Season == nil:
		return desk.Wrong("%s has no season: write the weeks below season, or try netrate season --example flats-season", about.File)
	}
	plan, err := o.seasonPlan(e, about.Run)
	if err != nil {
		return err
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	s := newSeasons(about, plan, float64(o.service), o.order)
	ended := desk.Watched(e, plan.Max*len(s.runs), "season", s.simulate)
	if s.runs[0].study == nil || s.runs[0].study.Done == 0 {
		return ended
	}
	return errors.Join(ended, o.tell(e, s))
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

// tell writes what was found in the forms that are asked for.
func (o *seasonFlags) tell(e desk.Env, s *seasons) error {
	return o.Deliver(e, desk.Answer{
		Text:     desk.Text(s.answer),
		Document: page.Document(func() any { return s.document() }),
		Data:     s.writeCSV,
		Page:     page.Made(s.report),
	})
}

// seasons is the season of a scenario in each of its configurations.
type seasons struct {
	desk.Subject
	plan     sim.Plan
	service  float64  // the share of seasons that shall have all weeks in time; 0 if it is not asked for
	order    sequence // "" for that of the file
	runs     []seasonRun
	coverage *study.CoverageAnswer
}

// seasonRun is the season of one configuration: of the base, or of a variant.
type seasonRun struct {
	name    string
	changes []string // from the base, in words
	season  *model.Season
	study   *model.SeasonStudy // nil if it was not simulated

	given, best sim.Seconds // mean time of all changeovers in either order
}

func newSeasons(about desk.Subject, plan sim.Plan, service float64, order sequence) *seasons {
	s := &seasons{Subject: about, plan: plan, service: service, order: order, coverage: study.Coverage{Alternatives: page.AlternativesOf(about.Scenario)}.Ask()}
	add := func(name string, changes []string, given *model.Season) {
		if given == nil {
			return
		}
		season := *given
		if order != "" {
			season.Best = order == "best"
		}
		s.runs = append(s.runs, seasonRun{name: name, changes: changes, season: &season})
	}
	add(scenarios.BaseName, nil, about.Season)
	for i := range about.Variants {
		v := &about.Variants[i]
		add(v.Name, v.Changes, v.Season)
	}
	return s
}

// simulate runs the base as long as the plan asks, and then as many seasons of each
// variant. What is left when ctx ends is not simulated.
func (s *seasons) simulate(ctx context.Context, watch func(int)) (done int, ending sim.Ending, err error) {
	for i := range s.runs {
		x := &s.runs[i]
		if err := x.changeovers(); err != nil {
			return 0, 0, desk.Wrong("%s: %v", x.name, err)
		}
	}
	plan, before := s.plan, 0
	for i := range s.runs {
		study, err := model.RunSeason(ctx, s.runs[i].season, plan, func(replication int, _ *model.SeasonStudy) {
			if watch != nil {
				watch(before + replication)
			}
		})
		if err != nil {
			return 0, 0, err
		}
		if i > 0 && study.Ending == sim.Cancelled {
			return s.runs[0].study.Done, sim.Cancelled, nil // it could not be set against the others
		}
		s.runs[i].study = study
		before += study.Done
		if study.Ending == sim.Cancelled {
			return study.Done, sim.Cancelled, nil
		}
		plan.Min, plan.Max, plan.Precision = study.Done, study.Done, 0
	}
	return s.runs[0].study.Done, s.runs[0].study.Ending, nil
}

// changeovers finds how long they take in the order given and in the best.
func (x *seasonRun) changeovers() (err error) {
	ordered := *x.season
	ordered.Best = false
	if x.given, err = ordered.ChangeTime(); err != nil {
		return err
	}
	ordered.Best = true
	x.best, err = ordered.ChangeTime()
	return err
}

// done returns the configurations that were simulated.
func (s *seasons) done() []*seasonRun {
	var all []*seasonRun
	for i := range s.runs {
		if s.runs[i].study != nil {
			all = append(all, &s.runs[i])
		}
	}
	return all
}

// partial reports whether a signal ended the run.
func (s *seasons) partial() bool {
	return len(s.done()) < len(s.runs) || s.runs[0].study.Ending == sim.Cancelled
}
