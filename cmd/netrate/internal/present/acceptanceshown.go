package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/sim"
)

// Acceptance is an acceptance test as it was planned for a scenario, as it is said and drawn.
type Acceptance struct {
	*study.AcceptanceAnswer
	Origin  page.Origin
	Command string // that does it again, without the seed and the number of tests
	Judging string // that judges a test by these limits, likewise; "" of one that was run
	Fixed   string // that judges the test of fixed length, where Judging is of one that may end after each shift; likewise
	Writing string // that writes the limits after each shift which Judging reads, likewise; "" if they are written, or there are none
}

// shownStages is how many shifts a table on the screen has at most.
const shownStages = 12

// Text returns the test as a terminal has it.
func (x Acceptance) Text() string {
	a := x.AcceptanceAnswer
	tables := []plots.Table{AcceptanceClauses(a)}
	if a.Result != nil {
		tables = []plots.Table{AcceptanceFound(a), tables[0]}
		if d := a.Result.Decided; d != nil && len(d.Looks) > 0 && len(d.Looks) <= shownStages {
			tables = slices.Insert(tables, 0, AcceptanceLooks(a))
		}
	}
	if a.Stages != nil && len(a.Stages.Shifts) <= shownStages {
		tables = append(append(tables, AcceptanceStages(a)), acceptanceEnds(a)...)
	}
	basis := page.BasisNote(a.Basis)
	if a.Drawn != nil { // the notes say it
		basis = ""
	}
	var notes strings.Builder
	for _, note := range AcceptanceNotes(a) {
		notes.WriteString(say.Wrapped(note, say.Prose()))
	}
	return Screen(say.Shortened(x.Origin.Scenario.Name+": acceptance test", say.Screen()), x.finding(), tables...) +
		"\n" + notes.String() + basis + "To repeat it:\n  " + x.again() + "\n" + x.judging() + page.Caution()
}

// assumed returns what the test rests on, of the lines that are tested alone.
func (x Acceptance) assumed() []plots.Assumption {
	if x.Good.Asked > 0 { // both are made of that of the file
		return page.AssumedOfTest(x.Origin.Scenario)
	}
	return page.AssumedOfTest(x.Origin.Scenario, x.Good.Name, x.Bad.Name)
}

// again returns the command that does it again.
func (x Acceptance) again() string {
	return x.settled(x.Command)
}

// finding returns how the test is to be run or what it has shown and, of a file with a design, of which
// line that is.
func (x Acceptance) finding() string { return AcceptanceFinding(x.AcceptanceAnswer) + x.tested() }

// tested says which line of a file with a design is tested; "" of one without.
func (x Acceptance) tested() string {
	sc := x.Origin.Scenario
	switch {
	case sc.Chosen != nil:
		var names []string
		for _, name := range sc.Chosen {
			names = append(names, quotedChoice(name))
		}
		what := "Tested is the file"
		if x.Written == nil {
			what = "Tested are the lines that are named, both"
		}
		return " " + what + " with " + say.List(names) + " of its design."
	case sc.Design == nil:
		return ""
	}
	what := "Tested is the file as it stands"
	switch {
	case x.Written == nil:
		what = "Tested are the lines that are named"
	case sc.Variant != "":
		what = "Tested is its variant " + quotedChoice(sc.Variant)
	}
	return " " + what + ", with nothing of what its design offers: --choice NAME, once for each choice, tests the line with them."
}

// judging says how a test is judged by these limits; "" of one that was run.
func (x Acceptance) judging() string {
	if x.Judging == "" {
		return ""
	}
	writing := ""
	if x.Writing != "" {
		writing = "To write the limits after each shift to the file that judging reads:\n  " + x.settled(x.Writing) + "\n"
	}
	if x.Fixed != "" {
		return "To judge the test of fixed length by its limits (A):\n  " + x.settled(x.Fixed) + "\n" + writing +
			"To judge the test that may end after each shift by its limits (B):\n  " + x.settled(x.Judging) + "\n"
	}
	return writing + "To judge the test by these limits:\n  " + x.settled(x.Judging) + "\n"
}

// fixedFirst says which command judges the test of fixed length, where there are two; "" if there is one.
func (x Acceptance) fixedFirst() string {
	if x.Fixed == "" {
		return ""
	}
	return ". The contract names one of the two tests, and that one is judged. A, of fixed length, is judged by\n\n" + x.settled(x.Fixed) + "\n\nand B, which may end after each shift, by the next command"
}

// stagesFirst says which command writes the limits after each shift that judging reads; "" if that was done.
func (x Acceptance) stagesFirst() string {
	if x.Writing == "" {
		return ""
	}
	return "; the limits after each shift are in a file, which is written first, by\n\n" + x.settled(x.Writing) + "\n\nand the judging is then"
}

// settled returns a command with the seed and the number of tests.
func (x Acceptance) settled(command string) string {
	return fmt.Sprintf("%s --seed %d --reps %d", command, x.Settings.Seed, x.Settings.Reps)
}

// Rows returns a row for each clause.
func (x Acceptance) Rows() plots.Table { return AcceptanceClauses(x.AcceptanceAnswer) }

// Document returns the test as JSON has it.
func (x Acceptance) Document(version string) any {
	return acceptanceDocument{1, page.LineDocumentOf(version, x.Origin, x.finding()), x.AcceptanceAnswer}
}

// acceptanceDocument is the answer below its head.
type acceptanceDocument struct {
	Format int `json:"netrate_accept_json"`
	page.LineDocument
	*study.AcceptanceAnswer
}

// Report returns the page for the contract.
func (x Acceptance) Report(version string) (*page.Report, error) {
	a := x.AcceptanceAnswer
	plan := sim.Plan{Seed: a.Settings.Seed}
	r := page.NewReport(version, page.Opening{
		Title: x.Origin.Scenario.Name + ": acceptance test", Question: "What must the line show before it is paid for?",
		Answer: acceptanceHeadline(a), Lead: strings.TrimSpace(acceptanceMore(a) + x.tested() + " " + AcceptanceCaution(a)),
		Command: x.again(), Origins: []page.Origin{x.Origin}, Plan: &plan, Word: "test", Most: a.Settings.Reps,
		Assumptions: x.assumed(),
	})
	for _, s := range AcceptanceSections(&x, r) {
		r.Add(s)
	}
	if x.Judging != "" {
		r.Add(plots.Section{Heading: "To judge the test by these limits", Text: "The form, as a file counts.csv with its headings, is judged by this command. It has the hours and the limits in it, so that they decide, whatever else changes" + x.fixedFirst() + x.stagesFirst() + ":\n\n" + x.settled(x.Judging)})
	}
	r.Add(page.LeftOut())
	return r.Done()
}
