package lines

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
)

// answer returns what the lines came to, on one screen if it can be.
func (s *shared) answer() string {
	var b strings.Builder
	found, table, note := s.inDoubt()
	b.WriteString(title(s.Study) + "\n\n" + netRate(s.Study) + found + say.Wrapped(s.finding(), say.Screen) + "\n")
	b.WriteString(s.linesTable() + "\n" + s.sharingTable() + "\n")
	b.WriteString(say.Wrapped(s.aloneWords(), say.Screen) + "\n")
	b.WriteString(stopsTable(s.Study, shownStops) + table + "\n" + note + ending(s.field.again, s.Study))
	return b.String()
}

// inDoubt returns how far the net rate of all lines is known, as of a run of one.
func (s *shared) inDoubt() (found, table, note string) {
	if s.Uncertainty == nil {
		return "", "", page.GivenNote(s.Of.Group.Lines...)
	}
	return inDoubt(s.Uncertainty)
}

// aloneWords says what the lines are set beside.
func (s *shared) aloneWords() string {
	return fmt.Sprintf("Alone: each line with %s to itself, simulated in the same shifts with the same random events.", say.Plural(s.Operators, "operator"))
}

// linesTable returns a row for each line and one for all.
func (s *shared) linesTable() string {
	rows := [][]string{{"Good envelopes/hour", "net rate", "running", "waiting", "at work", "stops", "crew"}}
	for i := range s.Lines {
		rows = append(rows, s.row(s.Lines[i].Name, s.Lines[i].Study, 1))
	}
	return say.Columns(append(rows, s.row("all lines", s.Study, len(s.Lines))))
}

// row returns what so many lines came to: times as shares of the time of these lines, the
// crew's as a share of its own.
func (s *shared) row(name string, of *runs.Study, lines int) []string {
	share := func(figure func(*runs.Shift) float64, whole float64) string {
		e := of.Sample(figure).Interval(say.Level)
		return say.Percent(e.Mean/whole, e.Half/whole)
	}
	time := float64(of.Line.Shift) * float64(lines)
	e := of.NetRates().Interval(say.Level)
	stops := of.Sample(func(s *runs.Shift) float64 { return s.Stops }).Interval(say.Level)
	return []string{
		name, say.PlusMinus(say.Measured(e.Mean, e.Half)),
		share(func(s *runs.Shift) float64 { return s.Running }, time),
		share(func(s *runs.Shift) float64 { return s.Waiting }, time),
		share(func(s *runs.Shift) float64 { return s.Working }, time),
		say.Rough(stops.Mean, stops.Half),
		share(func(s *runs.Shift) float64 { return s.CrewBusy }, float64(of.Line.Shift)*float64(s.Operators)),
	}
}

// sharingTable sets each line beside what it is with the crew to itself.
func (s *shared) sharingTable() string {
	rows := [][]string{{"What sharing costs", "waiting", "alone", "net rate", "alone", "costs"}}
	for i := range s.Lines {
		rows = append(rows, append([]string{s.Lines[i].Name}, s.besides(i)...))
	}
	return say.Columns(rows)
}

// besides returns the waiting and the net rate of a line, shared and alone, and how much
// less it delivers.
func (s *shared) besides(i int) []string {
	shared, alone := &s.Lines[i], &s.Lines[i].Alone
	waiting := func(m study.Mean) string { return say.Rough(float64(m.Mean)/60, float64(m.Half)/60) + " min" }
	rate := func(r study.NetRate) string { return say.PlusMinus(say.Measured(float64(r.Mean), float64(r.Half))) }
	return []string{waiting(shared.Waiting), waiting(alone.Waiting), rate(shared.NetRate), rate(alone.NetRate), strings.TrimPrefix(say.Gap(alone.Cost.Estimate()), "+")}
}
