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
		tables = append(tables, AcceptanceStages(a))
	}
	basis := page.BasisNote(a.Basis)
	if a.Drawn != nil { // the notes say it
		basis = ""
	}
	var notes strings.Builder
	for _, note := range AcceptanceNotes(a) {
		notes.WriteString(say.Wrapped(note, say.Prose()))
	}
	return Screen(say.Shortened(x.Origin.Scenario.Name+": acceptance test", say.Screen()), AcceptanceFinding(a), tables...) +
		"\n" + notes.String() + basis + "To repeat it:\n  " + x.again() + "\n" + page.Caution()
}

// again returns the command that does it again.
func (x Acceptance) again() string {
	return fmt.Sprintf("%s --seed %d --reps %d", x.Command, x.Settings.Seed, x.Settings.Reps)
}

// Rows returns a row for each clause.
func (x Acceptance) Rows() plots.Table { return AcceptanceClauses(x.AcceptanceAnswer) }

// Document returns the test as JSON has it.
func (x Acceptance) Document(version string) any {
	return acceptanceDocument{1, page.LineDocumentOf(version, x.Origin, AcceptanceFinding(x.AcceptanceAnswer)), x.AcceptanceAnswer}
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
		Answer: AcceptanceFinding(a), Lead: AcceptanceCaution,
		Command: x.again(), Origins: []page.Origin{x.Origin}, Plan: &plan, Word: "test", Most: a.Settings.Reps,
		Assumptions: page.AssumedOf(x.Origin.Scenario),
	})
	for _, s := range AcceptanceSections(a, r) {
		r.Add(s)
	}
	r.Add(page.LeftOut())
	return r.Done()
}
