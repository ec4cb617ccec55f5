package willrun

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/seasons"
	"netrate/model/study"
	"netrate/scenarios"
)

// CheckVerb returns the verb check.
func CheckVerb() desk.Verb {
	return desk.Verb{
		Name: "check", Takes: "FILE…", About: "read scenario files and report what is wrong with them",
		More: `FILE may be -, which is standard input. The exit status is 2 if any file is wrong. Of a file
with jobs it says which of them run on the line, or on the lines, as it stands and in
each variant; --json, --report, --xlsx and --plots are about that, of one file.
--rules also works for a file that is refused for a response that its line cannot have.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := &checkFlags{Outputs: &desk.Outputs{}}
			o.Inputs = desk.NewSeveralInputs("check", flags, "check the example called `NAME` instead of a file",
				"check wants one file or more, or --example NAME")
			flags.BoolVar(&o.rules, "rules", false, "list the responses that each station can have to its faults, and why not the others")
			o.AddJSON(flags, "print what runs where as JSON instead")
			o.AddFiles(flags)
			return o.run
		},
	}
}

// checkFlags is the command line of a check.
type checkFlags struct {
	*desk.Inputs
	*desk.Outputs
	rules bool
}

func (o *checkFlags) run(e desk.Env, args []string) error {
	files, err := o.Names(args)
	if err != nil {
		return err
	}
	if o.JSON || o.Wanted() {
		return o.covers(e, files)
	}
	var errs []error
	for _, file := range files {
		about, err := o.Read(e, file)
		line := scenarios.Refused(file, about.Source)
		switch wrong := wrongToRun(about.Scenario); {
		case err != nil:
			errs = append(errs, err)
		case wrong != nil:
			errs, line = append(errs, wrong), about.Line
		default:
			line = about.Line
			fmt.Fprint(e.Out, present.Checked(page.OriginOf(about)), slips(about.Scenario), idleDowns(about.Scenario), idleBreaks(about.Scenario), shortRests(about.Scenario))
			if len(about.Products) > 0 {
				fmt.Fprintf(e.Out, "\n%s", present.CoverageText(covered(about.Scenario)))
			}
		}
		if o.rules && line != nil {
			fmt.Fprintf(e.Out, "\n%s", present.RulesText(study.Rules(line)))
		}
	}
	return errors.Join(errs...)
}

// wrongToRun returns what is wrong with a scenario that can be read, and would be refused when it is run:
// its plans and seasons, then what is uncertain, in the draws that a run begins with.
func wrongToRun(s *scenarios.Scenario) error {
	if err := wrongPlans(s); err != nil || s == nil {
		return err
	}
	if all := desk.SeasonsOf(s); len(all) > 0 {
		if err := (&study.Seasons{Configurations: all}).Check(); err != nil {
			return desk.WrongSeason(s, err)
		}
	}
	for _, a := range page.AlternativesOf(s) {
		if err := a.DrawsFit(1); err != nil {
			return fmt.Errorf("%s, %s: %w", s.File, a.InWords(), err)
		}
	}
	return nil
}

// wrongPlans returns what is wrong with the plans of a scenario that can be read: of the base, or else of
// its variants. That of the season of several lines is one.
func wrongPlans(s *scenarios.Scenario) error {
	if s == nil {
		return nil
	}
	if err := wrongPlan(s, &s.Shop, ""); err != nil {
		return err
	}
	var errs []error
	for i := range s.Variants {
		errs = append(errs, wrongPlan(s, &s.Variants[i].Shop, s.Variants[i].Name+": "))
	}
	return errors.Join(errs...)
}

func wrongPlan(s *scenarios.Scenario, of *scenarios.Shop, whose string) error {
	for _, p := range []*scenarios.Plan{of.Plan, of.SeasonPlan} {
		if p == nil {
			continue
		}
		if err := p.Check(); err != nil {
			return desk.WrongPlan(s, fmt.Errorf("%s%w", whose, err))
		}
	}
	return nil
}

// slips returns a line for each value of a scenario, its variants left aside, that is possible
// and surely not meant.
func slips(sc *scenarios.Scenario) string {
	return present.SlipNotes(study.Slips(&page.AlternativesOf(sc)[0], !sc.NoWork, sc.StatesPolicy()))
}

// idleDowns returns a line for each time in which a line is down while nobody works, by the plan of the base.
func idleDowns(sc *scenarios.Scenario) string {
	if sc.Plan == nil {
		return ""
	}
	return present.IdleDownNotes(sc.Plan.Plan, sc.Plan.Starts)
}

// idleBreaks returns a line for each break of somebody who is never there then, by the plan or season of the base.
func idleBreaks(sc *scenarios.Scenario) string {
	var all []seasons.OwnBreak
	for _, p := range []*scenarios.Plan{sc.Plan, sc.SeasonPlan} {
		if p != nil {
			all = append(all, p.IdleBreaks()...)
		}
	}
	if sc.Season != nil {
		all = append(all, sc.Season.IdleBreaks()...)
	}
	return present.IdleBreakNotes(slices.Compact(all))
}

// shortRests returns a line for those who have too little rest by the plan or season of the base.
func shortRests(sc *scenarios.Scenario) string {
	var all []seasons.ShortRest
	var starts time.Time
	for _, p := range []*scenarios.Plan{sc.Plan, sc.SeasonPlan} {
		if p != nil {
			all, starts = append(all, p.ShortRests()...), p.Starts
		}
	}
	if sc.Season != nil {
		all = append(all, sc.Season.ShortRests()...)
	}
	return present.ShortRestNotes(slices.Compact(all), starts)
}
