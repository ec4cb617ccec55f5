package study

import (
	"cmp"
	"slices"

	"netrate/sim"
)

// LogStood is how often a line stood for something, and for how long in all.
type LogStood struct {
	Called  string // as the log calls it; "" of stops without a cause
	Stops   int
	Seconds sim.Seconds
}

// PlannedByCause returns for what the line was meant to stand, the longest first.
func (l *Log) PlannedByCause() []LogStood { return stood(l.planned()) }

// OthersByCause returns for what else the line stood that is no fault of the station, and not planned:
// the longest first. It is in no rate.
func (a *FitAnswer) OthersByCause() []LogStood {
	var all []LogStop
	for i := range a.Stations {
		s := &a.Stations[i]
		for _, stop := range s.Stops {
			if _, is := s.As.Fault(stop.Cause); !is && stop.Cause != LogPlanned {
				all = append(all, stop)
			}
		}
	}
	return stood(all)
}

// stood adds stops up by what they are called.
func stood(stops []LogStop) (all []LogStood) {
	for _, stop := range stops {
		i := slices.IndexFunc(all, func(x LogStood) bool { return x.Called == stop.Called })
		if i < 0 {
			i = len(all)
			all = append(all, LogStood{Called: stop.Called})
		}
		all[i].Stops++
		all[i].Seconds += stop.Seconds
	}
	slices.SortStableFunc(all, func(a, b LogStood) int { return cmp.Compare(b.Seconds, a.Seconds) })
	return all
}
