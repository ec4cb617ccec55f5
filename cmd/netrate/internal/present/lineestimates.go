package present

import (
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/plots"
)

// figureEntries returns the mean of a figure that is never below zero, and its ±. Where that
// would reach below zero the interval is given instead: of defective envelopes, which are
// rare, the exact one of their count, unless they come in long runs.
func figureEntries(s *runs.Study, f runs.Figure) []plots.Entry {
	e := s.Interval(f.Of, say.Level)
	if !(e.Low() < 0) || math.IsInf(e.Half, 1) {
		return page.MeanAndHalf(e)
	}
	low, high := 0.0, e.High()
	if sets := s.Total.Sets; f.Name == "defective" && !s.Escapes().Unfound && sets.Defective > 0 {
		each := float64(sets.Good+sets.Defective) / float64(len(s.Shifts))
		low, high = s.DefectiveInterval(say.Level)
		low, high = low*each, high*each
	}
	return []plots.Entry{page.Bearing(e.Mean, high-e.Mean), page.Words(say.FewDigits(low) + " to " + say.FewDigits(high))}
}
