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
