package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"netrate/model"
	"netrate/scenarios"
)

func checkVerb() verb {
	return verb{
		name: "check", takes: "FILE…", about: "read scenario files and say what is wrong with them",
		more: `FILE may be -, which is standard input. The exit status is 2 if any file is wrong. Of a file
with jobs it says which of them run on the line, or on the lines, as it stands and in
each variant; --json, --report, --xlsx and --plots are about that, of one file.
--rules tells also of a file that is refused for a response that its line cannot have.`,
		prepare: func(flags *pflag.FlagSet) action {
			o := &checkFlags{}
			flags.StringVar(&o.example, "example", "", "check the example called `NAME` instead of a file")
			flags.BoolVar(&o.rules, "rules", false, "say what each station can answer to its faults, and why not")
			flags.BoolVar(&o.json, "json", false, "print what runs where as JSON instead")
			o.outputs = newOutputs(flags)
			return o.run
		},
	}
}

// checkFlags is the command line of a check.
type checkFlags struct {
	*outputs
	example     string
	rules, json bool
}

func (o *checkFlags) run(e env, files []string) error {
	switch {
	case o.example != "" && len(files) > 0:
		return wrong("check takes --example or files, not both: found %q", files[0])
	case o.example != "":
		files = []string{o.example}
	case len(files) == 0:
		return wrong("check wants one file or more, or --example NAME")
	}
	switch {
	case o.json || o.wanted():
		return o.covers(e, files)
	}
	var errs []string
	for _, file := range files {
		sc, text, err := o.load(e, file)
		line := scenarios.Refused(file, text)
		if err != nil {
			errs = append(errs, err.Error())
		} else {
			line = sc.Line
			summary(e.out, sc)
			fmt.Fprint(e.out, slipNotes(sc))
			if len(sc.Products) > 0 {
				willItRun(e.out, sc)
			}
		}
		if o.rules && line != nil {
			fmt.Fprintf(e.out, "\n%s", rulesOf(line).text())
		}
	}
	if len(errs) > 0 {
		return wrongInput{strings.Join(errs, "\nnetrate: ")}
	}
	return nil
}

// load reads a file, or the example of that name if one is asked for.
func (o *checkFlags) load(e env, name string) (*scenarios.Scenario, []byte, error) {
	if o.example != "" {
		return loadExample(name)
	}
	return load(e, name)
}

// command returns the command that checks a file again.
func (o *checkFlags) command(file string) string {
	if o.example != "" {
		return "netrate check --example " + o.example
	}
	return "netrate check " + quoted(file)
}

// willItRun writes which jobs run on which lines, and what their envelopes are.
func willItRun(to io.Writer, sc *scenarios.Scenario) {
	c := covered(sc)
	fmt.Fprintf(to, "\n%s\n%s%s", wrapped(c.finding(), rulesWidth), c.text(), mailText(mailpieces(c.jobs)))
}

// summary writes what a scenario is.
func summary(to io.Writer, sc *scenarios.Scenario) {
	fmt.Fprintf(to, "%s: ok\n  %s\n", sc.File, sc.Name)
	if sc.Hall == nil {
		fmt.Fprint(to, lineText(sc.Line, crewText(sc.Line, sc.NoWork), sc.NoWork))
	} else {
		fmt.Fprintf(to, "  %s with one crew\n%s", plural(len(sc.Hall.Lines), "line"), crewText(sc.Hall.Lines[0], sc.NoWork))
		for _, l := range sc.Hall.Lines {
			text := lineText(l, "", sc.NoWork)
			fmt.Fprintf(to, "  %s\n  %s\n", l.Name, strings.ReplaceAll(strings.TrimSuffix(text, "\n"), "\n", "\n  "))
		}
	}
	if s := sc.Season; s != nil {
		fmt.Fprintf(to, "  season of %s, %s of working time in each\n", plural(len(s.Weeks), "week"), hours(s.Calendar.Working()))
	}
}

// lineText returns what a line is and, if there is work for it, what it does on paper.
func lineText(l *model.Line, crew string, noWork bool) string {
	h := l.Hand()
	text := note("  ", plural(len(l.Stations), "station")+": "+stationList(l)) + "\n"
	if noWork {
		return text + crew
	}
	text += fmt.Sprintf("  %s cycles an hour, set by: %s\n", exact(h.Speed), limits(l)) + crew
	if l.Personalised() {
		text += fmt.Sprintf("  personalised: %s\n", strings.Join(l.Streams(), ", "))
	}
	return text + fmt.Sprintf("  on paper %s good envelopes an hour = %s × %.2f %% running × %.2f %% good\n",
		exact(h.NetRate), exact(h.Speed), 100*h.Efficiency, 100*h.Good)
}

// crewText returns the people and their work.
func crewText(l *model.Line, noWork bool) string {
	if noWork {
		return fmt.Sprintf("  %s; the work is the jobs\n", plural(l.Crew.Operators, "operator"))
	}
	return fmt.Sprintf("  %s, %s of %s%s\n", plural(l.Crew.Operators, "operator"), period(l), extent(l), closingWords(l))
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

// stationList returns how many stations of each kind there are, as they follow.
func stationList(l *model.Line) string {
	var kinds []string
	numbers := map[string]int{}
	for _, s := range l.Stations {
		kind, _, _ := kindOf(s)
		if numbers[kind]++; numbers[kind] == 1 {
			kinds = append(kinds, kind)
		}
	}
	for i, kind := range kinds {
		if n := numbers[kind]; n > 1 {
			kinds[i] = plural(n, kind)
		}
	}
	return strings.Join(kinds, ", ")
}

// limits returns what the line cannot go faster than.
func limits(l *model.Line) string {
	speed := l.RunSpeed()
	var names []string
	if l.Speed == speed {
		names = append(names, "the speed asked for")
	}
	for _, s := range l.Stations {
		if s.Where().Rated == speed {
			names = append(names, s.Where().Name)
		}
	}
	return strings.Join(names, ", ")
}
