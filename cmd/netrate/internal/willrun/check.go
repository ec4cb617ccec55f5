package willrun

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
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
		if err != nil {
			errs = append(errs, err)
		} else {
			line = about.Line
			summary(e.Out, about.Scenario)
			fmt.Fprint(e.Out, slips(about.Scenario))
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

// slips returns a line for each value of a scenario, its variants left aside, that is possible
// and surely not meant.
func slips(sc *scenarios.Scenario) string {
	return present.SlipNotes(study.Slips(&page.AlternativesOf(sc)[0], !sc.NoWork, sc.StatesPolicy()))
}

// summary writes what a scenario is.
func summary(to io.Writer, sc *scenarios.Scenario) {
	fmt.Fprintf(to, "%s%s: ok\n  %s\n", desk.Premise(sc), desk.ShownFile(sc.File), sc.Name)
	if sc.LineGroup == nil {
		fmt.Fprint(to, lineText(sc.Line, crewText(sc.Line, sc.NoWork), sc.NoWork))
	} else {
		fmt.Fprintf(to, "  %s with one crew\n%s", say.Plural(len(sc.LineGroup.Lines), "line"), crewText(sc.LineGroup.Lines[0], sc.NoWork))
		for _, l := range sc.LineGroup.Lines {
			text := lineText(l, "", sc.NoWork)
			fmt.Fprintf(to, "  %s\n  %s\n", l.Name, strings.ReplaceAll(strings.TrimSuffix(text, "\n"), "\n", "\n  "))
		}
	}
	if s := sc.Season; s != nil {
		fmt.Fprintf(to, "  season of %s, %s of working time in each\n", say.Plural(len(s.Weeks), "week"), page.Hours(s.Calendar.Working()))
	}
}

// lineText returns what a line is and, if there is work for it, what it does on paper.
func lineText(l *model.Line, crew string, noWork bool) string {
	h := l.Analytic()
	text := say.Hanging("  ", say.Plural(len(l.Stations), "station")+": "+page.StationList(l), say.Screen) + "\n"
	if noWork {
		return text + crew
	}
	text += fmt.Sprintf("  %s cycles an hour, set by: %s\n", say.Exact(h.Speed), page.Limits(l)) + crew
	if l.Personalised() {
		text += fmt.Sprintf("  personalised: %s\n", strings.Join(l.Streams(), ", "))
	}
	return text + fmt.Sprintf("  on paper %s good envelopes an hour = %s × %.2f %% running × %.2f %% good\n",
		say.Exact(h.NetRate), say.Exact(h.Speed), 100*h.Efficiency, 100*h.Good)
}

// crewText returns the people and their work.
func crewText(l *model.Line, noWork bool) string {
	if noWork {
		return fmt.Sprintf("  %s; the work is the jobs\n", say.Plural(l.Crew.Operators, "operator"))
	}
	return fmt.Sprintf("  %s, %s of %s%s\n", say.Plural(l.Crew.Operators, "operator"), page.Period(l), page.Extent(l), closingWords(l))
}

// closingWords returns how the remakes of a job are closed.
func closingWords(l *model.Line) string {
	switch {
	case l.Job.Sets == 0 || !l.Personalised():
		return ""
	case l.Job.Closing == model.SecondPass:
		return ", remakes run on the line again"
	case l.Job.Closing == model.ByHand:
		return ", remakes made by hand"
	}
	return ", remakes left open"
}
