package stoplog

import (
	"fmt"
	"regexp"
	"slices"

	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
)

// Twin returns the station that was most likely meant, if only one of the files has a station;
// "" if none is near. That of stops without feeds has feeds; that of feeds without stops has
// stops, but no feeds.
func Twin(l *study.Log, of *study.LogStation) string {
	counted, stopped := of.Feeds > 0, len(of.Stops) > 0
	if counted == stopped {
		return ""
	}
	var names []string
	for _, s := range l.Stations {
		meant := s.Feeds > 0
		if counted {
			meant = len(s.Stops) > 0 && s.Feeds == 0
		}
		if meant && s.Name != of.Name {
			names = append(names, s.Name)
		}
	}
	return NearestName(of.Name, names)
}

// NearestName returns the name of a station that is nearest to another as people misspell
// them, "" if none is near: feeder 1 is not feeder 2 misspelt.
func NearestName(name string, names []string) string {
	alike := slices.DeleteFunc(slices.Clone(names), func(other string) bool { return !sameNumbers(other, name) })
	return scenarios.Nearest(name, alike)
}

var numbers = regexp.MustCompile(`[1-9][0-9]*`)

func sameNumbers(a, b string) bool {
	return slices.Equal(numbers.FindAllString(a, -1), numbers.FindAllString(b, -1))
}

// Agree returns what in a log and its counts does not go together: a [study.LogError], nil if
// they do.
func Agree(l *study.Log) error {
	var counted, uncounted []string
	both, hint := false, ""
	for _, s := range l.Stations {
		stopped := len(s.Stops) > 0
		switch {
		case s.Feeds > 0:
			counted = append(counted, s.Name)
			both = both || stopped
		case stopped:
			uncounted = append(uncounted, s.Name)
		}
		if twin := Twin(l, s); hint == "" && stopped && twin != "" {
			hint = fmt.Sprintf("; is %q there %q here?", s.Name, twin)
		}
	}
	stops, counts := l.StopFile.Name, l.CountFile.Name
	switch {
	case len(counted) == 0:
		return study.LogError{Text: counts + " has no feeds of any station"}
	case len(uncounted) > 0 && !both:
		return study.LogError{Text: fmt.Sprintf("no station of %s has stops in %s: there are %s there, and %s here%s", counts, stops, model.Listed(uncounted), model.Listed(counted), hint)}
	}
	return nil
}
