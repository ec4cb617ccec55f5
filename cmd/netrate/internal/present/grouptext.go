package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
)

// Text returns what the lines came to, on one screen if it can be.
func (g Group) Text() string {
	var b strings.Builder
	table, note := g.uncertain()
	b.WriteString(title(g.Study, g.Nominal) + "\n\n" + g.delivers() + say.Wrapped(g.Finding(), say.Screen) + "\n")
	b.WriteString(g.linesTable() + "\n" + brief(g.sharingTable()) + "\n")
	b.WriteString(say.Wrapped(g.aloneWords(), say.Screen) + "\n")
	b.WriteString(stopsTable(g.Study, shownStops) + table + "\n" + note + ending(g.Command, g.Nominal, g.Uncertainty != nil))
	return b.String()
}

// delivers returns what leads, as of a run of one line.
func (g Group) delivers() string {
	if g.Uncertainty == nil {
		return netRateText(g.Study)
	}
	return UncertaintyIn(g.Uncertainty).Finding(g.AtNominal.Estimate())
}

// uncertain returns what the uncertainty of the net rate of all lines comes of.
func (g Group) uncertain() (table, note string) {
	if g.Uncertainty == nil {
		return "", page.BasisNote(g.Basis)
	}
	return uncertain(g.Uncertainty, g.Basis)
}

// aloneWords says what the lines are set beside.
func (g Group) aloneWords() string {
	return fmt.Sprintf("Alone: each line with %s to itself, simulated in the same shifts with the same random events.", say.Plural(g.Operators, "operator"))
}

// linesTable returns a row for each line and one for all.
func (g Group) linesTable() string {
	rows := [][]string{{"Good envelopes/hour", "net rate", "running", "waiting", "at work", "stops", "crew"}}
	for i := range g.Lines {
		rows = append(rows, g.row(g.Lines[i].Name, g.Lines[i].Study, 1))
	}
	return say.Columns(append(rows, g.row("all lines", g.Study, len(g.Lines))))
}

// row returns what so many lines came to: times as shares of the time of these lines, the
// crew's as a share of its own.
func (g Group) row(name string, of *runs.Study, lines int) []string {
	share := func(figure func(*runs.Shift) float64, whole float64) string {
		e := of.Interval(figure, say.Level)
		return say.Percent(e.Mean/whole, e.Half/whole)
	}
	time := float64(of.Line.Shift) * float64(lines)
	e := of.IntervalOf(of.NetRates(), say.Level)
	stops := of.Interval(func(s *runs.Shift) float64 { return s.Stops }, say.Level)
	return []string{
		name, say.PlusMinus(say.Measured(e.Mean, e.Half)),
		share(func(s *runs.Shift) float64 { return s.Running }, time),
		share(func(s *runs.Shift) float64 { return s.Waiting }, time),
		share(func(s *runs.Shift) float64 { return s.Working }, time),
		say.Rough(stops.Mean, stops.Half),
		share(func(s *runs.Shift) float64 { return s.CrewBusy }, float64(of.Line.Shift)*float64(g.Operators)),
	}
}
