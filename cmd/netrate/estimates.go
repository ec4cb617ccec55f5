package main

import (
	"math"
	"strings"

	"netrate/model"
	"netrate/plots"
	"netrate/sim"
)

// Estimates in tables: people read the digits that the interval bears, and the workbook
// keeps all.

// meanAndHalf returns an estimate as two entries of a table.
func meanAndHalf(e sim.Estimate) []plots.Entry {
	mean, half := measured(e.Mean, e.Half)
	doubt := doubtEntry(e.Half)
	if half == "" {
		half = "0"
	}
	if doubt.Text == "" {
		doubt.Shown = half
	}
	return []plots.Entry{{Number: e.Mean, Shown: withMinus(mean)}, doubt}
}

// bearing returns a figure with the digits that a half-width bears.
func bearing(x, half float64) plots.Entry {
	return plots.Entry{Number: x, Shown: withMinus(rough(x, half))}
}

// withMinus returns a number with a true minus sign, and 0 without one.
func withMinus(number string) string {
	if !strings.ContainsAny(number, "123456789") {
		return strings.TrimPrefix(number, "-")
	}
	return strings.Replace(number, "-", "−", 1)
}

// figureEntries returns the mean of a figure that is never below zero, and its ±. Where that
// would reach below zero the interval is told instead: of defective envelopes, which are
// rare, the exact one of their count, unless they come in long runs.
func figureEntries(s *model.Study, f model.Figure) []plots.Entry {
	e := s.Sample(f.Of).Interval(level)
	if !(e.Low() < 0) || math.IsInf(e.Half, 1) {
		return meanAndHalf(e)
	}
	low, high := 0.0, e.High()
	if sets := s.Total.Sets; f.Name == "defective" && !s.Escapes().Unfound && sets.Defective > 0 {
		each := float64(sets.Good+sets.Defective) / float64(len(s.Shifts))
		low, high = sim.ExactInterval(sets.Defective, sets.Good+sets.Defective, level)
		low, high = low*each, high*each
	}
	return []plots.Entry{bearing(e.Mean, high-e.Mean), words(fewDigits(low) + " to " + fewDigits(high))}
}
