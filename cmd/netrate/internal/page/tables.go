package page

import (
	"math"
	"slices"

	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
	"netrate/sim"
)

// Estimates in tables: people read the digits that the interval bears, and the workbook
// keeps all.

// MeanAndHalf returns an estimate as two entries of a table.
func MeanAndHalf(e sim.Estimate) []plots.Entry {
	mean, half := say.Measured(e.Mean, e.Half)
	halfWidth := HalfWidth(e.Half)
	if half == "" {
		half = "0"
	}
	if halfWidth.Text == "" {
		halfWidth.Shown = half
	}
	return []plots.Entry{{Number: e.Mean, Shown: say.WithMinus(mean)}, halfWidth}
}

// Bearing returns a figure with the digits that a half-width bears.
func Bearing(x, half float64) plots.Entry {
	return plots.Entry{Number: x, Shown: say.WithMinus(say.Rough(x, half))}
}

// PerHour is the unit of every net rate.
const PerHour = "good envelopes an hour"

// SpreadOf returns the percentiles of a sample.
func SpreadOf(s sim.Sample) plots.Percentiles {
	x := s.Sorted()
	return plots.Percentiles{P5: x.Quantile(0.05), P25: x.Quantile(0.25), P50: x.Quantile(0.5), P75: x.Quantile(0.75), P95: x.Quantile(0.95)}
}

// Words returns a text as an entry of a table.
func Words(text string) plots.Entry { return plots.Entry{Text: text} }

// Value returns a number as an entry of a table.
func Value(x float64) plots.Entry { return plots.Entry{Number: x} }

// HalfWidth returns a half-width as an entry of a table.
func HalfWidth(half float64) plots.Entry {
	if math.IsInf(half, 1) {
		return plots.Entry{Text: "not known"}
	}
	return plots.Entry{Number: half}
}

// All returns 0, 1, … n−1.
func All(n int) []int {
	var list []int
	for i := range n {
		list = append(list, i)
	}
	return list
}

// Thinned returns at most most of n indices, evenly spread and rising: the first, the
// last and the one that must be among them.
func Thinned(n, most, must int) []int {
	if n <= most {
		most = n
	}
	var all []int
	for k := range most {
		all = append(all, int(math.Round(float64(k)*float64(n-1)/float64(most-1))))
	}
	nearest := 0
	for k, i := range all {
		if far(i-must) < far(all[nearest]-must) {
			nearest = k
		}
	}
	if all[nearest] != must && (nearest == 0 || nearest == len(all)-1) {
		nearest += 1 - 2*min(1, nearest) // the ends stay
	}
	all[nearest] = must
	slices.Sort(all)
	return all
}

func far(n int) int { return max(n, -n) }
