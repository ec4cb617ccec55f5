package present

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// Run is a run as it is said and drawn: its answer, and what was run.
type Run struct {
	*study.RunAnswer
	Origin  page.Origin
	Command string       // that runs it again, without the seed and the number of replications
	Slips   []study.Slip // what of the file is surely not meant; those of gates are said
	Room    []float64    // net rates of shifts that the figure has room for besides; of a page that shows one answer after the other
}

// Alternatives returns the line as tables and figures of several lines take it.
func (run Run) Alternatives() []study.LineAnswer {
	x := study.LineAnswer{
		Name: run.Origin.Scenario.Name, Of: study.Alternative{Name: run.Origin.Scenario.Name, Line: run.Line}, Target: run.Target,
		Study: run.Study, Nominal: run.Nominal, Draws: run.Draws, Exposures: []*study.Exposure{run.Exposure},
	}
	if run.Scenes != nil {
		x.Scenes = []study.Scenes{*run.Scenes}
	}
	return []study.LineAnswer{x}
}

// Document returns all that a run came to, as JSON has it.
func (run Run) Document(version string) any {
	return page.DocumentOf(version, run.Origin, run.RunAnswer)
}

// Rows returns a row for each shift.
func (run Run) Rows() plots.Table { return ShiftRows(nil, []*runs.Study{run.Nominal}, 0) }

// RowsNote says what the rows are not of.
func (run Run) RowsNote() string { return page.RowsAtNominal(run.Nominal, run.Uncertainty != nil) }
