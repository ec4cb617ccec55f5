package study

import (
	"slices"

	"netrate/model"
)

// logSame are the faults of some stations by the words that people have for those of others.
var logSame = map[LogCause]LogCause{
	LogCause(model.Misfeed): LogCause(model.EnvelopeMisfeed), LogCause(model.Jam): LogCause(model.InsertionJam),
}

// logCauseAt returns the cause of the model that one of a log is at a station; false if the
// station has no such cause.
func logCauseAt(s model.Station, c LogCause) (model.Cause, bool) {
	fault, is := c.Fault()
	if !is {
		stock := s.Stocked()
		return model.CauseStock, stock.UsedUp == c.String() && (stock.Pieces || c != LogHopperEmpty)
	}
	faults := s.Counts()
	if same, other := logSame[c]; other && !slices.Contains(faults, fault) {
		fault = model.Fault(same)
	}
	return model.Cause(fault), slices.Contains(faults, fault)
}

// asLogged returns the cause that a log has where the model tells two apart.
func asLogged(c model.Cause) model.Cause {
	switch c {
	case model.CauseStreak:
		return model.CauseMisfeed
	case model.CauseFalseAlarm:
		return model.CauseMismatch
	default:
		return c
	}
}
