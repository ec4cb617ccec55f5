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
			flags.StringVar(&o.example, "example", "", "check the example called `NAME` instead of a file")
			flags.BoolVar(&o.rules, "rules", false, "list the responses that each station can have to its faults, and why not the others")
			o.AddJSON(flags, "print what runs where as JSON instead")
			o.AddFiles(flags)
			return o.run
		},
	}
}

// checkFlags is the command line of a check.
type checkFlags struct {
	*desk.Outputs
	example string
	rules   bool
}

func (o *checkFlags) run(e desk.Env, files []string) error {
	switch {
	case o.example != "" && len(files) > 0:
		return desk.Wrong("check takes --example or files, not both: found %q", files[0])
	case o.example != "":
		files = []string{o.example}
	case len(files) == 0:
		return desk.Wrong("check wants one file or more, or --example NAME")
	}
	switch {
	case o.JSON || o.Wanted():
		return o.covers(e, files)
	}
	var errs []error
	for _, file := range files {
		sc, text, err := o.load(e, file)
		line := scenarios.Refused(file, text)
		if err != nil {
			errs = append(errs, err)
		} else {
			line = sc.Line
			summary(e.Out, sc)
			fmt.Fprint(e.Out, slips(sc))
			if len(sc.Products) > 0 {
				fmt.Fprintf(e.Out, "\n%s", present.CoverageText(covered(sc)))
			}
		}
		if o.rules && line != nil {
			fmt.Fprintf(e.Out, "\n%s", present.RulesText(study.Rules(line)))
		}
	}
	return errors.Join(errs...)
}

// load reads a file, or the example of that name if one is asked for.
func (o *checkFlags) load(e desk.Env, name string) (*scenarios.Scenario, []byte, error) {
	if o.example != "" {
		return desk.LoadExample(name)
	}
	return desk.Load(e, name)
}

// command returns the command that checks a file again.
func (o *checkFlags) command(file string) string {
	if o.example != "" {
		return "netrate check --example " + o.example
	}
	return "netrate check " + desk.Quoted(file)
}

// slips returns a line for each value of a scenario, its variants left aside, that is possible
// and surely not meant.
func slips(sc *scenarios.Scenario) string {
	return present.SlipNotes(study.Slips(&page.AlternativesOf(sc)[0], !sc.NoWork))
}

// summary writes what a scenario is.
func summary(to io.Writer, sc *scenarios.Scenario) {
	fmt.Fprintf(to, "%s: ok\n  %s\n", desk.ShownFile(sc.File), sc.Name)
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
	h := l.Hand()
	text := say.Hanging("  ", say.Plural(len(l.Stations), "station")+": "+page.StationList(l), present.CoverageWidth) + "\n"
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
