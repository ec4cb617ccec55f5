package page

import (
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// StationList returns how many stations of each kind there are, as they follow.
func StationList(l *model.Line) string {
	var kinds []string
	numbers := map[string]int{}
	for _, s := range l.Stations {
		kind := s.Kind().Name
		if numbers[kind]++; numbers[kind] == 1 {
			kinds = append(kinds, kind)
		}
	}
	for i, kind := range kinds {
		if n := numbers[kind]; n > 1 {
			kinds[i] = say.Plural(n, kind)
		}
	}
	return strings.Join(kinds, ", ")
}

// Limits returns what the line cannot go faster than.
func Limits(l *model.Line) string {
	speed := l.RunSpeed()
	var names []string
	if l.Speed == speed {
		names = append(names, "the speed asked for")
	}
	for _, s := range l.Stations {
		if s.Where().Rated == speed {
			names = append(names, s.Where().Name)
		}
	}
	return strings.Join(names, ", ")
}

// Attended returns the lines that a crew attends to: those of the line group, if there is one.
func Attended(line *model.Line, group *model.LineGroup) []*model.Line {
	if group != nil {
		return group.Lines
	}
	return []*model.Line{line}
}
