package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"netrate/model"
	"netrate/plots"
	"netrate/sim"
)

// report is what is written beside an answer: a page, and the tables and figures of it.
type report struct {
	page    *plots.Report
	tables  []plots.Table
	figures []namedFigure
	errs    []error
}

// figure keeps a figure under a name and returns it, to be put into a section.
func (r *report) figure(name string) func(*plots.Figure, error) *plots.Figure {
	return func(f *plots.Figure, err error) *plots.Figure {
		if err != nil {
			r.errs = append(r.errs, fmt.Errorf("figure %s: %w", name, err))
			return nil
		}
		r.figures = append(r.figures, namedFigure{name, f})
		return f
	}
}

// add adds a section, and its tables to the workbook.
func (r *report) add(s plots.Section) {
	r.page.Sections = append(r.page.Sections, s)
	r.tables = append(r.tables, s.Tables...)
}

// done returns the report, unless a figure could not be made.
func (r *report) done() (*report, error) { return r, errors.Join(r.errs...) }

// opening is what every report tells, whatever was found.
type opening struct {
	title, question, answer, lead string

	command     string // that does it again
	origins     []origin
	plan        *sim.Plan // of what was simulated; nil if nothing was
	word        string    // what one replication is: shift, job, season
	most        int       // of them, of each line
	assumptions []plots.Assumption
}

// newReport returns a report that lacks nothing but its sections.
func newReport(version string, o opening) *report {
	return &report{page: &plots.Report{
		Title: o.title, Question: o.question, Answer: unbroken(o.answer), Lead: unbroken(o.lead),
		Assumptions: o.assumptions, Settings: o.settings(version), Cautions: plots.Cautions(),
	}}
}

// settings returns what it takes to do the same again.
func (o *opening) settings(version string) []plots.Pair {
	pairs := []plots.Pair{{Name: "Command", Value: o.command}}
	for _, from := range o.origins {
		pairs = append(pairs,
			plots.Pair{Name: "Scenario", Value: from.scenario.File},
			plots.Pair{Name: "SHA-256 of the scenario", Value: from.scenario.Digest})
	}
	if o.plan != nil {
		pairs = append(pairs,
			plots.Pair{Name: "Seed", Value: strconv.FormatUint(o.plan.Seed, 10)},
			plots.Pair{Name: capital(o.word) + "s of each line", Value: thousands(o.most)})
	}
	return append(pairs, plots.Pair{Name: "netrate", Value: version})
}

// opening returns the beginning of a report on the field; the question is the one that is
// asked if the base has none.
func (f *field) opening(flags, question, answer, lead string) opening {
	o := opening{
		title: f.base().Name, question: f.base().Question, answer: answer, lead: lead,
		command: f.again + flags, origins: f.origins, plan: &f.entrants[0].study.Plan, word: f.period(), assumptions: assumptions(f),
	}
	if o.question == "" {
		o.question = question
	}
	for _, x := range f.entrants {
		o.most = max(o.most, len(x.study.Shifts))
	}
	return o
}

// unbroken keeps numbers and their percent signs on one line.
func unbroken(text string) string { return strings.ReplaceAll(text, " %", "\u00a0%") }

// runReport returns the report of a run.
func runReport(version string, f *field) (*report, error) {
	x := f.entrants[0]
	s := x.study
	sample, word := sample(s), period(s.Line)
	said := sentences(delivers(s))
	r := newReport(version, f.opening(fmt.Sprintf(" --seed %d --reps %d", s.Plan.Seed, len(s.Shifts)), "How many good envelopes an hour does this line deliver?",
		said, partial(s)+"Simulated: "+sample+". "+sentences(onPaper(s))))
	low, high := s.NetRates().Quantile(0.05), s.NetRates().Quantile(0.95)
	half := s.NetRates().Interval(level).Half
	r.add(plots.Section{
		Heading: "What it delivers",
		Text: "The mean is known to within its ±; single " + word + "s differ by chance far more than that. " +
			"More simulated " + word + "s make the ± smaller, and leave the spread of " + word + "s as it is.",
		Figures: []*plots.Figure{
			r.figure("distribution")(distribution(fmt.Sprintf("One %s in twenty falls below %s an hour, one in twenty exceeds %s",
				word, rough(low, half), rough(high, half)), sample, f.entrants)),
			r.figure("cumulative")(cumulative(sample, f.entrants, f, 0, 0)),
		},
		Tables: []plots.Table{figuresTable(s)},
	})
	r.add(plots.Section{
		Heading: "Where the rest goes", Text: whyText,
		Figures: []*plots.Figure{
			r.figure("waterfall")(waterfall("The line", sample, s)),
			r.figure("stops")(pareto("The line", sample, s)),
		},
		Tables: []plots.Table{lossesTable(f.entrants), stopsOf(x), crewTable(f.entrants)},
	})
	if x.line.Personalised() {
		r.add(lostSection(r, x))
	}
	if x.doubt != nil {
		r.add(doubtSection(r, x))
	}
	if word == "shift" {
		r.add(plots.Section{
			Heading: "How a shift goes", Text: shiftText,
			Figures: []*plots.Figure{r.figure("fan")(fan("The line", s)), r.figure("timeline")(timeline("The line", s))},
		})
	}
	r.add(leftOut())
	return r.done()
}

// The texts of sections that a run and a comparison have alike.
const (
	whyText = "Each step is what is lost on the way from the rated speed to the net rate. " +
		"Time in which the line stands is counted in envelopes that it would have made at its speed; " +
		"when several stops are open at once, the time belongs to the one that came first."
	shiftText = "The fan shows how much the rate of a short stretch differs from shift to shift; " +
		"the timeline is a single shift, as an operator would live through it."
)

// leftOut returns what the model leaves out.
func leftOut() plots.Section {
	return plots.Section{
		Heading: "What the model leaves out",
		Text: "It has no money but for what a file with costs says of its variants. Changeovers, breaks and the calendar are in the forecast of a season, and not in that of a shift or a job.\n\n" +
			"Faults are independent of each other but for streaks of misfeeds at one feeder: bursts, bad pallets and bad hours " +
			"are not in it, so real shifts may differ more than these. A shift begins with an empty track, full hoppers and empty bins.\n\n" +
			"The rates in the scenario decide the answer. Rates from memory give an answer from memory: count the stops of the line before money is spent on it.",
	}
}

// partial returns a warning if the study was interrupted.
func partial(s *model.Study) string {
	if s.Ending == sim.Cancelled {
		return "PARTIAL ANSWER: the run was interrupted. "
	}
	return ""
}

// sentences returns lines of the answer as running text.
func sentences(lines string) string {
	var all []string
	for line := range strings.Lines(lines) {
		if line = strings.Join(strings.Fields(line), " "); line != "" {
			all = append(all, line)
		}
	}
	return strings.Join(all, ". ") + "."
}
