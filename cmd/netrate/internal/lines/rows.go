package lines

import (
	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/plots"
)

// shiftByShift returns a question that writes the rows of each replication as soon as it is done,
// if a file of them is wanted; names are nil of a single line.
func shiftByShift[A any](o *desk.Outputs, names []string, ask page.Asks[A]) page.Asks[A] {
	return page.Growing(o, ask, func(s study.Sofar[A]) (t plots.Table, are bool) {
		if s.Replication == nil {
			return t, false
		}
		return present.ShiftRows(names, s.Replication(), s.Done-1), true
	})
}
