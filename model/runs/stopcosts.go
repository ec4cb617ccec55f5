package runs

import (
	"cmp"
	"slices"

	"netrate/model"
)

// StopCost is what one cause of stops at one station came to, all shifts together.
type StopCost struct {
	Name string // station and cause: "inserter, insertion jam"
	model.StopTotal
}

// StopCosts returns the causes that stopped the line, the costliest first, and where two
// cost the same in the order of the stations.
func (s *Study) StopCosts() []StopCost {
	var costs []StopCost
	for i := range s.Total.Stations {
		for cause, t := range s.Total.Stations[i].Stops {
			if t.Count > 0 {
				name := s.Total.Stations[i].Name + ", " + model.Cause(cause).Name(s.Line.Stations[i])
				costs = append(costs, StopCost{name, t})
			}
		}
	}
	slices.SortStableFunc(costs, func(a, b StopCost) int { return cmp.Compare(b.Total(), a.Total()) })
	return costs
}
