package study

import (
	"strings"
	"unicode"
)

// Stops without a cause are faults too, or stocks that were used up: to leave them out and to keep their
// feeds makes every rate too low, and every forecast too high. They are shared out among the causes of
// their station in proportion, as if whether a cause is written down did not depend on what it was
// (missing at random, within a station and a work). Then the stops whose cause is known are a thinned
// record: each fault comes as often in the feeds that the known ones are a share of. That is the
// estimate of the greatest likelihood, the total of a station stays as it was counted, and as what is
// seen are those with a cause alone, the interval is as wide as for so few: no narrower than it must be.
// A bound, all of them of one fault or none, would hold for each fault and say nothing of the line, for
// which their sum is known.
//
// Source: Little and Rubin, Statistical Analysis with Missing Data (2002), chapters 1 and 13 (from memory).

// Nameless reports whether nobody wrote down why the line stood: there is no letter and no digit.
func (s LogStop) Nameless() bool {
	return s.Cause == LogOther && !strings.ContainsFunc(s.Called, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) })
}

// FitNameless is how many stops of a station have no cause.
type FitNameless struct {
	Stops, Of int // of all stops of the station but planned ones
}

// namelessOf counts the stops of a station without a cause, of those that are of some work.
func (s *LogStation) namelessOf(is func(LogStop) bool) (n FitNameless) {
	for _, stop := range s.Stops {
		if stop.Cause == LogPlanned || !is(stop) {
			continue
		}
		n.Of++
		if stop.Nameless() {
			n.Stops++
		}
	}
	return n
}

// fed returns the part of a number of feeds in which the stops with a cause would have come, if those
// without one were for the same causes. Of a few stops of some work it is that of the station.
func (s *FitStation) fed(feeds int64, of FitNameless) int64 {
	if of.Of < FewFaults || of.Stops == of.Of {
		of = s.Nameless
	}
	if of.Stops == 0 || of.Stops == of.Of {
		return feeds
	}
	return max(1, partOf(feeds, int64(of.Of-of.Stops), int64(of.Of)))
}

// Nameless returns how many stops of stations whose faults are known are shared out among these, and
// of how many stops.
func (a *FitAnswer) Nameless() (all FitNameless) {
	for i := range a.Stations {
		if s := &a.Stations[i]; s.Feeds > 0 {
			all.Stops += s.Nameless.Stops
			all.Of += s.Nameless.Of
		}
	}
	return all
}

// named gives each stop without a cause that of another of its station, in turns, so that each cause has
// as many of them as of the others, as nearly as whole numbers can. Those of a station where no stop
// has a cause stay as they are. It returns how many have one now.
func named(stops []LogStop) (all []LogStop, shared int) {
	var of []LogStop // one for each cause
	seen := map[[2]string]int{}
	key := func(s LogStop) [2]string { return [2]string{s.Cause.String(), s.Called} }
	known := 0
	for _, s := range stops {
		if s.Cause == LogPlanned || s.Nameless() {
			continue
		}
		if seen[key(s)] == 0 {
			of = append(of, s)
		}
		seen[key(s)]++
		known++
	}
	if known == 0 {
		return stops, 0
	}
	given := make([]float64, len(of))
	for _, s := range stops {
		if s.Nameless() {
			most := 0
			for i := range of {
				given[i] += float64(seen[key(of[i])]) / float64(known)
				if given[i] > given[most] {
					most = i
				}
			}
			given[most]--
			s.Cause, s.Called = of[most].Cause, of[most].Called
			shared++
		}
		all = append(all, s)
	}
	return all, shared
}
