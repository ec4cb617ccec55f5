package buy

import (
	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/learn"
	"netrate/model/study"
	"netrate/scenarios/stoplog"
)

// addStops takes the stops for faults of a test from its stop log, which is read as fit reads one, and
// the clearing times if the log says of each when an operator was there.
func addStops(e desk.Env, file, mapped string, to *study.AcceptanceResult) error {
	to.Stops, to.Clearing = 0, 0
	attended := true
	err := learn.ReadStops(e, file, mapped, func(s stoplog.Stop) error {
		if _, fault := s.Cause.Fault(); !fault {
			to.Aside++
			return nil
		}
		to.Stops++
		to.Clearing += float64(s.Seconds - s.Waited)
		attended = attended && s.Attended
		return nil
	})
	if !attended || to.Stops == 0 {
		to.Clearing = -1
	}
	return err
}
