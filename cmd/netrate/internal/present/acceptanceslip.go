package present

import (
	"fmt"

	"netrate/model/study"
)

// slipFrom is how many times as fast as the good line people seem to clear where minutes may have been written for
// seconds.
const slipFrom = 20

// acceptanceSlip says of a clearing time that can be, and yet hardly is, what may have been written; "" of others.
func acceptanceSlip(a *study.AcceptanceAnswer) string {
	for i := range a.Clauses {
		c, f := &a.Clauses[i], &a.Result.Clauses[i]
		if c.Of == study.AcceptanceClearing && f.Counted && slipFrom*f.Figure < c.Good {
			return fmt.Sprintf(" LOOK AGAIN: a mean clearing time of %s s is hardly any, where a good line has %s s. Were minutes written for seconds? Want seconds, of all faults of a row together.",
				acceptanceDigits(float64(f.Figure)), acceptanceDigits(float64(c.Good)))
		}
	}
	return ""
}
