package study

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"netrate/sim/fit"
)

// A log does not say how many feeds lie between two stops. The time for which the line ran
// between them stands in for that, all of it taken for as many feeds as were counted. Where
// no station has stopped the line for very long, it is taken to have had a pause.

// A pause is longer than pauseLeast, and so many times the usual gap between stops
// (common practice, no source).
const (
	pauseLeast = 2 * time.Hour
	pauseGaps  = 20
)

// placedStop is a stop in the order of all stops of the line.
type placedStop struct {
	LogStop
	station int // −1: the stop is none of those that are taken
}

// places returns for each station when its faults stopped the line, as shares of the time
// for which the line ran, in rising order.
func (a *FitAnswer) places() [][]float64 {
	var all []placedStop
	var kinds []LogKind
	for i, s := range a.Log.Stations {
		kinds = append(kinds, a.Log.KindOf(s))
		for _, stop := range s.Stops {
			all = append(all, placedStop{stop, i})
		}
	}
	for _, stop := range a.Log.Aside {
		all = append(all, placedStop{stop, -1})
	}
	slices.SortStableFunc(all, func(a, b placedStop) int {
		return cmp.Or(a.When.Compare(b.When), cmp.Compare(a.Line, b.Line))
	})
	places := make([][]float64, len(a.Log.Stations))
	gaps := withoutPauses(ran(all))
	total := gaps[len(gaps)-1]
	for i, m := range all {
		if m.station < 0 { // the line ran for something else
			gaps[i] = 0
		}
		total += gaps[i]
	}
	at := 0.0
	for i, m := range all {
		if at += gaps[i]; m.station < 0 {
			continue
		}
		if _, is := kinds[m.station].Fault(m.Cause); is && total > 0 {
			places[m.station] = append(places[m.station], at/total)
		}
	}
	return places
}

// ran returns for how long the line ran before each stop but the first, in seconds.
func ran(all []placedStop) []float64 {
	var gaps []float64
	var again time.Time
	for i, m := range all {
		if i > 0 {
			gaps = append(gaps, max(0, m.When.Sub(again).Seconds()))
		}
		if end := m.When.Add(time.Duration(float64(m.Seconds) * float64(time.Second))); end.After(again) {
			again = end
		}
	}
	return gaps
}

// withoutPauses returns the gaps with a usual one in place of each pause, and of what lies
// before the first stop and after the last.
func withoutPauses(gaps []float64) []float64 {
	if len(gaps) == 0 {
		return []float64{1, 1}
	}
	sorted := slices.Sorted(slices.Values(gaps))
	longest := max(pauseLeast.Seconds(), pauseGaps*sorted[len(sorted)/2])
	sum, n := 0.0, 0.0
	for _, g := range gaps {
		if g <= longest {
			sum, n = sum+g, n+1
		}
	}
	usual := sum / max(1, n)
	whole := []float64{usual}
	for _, g := range gaps {
		if g > longest {
			g = usual
		}
		whole = append(whole, g)
	}
	return append(whole, usual)
}

// pattern looks for bursts in the stops of a station.
func (s *FitStation) pattern(places []float64, seed uint64) {
	switch {
	case s.Feeds == 0:
		s.NoBursts = "its feeds are not counted"
		return
	case len(places) < FewFaults:
		s.NoBursts = fmt.Sprintf("too few stops: %d", len(places))
		return
	}
	var gaps []int64
	last := int64(0)
	for _, p := range places {
		gap := max(1, int64(p*float64(s.Feeds))-last)
		gaps = append(gaps, gap)
		last += gap
	}
	b, err := fit.Pattern(gaps, max(0, s.Feeds-last), seed)
	if err != nil {
		s.NoBursts = err.Error()
		return
	}
	s.Bursts = &b
}

// InBursts reports whether the stops are shown to come in bursts. Three tests are made, so
// each must reach a third of the usual P, as in the sentence of the test.
func (s *FitStation) InBursts() bool {
	b := s.Bursts
	return b != nil && (b.DispersionP < ShownP/3 && b.Dispersion > 1 ||
		b.SpreadP < ShownP/3 && b.Spread > 1 || b.CorrelationP < ShownP/3 && b.Correlation > 0)
}
