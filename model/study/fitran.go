package study

import (
	"slices"
	"time"
)

// A log does not say how many feeds lie between two stops. The time for which the line ran
// between them stands in for that: at one speed it is in proportion. Where no station has
// stopped the line for very long, it is taken to have had a pause.

// A pause is longer than pauseLeast, and than pauseGaps usual gaps between stops (common
// practice, no source).
const (
	pauseLeast = 2 * time.Hour
	pauseGaps  = 20
)

// rowOff is by how much the ends of a row may be off that is written in whole minutes.
const rowOff = time.Minute

// ranThrough reports whether the line ran although the i-th stop of all, a planned one, says that it
// stood: another began in the middle of it. Breaks are often written down as they were planned.
func ranThrough(all []placedStop, i int) bool {
	if all[i].Cause != LogPlanned {
		return false
	}
	for _, m := range all[i+1:] {
		if !m.When.Before(all[i].ends().Add(-rowOff)) {
			return false
		}
		if m.Cause != LogPlanned && m.When.After(all[i].When.Add(rowOff)) {
			return true
		}
	}
	return false
}

// RanThrough returns the number of planned stops in whose time the line ran, by other rows.
func (a *FitAnswer) RanThrough() (n int) {
	all := a.byTime()
	for i := range all {
		if !all[i].Untimed && ranThrough(all, i) {
			n++
		}
	}
	return n
}

// ran returns for how long the line ran before each stop but the first, in seconds; below 0 where rows
// overlap by no more than they may be off.
func ran(all []placedStop, off float64) []float64 {
	var gaps []float64
	var again time.Time
	for i, m := range all {
		if i > 0 {
			gap := m.When.Sub(again).Seconds()
			if gap < -off {
				gap = 0
			}
			gaps = append(gaps, gap)
		}
		end := m.ends()
		if ranThrough(all, i) {
			end = m.When
		}
		if end.After(again) {
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
