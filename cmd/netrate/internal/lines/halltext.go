package lines

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// answer returns what the lines came to, on one screen if it can be.
func (s *shared) answer() string {
	var b strings.Builder
	found, table, note := s.inDoubt()
	b.WriteString(title(s.all) + "\n\n" + netRate(s.all) + found + say.Wrapped(s.finding(), say.Screen) + "\n")
	b.WriteString(s.linesTable() + "\n" + s.sharingTable() + "\n")
	b.WriteString(say.Wrapped(s.aloneWords(), say.Screen) + "\n")
	b.WriteString(stopsTable(s.all, shownStops) + table + "\n" + note + ending(s.field.again, s.all))
	return b.String()
}

// inDoubt returns how far the net rate of all lines is known, as of a run of one.
func (s *shared) inDoubt() (found, table, note string) {
	if s.doubt == nil {
		return "", "", page.GivenNote(s.hall.Lines...)
	}
	return inDoubt(entrant{doubt: s.doubt})
}

// aloneWords says what the lines are set beside.
func (s *shared) aloneWords() string {
	return fmt.Sprintf("Alone: each line with %s to itself, simulated in the same shifts on the same luck.", say.Plural(s.hall.Crew.Operators, "operator"))
}

// linesTable returns a row for each line and one for all.
func (s *shared) linesTable() string {
	rows := [][]string{{"Good envelopes/hour", "net rate", "running", "waiting", "at work", "stops", "crew"}}
	for _, study := range s.lines {
		rows = append(rows, s.row(study.Line.Name, study, 1))
	}
	return say.Columns(append(rows, s.row("all lines", s.all, len(s.lines))))
}

// row returns what so many lines came to: times as shares of the time of these lines, the
// crew's as a share of its own.
func (s *shared) row(name string, study *model.Study, lines int) []string {
	share := func(of func(*model.Shift) float64, whole float64) string {
		e := study.Sample(of).Interval(say.Level)
		return say.Percent(e.Mean/whole, e.Half/whole)
	}
	time := float64(study.Line.Shift) * float64(lines)
	e := study.NetRates().Interval(say.Level)
	stops := study.Sample(func(s *model.Shift) float64 { return s.Stops }).Interval(say.Level)
	return []string{
		name, say.PlusMinus(say.Measured(e.Mean, e.Half)),
		share(func(s *model.Shift) float64 { return s.Running }, time),
		share(func(s *model.Shift) float64 { return s.Waiting }, time),
		share(func(s *model.Shift) float64 { return s.Working }, time),
		say.Rough(stops.Mean, stops.Half),
		share(func(s *model.Shift) float64 { return s.CrewBusy }, float64(study.Line.Shift)*float64(s.hall.Crew.Operators)),
	}
}

// sharingTable sets each line beside what it is with the crew to itself.
func (s *shared) sharingTable() string {
	rows := [][]string{{"What sharing costs", "waiting", "alone", "net rate", "alone", "costs"}}
	for i, study := range s.lines {
		rows = append(rows, append([]string{study.Line.Name}, s.besides(i)...))
	}
	return say.Columns(rows)
}

// besides returns the waiting and the net rate of a line, shared and alone, and how much
// less it delivers.
func (s *shared) besides(i int) []string {
	waiting := func(study *model.Study) string {
		e := study.Sample(func(s *model.Shift) float64 { return s.Waiting / 60 }).Interval(say.Level)
		return say.Rough(e.Mean, e.Half) + " min"
	}
	rate := func(study *model.Study) string {
		e := study.NetRates().Interval(say.Level)
		return say.PlusMinus(say.Measured(e.Mean, e.Half))
	}
	return []string{waiting(s.lines[i]), waiting(s.alone[i]), rate(s.lines[i]), rate(s.alone[i]), strings.TrimPrefix(say.Gap(s.cost(i)), "+")}
}
