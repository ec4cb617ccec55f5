package study

import (
	"slices"

	"netrate/model"
	"netrate/sim"
)

// FitWaits asks how much of the stops at some stations is the wait for somebody free: a log without
// arrivals holds it in the lengths of its stops, and a simulation adds it again.
type FitWaits struct {
	Line     *model.Line // with what was learnt; what is uncertain of it is left out
	Stations []string    // by their names
}

// FitWaitsAnswer is how long a stop for a fault at these stations lasts, in the mean of some shifts,
// and how much of that is the wait for somebody free. Both are 0 if there are no such stops.
type FitWaitsAnswer struct {
	Stop, Wait sim.Seconds
}

// Shown reports whether the wait is a percent of the stop or more.
func (a FitWaitsAnswer) Shown() bool { return a.Stop > 0 && a.Wait >= 0.01*a.Stop }

// waitShifts are enough to tell a wait of a percent of the standing time.
const waitShifts = 64

// Ask simulates the line. It is an error of a line that cannot be run.
func (q FitWaits) Ask() (a FitWaitsAnswer, err error) {
	l := q.Line.Clone()
	if l.UncertainInputs = nil; l.Shift == 0 {
		l.Shift, l.Job = 8*3600, model.Job{}
	}
	s, err := model.New(l)
	if err != nil {
		return a, err
	}
	var out model.Outcome
	var waited, stood, stops float64
	for shift := range waitShifts {
		if err := s.Run(1, shift, &out); err != nil {
			return a, err
		}
		for _, station := range out.Stations {
			if !slices.Contains(q.Stations, station.Name) {
				continue
			}
			for cause, t := range station.Stops {
				if model.Cause(cause) != model.CauseStock && model.Cause(cause) != model.CauseStarved {
					waited += float64(t.Waiting) - float64(float64(t.Count)*float64(l.Crew.Walk.Mean()))
					stood += float64(t.Waiting + t.Working + t.Restarting)
					stops += float64(t.Count)
				}
			}
		}
	}
	if stops == 0 {
		return a, nil
	}
	return FitWaitsAnswer{Stop: sim.Seconds(stood / stops), Wait: sim.Seconds(waited / stops)}, nil
}
