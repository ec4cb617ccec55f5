package learn

import (
	"cmp"
	"slices"
	"time"

	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios/stoplog"
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

// lineStop is a stop in the order of all stops of the line.
type lineStop struct {
	station int // −1: the stop is none of those that are taken
	stop    stoplog.Stop
}

// places returns for each station when its faults stopped the line, as shares of the time
// for which the line ran, in rising order.
func (x *fitting) places() [][]float64 {
	var all []lineStop
	for i, s := range x.stations {
		for _, stop := range s.stops {
			all = append(all, lineStop{i, stop})
		}
	}
	for _, stop := range x.aside {
		all = append(all, lineStop{-1, stop})
	}
	slices.SortStableFunc(all, func(a, b lineStop) int {
		return cmp.Or(a.stop.When.Compare(b.stop.When), cmp.Compare(a.stop.Line, b.stop.Line))
	})
	places := make([][]float64, len(x.stations))
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
		if _, is := x.kindOf(x.stations[m.station]).fault(m.stop.Cause); is && total > 0 {
			places[m.station] = append(places[m.station], at/total)
		}
	}
	return places
}

// ran returns for how long the line ran before each stop but the first, in seconds.
func ran(all []lineStop) []float64 {
	var gaps []float64
	var again time.Time
	for i, m := range all {
		if i > 0 {
			gaps = append(gaps, max(0, m.stop.When.Sub(again).Seconds()))
		}
		if end := m.stop.When.Add(time.Duration(float64(m.stop.Seconds) * float64(time.Second))); end.After(again) {
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
func (x *fitting) pattern(l *learnt, places []float64) {
	switch {
	case x.quick:
		return
	case l.feeds == 0:
		l.none = "its feeds are not counted"
		return
	case len(places) < fewFaults:
		l.none = "too few stops: " + say.Thousands(len(places))
		return
	}
	var gaps []int64
	last := int64(0)
	for _, p := range places {
		gap := max(1, int64(p*float64(l.feeds))-last)
		gaps = append(gaps, gap)
		last += gap
	}
	b, err := fit.Pattern(gaps, max(0, l.feeds-last), x.seed)
	if err != nil {
		l.none = err.Error()
		return
	}
	l.bursts = &b
}

// usualP is the P below which something is said to be shown.
const usualP = 0.05

// inBursts reports whether bursts are shown. Three tests are made, so each must reach a
// third of the usual P, as in the sentence of the test.
func inBursts(b *fit.Bursts) bool {
	return b != nil && (b.DispersionP < usualP/3 && b.Dispersion > 1 ||
		b.SpreadP < usualP/3 && b.Spread > 1 || b.CorrelationP < usualP/3 && b.Correlation > 0)
}
