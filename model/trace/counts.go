package trace

import (
	"netrate/model"
	"netrate/sim"
)

// Counts are the sets of a shift up to a moment.
type Counts struct {
	Begun int64
	Good  int64              // delivered, and as they should be
	Ended [model.Fates]int64 // by fate, as far as they have come to it; of those still on the line at the end none
}

// Counts returns the counts of all cycles that were completed by a moment.
func (s *Shift) Counts(at sim.Seconds) Counts {
	cycle := s.Completed(at)
	c := Counts{Begun: min(int64(cycle), s.Outcome.Sets.Started), Good: s.Good(at)}
	for i := range s.Sets {
		if x := &s.Sets[i]; !x.Good && x.Fate != model.OnLine && x.Cycle <= cycle {
			c.Ended[x.Fate]++
		}
	}
	return c
}
