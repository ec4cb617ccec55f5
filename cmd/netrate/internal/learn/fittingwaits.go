package learn

import (
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// waitShifts are enough to tell a wait of a percent of the standing time.
const waitShifts = 64

// waits says how much of a stop is the wait for somebody free, which the lengths of the log hold
// already and the simulation adds again: by simulation of the scenario with what was learnt. It is
// "" where clearing times are from the arrival of an operator on, and where nothing can be simulated.
func waits(x *fitting, line *model.Line, learnt []string) string {
	for i := range x.Stations {
		if x.Stations[i].Clearing.Attended > 0 {
			return ""
		}
	}
	l := line.Clone()
	if l.UncertainInputs = nil; l.Shift == 0 {
		l.Shift, l.Job = 8*3600, model.Job{}
	}
	s, err := model.New(l)
	if err != nil {
		return "" // whoever runs it will see it
	}
	var out model.Outcome
	var waited, stood, stops float64
	for shift := range waitShifts {
		if s.Run(1, shift, &out) != nil {
			return ""
		}
		for _, station := range out.Stations {
			if !slices.Contains(learnt, station.Name) {
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
	if stops == 0 || waited < 0.01*stood {
		return ""
	}
	return fmt.Sprintf("Simulated, a stop at these stations lasts %s s, %s s of it waiting for somebody free. The lengths of the log hold such a wait already, so that clearing times are some %s too long: a column arrival in the log, when an operator was there, takes it out.",
		say.TwoDigits(stood/stops), say.TwoDigits(waited/stops), say.Percent(waited/stood, 0.01))
}
