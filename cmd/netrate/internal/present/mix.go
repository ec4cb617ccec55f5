package present

import (
	"cmp"
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// Mix is a line at all its jobs as it is said and drawn.
type Mix struct {
	*study.MixRunAnswer
	Origin  page.Origin
	Command string // that runs it again, without the seed and the number of replications
}

// Finding says what the line delivers.
func (m Mix) Finding() string {
	if m.Uncertainty != nil {
		return factSentences(UncertaintyIn(m.Uncertainty).found(m.AtNominal.Estimate())) + " " + m.worked()
	}
	return "The line delivers " + netRate(m.Line.NetRate) + " good envelopes an hour. " + m.worked()
}

// worked says at which work, and at what of it the line is slowest.
func (m Mix) worked() string {
	slowest := m.Line.Jobs[0]
	for _, j := range m.Line.Jobs {
		if j.NetRate.Mean < slowest.NetRate.Mean {
			slowest = j
		}
	}
	if len(m.Line.Jobs) == 1 {
		return fmt.Sprintf("It is set up for the only job with a yearly volume, %s.", slowest.Name)
	}
	return fmt.Sprintf("That is at %s together, each in its share of the yearly volume; the line is slowest at %s, with %s. "+
		"Changeovers between jobs are not included; netrate season has them.", say.Plural(len(m.Line.Jobs), "job"), slowest.Name, netRate(slowest.NetRate))
}

// Text returns what the line came to, on one screen.
func (m Mix) Text() string {
	s := m.Line.Study
	var b strings.Builder
	b.WriteString(title(s, m.Line.Nominal) + "\n\n" + factLines(found(s, m.Uncertainty, m.AtNominal)...) + say.Wrapped(m.worked(), say.Prose()) + "\n")
	b.WriteString(brief(m.JobsTable()) + "\n" + say.Wrapped("The line delivers "+exposuresBrief(m.Line.Exposures, "shift")+".", say.Prose()) + "\n" + uncertaintyText(m.Uncertainty, m.Basis) + ending(m.Command, m.Line.Nominal, m.Uncertainty != nil))
	return b.String()
}

// JobsTable returns what the line delivers of each job, and what part of the envelopes and of the
// time that is.
func (m Mix) JobsTable() plots.Table {
	t := plots.Table{
		Name: "Jobs", Caption: "Each job, for which the line is set up: its net rate with the 95 % interval, and its part of the envelopes and of the time",
		Columns: append(append([]plots.Column{{Title: "Job"}}, RateColumns("Net rate", "")...),
			plots.Column{Title: "Share", Unit: "of the envelopes", Kind: plots.Share, Decimals: 1},
			plots.Column{Title: "Share", Unit: "of the time", Kind: plots.Share, Decimals: 1},
			plots.Column{Title: "Speed", Unit: "cycles/h", Kind: plots.Number},
			plots.Column{Title: "Set by"}),
	}
	for i, j := range m.Line.Jobs {
		s := m.Line.Mix.Setups[i]
		row := append([]plots.Entry{page.Words(j.Name)}, estimated(j.NetRate.Estimate())...)
		t.Rows = append(t.Rows, append(row, page.Value(float64(j.Share)), page.Value(float64(j.Time)),
			page.Value(s.Fit.Speed), page.Words(strings.Join(s.Fit.LimitedBy, ", "))))
	}
	return t
}

// Rows returns a row for each shift, of all jobs in their parts of it.
func (m Mix) Rows() plots.Table { return ShiftRows(nil, []*runs.Study{m.Line.Nominal}, 0) }

// RowsNote says what the rows are not of.
func (m Mix) RowsNote() string { return page.RowsAtNominal(m.Line.Nominal, m.Uncertainty != nil) }

// Document returns all that it came to, as JSON has it.
func (m Mix) Document(version string) any {
	return mixDocument{page.JSONVersion, version, page.ScenarioOf(m.Origin.Scenario, m.Origin.Text), m.Finding(), m.MixRunAnswer}
}

type mixDocument struct {
	Format   int               `json:"netrate_json"`
	Version  string            `json:"version"`
	Scenario page.ScenarioJSON `json:"scenario"`
	Finding  string            `json:"finding"`
	*study.MixRunAnswer
}

// Report returns it as a page.
func (m Mix) Report(version string) (*page.Report, error) {
	s, n := m.Line.Study, m.Line.Nominal
	r := page.NewReport(version, page.Opening{
		Title: m.Origin.Scenario.Name, Question: cmp.Or(m.Origin.Scenario.Question, "How many good envelopes an hour does the line deliver at all its jobs?"), Answer: page.Partial(n) + m.Finding(),
		Lead:    "Simulated: " + page.Sample(s) + " of each job.",
		Command: fmt.Sprintf("%s --seed %d --reps %d", m.Command, n.Plan.Seed, len(n.Shifts)), Origins: []page.Origin{m.Origin},
		Plan: &n.Plan, Word: "shift", Most: len(n.Shifts),
		Assumptions: page.Assumed(page.Basis{Scenario: m.Origin.Scenario, Line: m.Line.Of.Line, Work: page.MixStatements(m.Line.Mix, m.Line.Of.Products)}),
	})
	r.Add(plots.Section{
		Heading: "Job by job",
		Text:    "The line is set up for every job, and a shift is shared by the jobs so that each makes its share of the yearly volume.",
		Figures: []*plots.Figure{r.Figure("waterfall")(waterfall(m.Line.Name, page.Sample(s), s))},
		Tables:  []plots.Table{m.JobsTable(), lossesTable([]study.LineAnswer{m.Line})},
	})
	r.Add(exposureSection([]study.LineAnswer{m.Line}))
	if m.Uncertainty != nil {
		r.Add(uncertaintySection(r, n, m.Uncertainty))
	}
	r.Add(page.LeftOut())
	return r.Done()
}
