package page

import (
	"cmp"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/plots"
	"netrate/scenarios"
	"netrate/sim"
)

// Origin is a scenario that an answer is about, and the text of its file.
type Origin struct {
	Scenario *scenarios.Scenario
	Text     []byte
	Mix      *runs.Mix // its work at the yearly volumes of its jobs; nil if it has one kind of work
}

// OriginOf returns where an answer about a subject comes from.
func OriginOf(s desk.Subject) Origin { return Origin{Scenario: s.Scenario, Text: s.Source, Mix: s.Mix} }

// Report is what is written beside an answer: a page, and the tables and figures of it.
type Report struct {
	Page    *plots.Report
	Tables  []plots.Table
	Figures []desk.NamedFigure
	Sums    []plots.Calculation // sheets of the workbook that work out their figures
	undrawn []string            // figures that are left out
	errs    []error
}

// Figure keeps a figure under a name and returns it, to be put into a section. A figure whose
// numbers are too large to be drawn is left out, and the report says so.
func (r *Report) Figure(name string) func(*plots.Figure, error) *plots.Figure {
	return func(f *plots.Figure, err error) *plots.Figure {
		if errors.Is(err, plots.ErrTooLarge) {
			r.undrawn = append(r.undrawn, name)
			return nil
		}
		if err != nil {
			r.errs = append(r.errs, fmt.Errorf("figure %s: %w", name, err))
			return nil
		}
		r.Figures = append(r.Figures, desk.NamedFigure{Name: name, Figure: f})
		return f
	}
}

// Decide puts a decision on the first page, and its table into the workbook.
func (r *Report) Decide(d *plots.Decision) {
	r.Page.Decision, r.Page.Cautions = d, nil // which it has
	r.Tables = append(r.Tables, d.Table)
}

// Unlisted returns a figure that stands on the first page alone, nil if its numbers are too large to
// be drawn: it has no file of its own.
func (r *Report) Unlisted(f *plots.Figure, err error) *plots.Figure {
	if errors.Is(err, plots.ErrTooLarge) {
		return nil
	}
	if err != nil {
		r.errs = append(r.errs, fmt.Errorf("the figure of the first page: %w", err))
		return nil
	}
	return f
}

// Add adds a section, and its tables to the workbook.
func (r *Report) Add(s plots.Section) {
	s.Figures = slices.DeleteFunc(s.Figures, func(f *plots.Figure) bool { return f == nil }) // which Figure has reported
	// A section may hold a command.
	s.Text = withoutFolders(s.Text)
	r.Page.Sections = append(r.Page.Sections, s)
	r.Tables = append(r.Tables, s.Tables...)
}

// Done returns the report, unless a figure could not be made.
func (r *Report) Done() (*Report, error) {
	if len(r.undrawn) > 0 {
		r.Page.Lead = strings.TrimSpace(r.Page.Lead + " Figures left out, because their numbers are too large to be drawn: " + say.List(r.undrawn) + ".")
	}
	r.Tables = append(r.Tables, assumptionsTable(r.Page.Assumptions), settingsTable(r.Page.Settings))
	return r, errors.Join(r.errs...)
}

// assumptionsTable returns what the answer rests on, for the workbook.
func assumptionsTable(all []plots.Assumption) plots.Table {
	t := plots.Table{Name: "Assumptions", Caption: "What the answer rests on", Columns: []plots.Column{{Title: "Assumption"}, {Title: "Value"}, {Title: "Source"}}}
	for _, a := range all {
		t.Rows = append(t.Rows, []plots.Entry{Words(a.What), Words(a.Value), Words(cmp.Or(a.Source, "not stated"))})
	}
	return t
}

// settingsTable returns what it takes to do the same again, for the workbook.
func settingsTable(all []plots.Pair) plots.Table {
	t := plots.Table{Name: "To do it again", Caption: "What it takes to do the same again", Columns: []plots.Column{{Title: "Setting"}, {Title: "Value"}}}
	for _, p := range all {
		t.Rows = append(t.Rows, []plots.Entry{Words(p.Name), Words(p.Value)})
	}
	return t
}

// Opening is what every report tells, whatever was found.
type Opening struct {
	Title, Question, Answer, Lead string

	Command     string // that does it again
	Origins     []Origin
	Plan        *sim.Plan // of what was simulated; nil if nothing was
	Word        string    // what one replication is: shift, job, season
	Most        int       // of them, of each line
	Assumptions []plots.Assumption
}

// NewReport returns a report that lacks nothing but its sections.
func NewReport(version string, o Opening) *Report {
	return &Report{Page: &plots.Report{
		Title: withoutFolders(o.Title), Question: o.Question, Answer: unbroken(o.Answer), Lead: unbroken(o.Lead),
		Assumptions: o.Assumptions, Settings: o.settings(version), Cautions: plots.Cautions(),
	}}
}

// settings returns what it takes to do the same again.
func (o *Opening) settings(version string) []plots.Pair {
	pairs := []plots.Pair{{Name: "Command", Value: withoutFolders(o.Command)}}
	for _, from := range o.Origins {
		pairs = append(pairs,
			plots.Pair{Name: "Scenario", Value: withoutFolders(desk.ShownFile(from.Scenario.File))},
			plots.Pair{Name: "SHA-256 of the scenario", Value: from.Scenario.Digest})
		pairs = append(pairs, premises(from.Scenario)...)
	}
	if o.Plan != nil {
		pairs = append(pairs,
			plots.Pair{Name: "Seed", Value: strconv.FormatUint(o.Plan.Seed, 10)},
			plots.Pair{Name: say.Capital(o.Word) + "s of each line", Value: say.Thousands(o.Most)})
	}
	return append(pairs, plots.Pair{Name: "netrate", Value: version})
}

// folder is a path up to the name of its file, at the beginning of a word.
var folder = regexp.MustCompile(`(^|[\s="'])(?:[A-Za-z]:)?(?:\.{0,2}|[^\s/\\="']*[A-Za-z_.~-][^\s/\\="']*)?[/\\](?:[^\s/\\="']+[/\\])*([^\s/\\="']*\.[A-Za-z]\w*)`)

// withoutFolders returns a text in which files stand without their folders: a page is sent to
// others, whom the folders of a machine do not concern.
func withoutFolders(text string) string { return folder.ReplaceAllString(text, "$1$2") }

// premises returns how a scenario differs from its file.
func premises(sc *scenarios.Scenario) (pairs []plots.Pair) {
	if sc.Variant != "" {
		pairs = append(pairs, plots.Pair{Name: "Taken as its variant", Value: sc.Variant})
	}
	if sc.Job != "" {
		pairs = append(pairs, plots.Pair{Name: "Set up for the job", Value: sc.Job})
	}
	for _, m := range sc.Made {
		pairs = append(pairs, plots.Pair{Name: "What if", Value: m.Path + ": " + m.Was + " → " + m.Value})
	}
	return pairs
}

// unbroken keeps numbers, their uncertainty and their percent signs on one line.
func unbroken(text string) string {
	return strings.NewReplacer(" %", "\u00a0%", " ± ", "\u00a0±\u00a0").Replace(text)
}

// LeftOut returns what the model leaves out.
func LeftOut() plots.Section {
	return LeftOutOf("Money is evaluated only where a file has costs, for its variants.")
}

// LeftOutOf is LeftOut where it is another matter what money is of.
func LeftOutOf(money string) plots.Section {
	return plots.Section{
		Heading: "What the model leaves out",
		Text: money + " Changeovers and the calendar are in the forecast of a season, and not in that of a shift or a job. " +
			"Breaks are taken out of the hours of a season; in a shift they are where they are given.\n\n" +
			"Faults are independent of each other, except for streaks of misfeeds at one feeder, and for bad lots and bad days where they are given: " +
			"other bursts are not in it, so real shifts may differ more than these.\n\n" +
			"The rates in the scenario decide the answer. Rates from memory give an answer from memory: count the stops of the line before money is spent on it.",
	}
}

// OpeningOf returns what the reports of sweep, sensitivity and strategy begin with.
func OpeningOf(from Origin, study *runs.Study, command string) Opening {
	return Opening{
		Lead: "The net rate is the good envelopes an hour of the whole " + Period(study.Line) + ". All lines were simulated with the " +
			"same random events, so that what differs is what was changed.",
		Command: fmt.Sprintf("%s --seed %d --reps %d", command, study.Plan.Seed, len(study.Shifts)),
		Origins: []Origin{from}, Plan: &study.Plan, Word: Period(study.Line), Most: len(study.Shifts),
		Assumptions: Assumed(Basis{Scenario: from.Scenario, Line: from.Scenario.Line, LineGroup: from.Scenario.LineGroup, Work: MixStatements(from.Mix, from.Scenario.Products)}),
	}
}
