package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// Group is what several lines with one crew came to, as it is said and drawn.
type Group struct {
	*study.GroupRunAnswer
	Origin  page.Origin
	Command string       // that runs it again, without the seed and the number of replications
	Slips   []study.Slip // what of the file is surely not meant; those of gates are said
}

// Alternatives returns the lines as tables and figures of several lines take them.
func (g Group) Alternatives() []study.LineAnswer {
	var all []study.LineAnswer
	for i := range g.Lines {
		all = append(all, g.Lines[i].LineAnswer)
	}
	return all
}

// Finding says what sharing costs.
func (g Group) Finding() string {
	people := page.People(float64(g.Operators))
	cost := g.Cost.Estimate()
	switch {
	case len(g.Study.Shifts) < 2:
		return "One shift alone does not say what sharing the crew costs."
	case !say.Differs(cost):
		return fmt.Sprintf("Sharing %s is not shown to cost anything, compared with %[1]s for each line alone.", people)
	}
	return fmt.Sprintf("Sharing %s costs %s good envelopes an hour, compared with %[1]s for each line alone.", people, say.Size(cost))
}

// Document returns all that the lines came to, as JSON has it.
func (g Group) Document(version string) any {
	return page.DocumentOf(version, g.Origin, g.GroupRunAnswer)
}

// Rows returns a row for each shift and line.
func (g Group) Rows() plots.Table { return shiftRowsOf(g.Alternatives()) }

// RowsNote says what the rows are not of.
func (g Group) RowsNote() string { return page.RowsAtNominal(g.Nominal, g.Uncertainty != nil) }
