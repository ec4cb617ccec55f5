package study

import "netrate/model"

// LogCause is why a line stopped as a log has it: a fault of the model from misfeed to
// mismatch, a stock, a breakdown, or something else.
type LogCause int

// The causes that are no faults.
const (
	LogHopperEmpty = LogCause(model.Mismatch) + 1 + iota
	LogBinFull
	LogBeltFull
	LogBreakdown // what needs a technician
	LogPlanned   // a break, a changeover, maintenance: what was meant to be
	LogOther     // everything else
	LogCauses    // the number of causes
)

var logStockNames = [...]string{"hopper empty", "bin full", "belt full", "breakdown", "planned", "other"}

// String returns the name of the cause, in the words of the model.
func (c LogCause) String() string {
	if fault, is := c.Fault(); is {
		return fault.String()
	}
	return logStockNames[c-LogHopperEmpty]
}

// Fault returns the fault of the model that the cause is; false if it is a stock that was
// used up, or something else.
func (c LogCause) Fault() (model.Fault, bool) {
	return model.Fault(c), c >= LogCause(model.Misfeed) && c <= LogCause(model.Mismatch)
}
