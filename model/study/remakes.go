package study

import (
	"cmp"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// RemakesLoss is the sets that one fault at one station cost.
type RemakesLoss struct {
	Station string
	Fault   model.Fault
	Sets    int64 // not delivered good
	Remakes int64
}

// RemakesByFault returns what sets were lost to, the most remakes first, then the most sets.
func RemakesByFault(o *model.Outcome) []RemakesLoss {
	var all []RemakesLoss
	for i := range o.Stations {
		s := &o.Stations[i]
		for f, sets := range s.Lost {
			if remakes := s.Remakes[f]; sets != 0 || remakes != 0 {
				all = append(all, RemakesLoss{s.Name, model.Fault(f), sets, remakes})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b RemakesLoss) int {
		return cmp.Or(cmp.Compare(b.Remakes, a.Remakes), cmp.Compare(b.Sets, a.Sets))
	})
	return all
}

// RemakesIn returns the remakes in a thousand sets started.
func RemakesIn(s *runs.Study) sim.Estimate {
	return PerThousand(s, func(s *runs.Shift) float64 { return s.Remakes })
}

// PerThousand returns how many there are of something in a thousand sets started.
func PerThousand(s *runs.Study, of func(*runs.Shift) float64) sim.Estimate {
	return s.Interval(func(s *runs.Shift) float64 { return 1000 * of(s) / Started(s) }, Level)
}

// Started returns the sets started in a shift, at least 1.
func Started(s *runs.Shift) float64 {
	return max(1, s.Good+s.Defective+s.Diverted+s.Outsorted+s.Spoiled+s.OnLine)
}
