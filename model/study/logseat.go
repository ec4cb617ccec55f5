package study

import (
	"slices"
	"strings"

	"netrate/model"
)

// logSame are the faults of some stations by the words that people have for those of others.
var logSame = map[LogCause]LogCause{
	LogCause(model.Misfeed): LogCause(model.EnvelopeMisfeed), LogCause(model.Jam): LogCause(model.InsertionJam),
}

// logCauseAt returns the cause of the model that one of a log is at a station; false if the
// station has no such cause.
func logCauseAt(s model.Station, stop LogStop) (model.Cause, bool) {
	c := stop.Cause
	fault, is := c.Fault()
	if c == LogBreakdown {
		return model.CauseBreakdown, s.Downtime().Every > 0
	}
	if !is {
		return model.CauseStock, usedUp(s.Stocked(), stop)
	}
	faults := s.Counts()
	if same, other := logSame[c]; other && !slices.Contains(faults, fault) {
		fault = model.Fault(same)
	}
	return model.Cause(fault), slices.Contains(faults, fault)
}

// usedUp reports whether a stop is for a stock: a hopper empty wherever there are pieces, as a
// log has that word for a roll too.
func usedUp(stock model.Stocked, stop LogStop) bool {
	switch stop.Cause {
	case LogHopperEmpty:
		return stock.Pieces
	case LogOther:
		return stock.UsedUp != "" && strings.EqualFold(stock.UsedUp, stop.Called)
	default:
		return stock.UsedUp == stop.Cause.String()
	}
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
