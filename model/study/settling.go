package study

import "netrate/model/runs"

// SettlingMean is what the first replications of a run say of the net rate.
type SettlingMean struct {
	Replications int  `json:"replications"`
	Mean         Mean `json:"net_rate_per_h"`
}

// fewestSettling is the fewest replications that a settling mean is of.
const fewestSettling = 10

// settling returns how the mean of the net rate settled as replications were added: each mean is of
// a sixth more of them than the one before, the last of all. It is nil of too few, and of draws of
// what is uncertain, whose intervals more replications do not narrow.
func settling(s *runs.Study) (all []SettlingMean) {
	rates := s.NetRates()
	if s.Each > 0 || len(rates) < 2*fewestSettling {
		return nil
	}
	for n := fewestSettling; n < len(rates); n += n/6 + 1 {
		all = append(all, SettlingMean{n, MeanOf(rates[:n].Interval(Level))})
	}
	return append(all, SettlingMean{len(rates), MeanOf(rates.Interval(Level))})
}
