package buy

import (
	"slices"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/learn"
	"netrate/model/study"
	"netrate/scenarios/stoplog"
)

// addStops takes the stops for faults of a test from its stop log, which is read as fit reads one, and
// the clearing times if the log says of each when an operator was there. In a test that may end after
// each shift they are placed in the rows of the counts, by when these ended.
func addStops(e desk.Env, file, mapped string, inRows bool, to *study.AcceptanceResult) error {
	if inRows && slices.ContainsFunc(to.Parts, func(x study.AcceptanceResult) bool { return x.Until.IsZero() }) {
		return desk.Wrong("with --sequential the counts must say when each row ended, in a column %s: the stops of the log are placed by it", untilColumn)
	}
	sums := &stopSums{attended: true}
	parts := make([]stopSums, len(to.Parts))
	for i := range parts {
		parts[i].attended = true
	}
	err := learn.ReadStops(e, file, mapped, func(s stoplog.Stop) error {
		if _, fault := s.Cause.Fault(); !fault {
			to.Aside++
			return nil
		}
		sums.add(&s)
		if !inRows {
			return nil
		}
		row := slices.IndexFunc(to.Parts, func(x study.AcceptanceResult) bool { return !s.When.After(x.Until) })
		if s.Untimed || row < 0 {
			return desk.Wrong("the stop is in none of the rows of the counts, or it is not said when it began")
		}
		parts[row].add(&s)
		return nil
	})
	sums.into(to)
	if inRows {
		for i := range parts {
			parts[i].into(&to.Parts[i])
		}
	}
	return err
}

// stopSums are sums over stops for faults.
type stopSums struct {
	stops, clearing float64
	attended        bool // of each it is said when an operator was there
}

func (x *stopSums) add(s *stoplog.Stop) {
	x.stops++
	x.clearing += float64(s.Seconds - s.Waited)
	x.attended = x.attended && s.Attended
}

// into puts the sums into a result, the clearing times if all are known.
func (x *stopSums) into(to *study.AcceptanceResult) {
	to.Stops, to.Clearing = x.stops, x.clearing
	if !x.attended {
		to.Clearing = -1
	}
}
