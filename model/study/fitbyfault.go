package study

import (
	"math"
	"slices"

	"netrate/sim/fit"
)

// FitByFault is for how long each fault of a station stopped the line, where that is shown to
// differ between them, and by much.
type FitByFault struct {
	Ranks *fit.Ranks // the test of whether it differs; nil if there are too few stops for two faults
	Times []FitClearingOf
	Rest  FitClearing // of the other faults together; without a choice if there are too few
}

// FitClearingOf is for how long one fault stopped the line.
type FitClearingOf struct {
	Called string // the fault
	Key    string // of its time, in a scenario file
	FitClearing
}

// Shown reports whether the times are shown to differ between faults.
func (f *FitByFault) Shown() bool { return len(f.Times) > 0 }

// splitP is the probability with which a fit of a whole log finds that clearing times differ by
// fault where they do not. It is small, as times of their own are known less well.
const splitP = 0.01

// splitBy is how many times as long as another one fault must take in the mean to be given a time of
// its own (common practice, no source): less hardly changes a forecast.
const splitBy = 1.5

// byFault tests whether the stops of a station lasted as long for each fault, and if not, fits the
// times of each. One test is made for each station.
func byFault(s *FitStation, stops []LogStop, stations int, seed uint64) (f FitByFault) {
	var groups [][]float64
	var times []FitClearingOf
	rest := stops
	for i, cause := range s.As.Faults {
		own := slices.DeleteFunc(slices.Clone(stops), func(x LogStop) bool { return x.Cause != cause })
		if i >= len(s.As.Clears) || s.As.Clears[i] == "" || len(own) < FewFaults {
			continue
		}
		c := FitClearingOf{cause.String(), s.As.Clears[i], clearing(own, 0, seed)}
		lengths := c.Complete()
		if c.Chosen == nil || len(lengths) < FewFaults {
			continue
		}
		groups, times = append(groups, lengths), append(times, c)
		rest = slices.DeleteFunc(slices.Clone(rest), func(x LogStop) bool { return x.Cause == cause })
	}
	if len(groups) < 2 {
		return f
	}
	ranks, err := fit.DifferInRank(groups, seed)
	if err != nil {
		return f
	}
	shortest, longest := math.Inf(1), 0.0
	for i := range times {
		mean := float64(times[i].Chosen.Mean())
		shortest, longest = min(shortest, mean), max(longest, mean)
	}
	if f.Ranks = &ranks; ranks.P < splitP/float64(stations) && longest > splitBy*shortest {
		f.Times, f.Rest = times, clearing(rest, 0, seed)
	}
	return f
}
