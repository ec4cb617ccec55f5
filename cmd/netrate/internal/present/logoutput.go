package present

import (
	"fmt"
	"time"

	"netrate/cmd/netrate/internal/say"
)

// netRates says what the line delivered by the log itself, which a forecast is to be set beside; "" where
// the counts do not say what was good.
func (l Log) netRates(dayStarts time.Duration) string {
	var parts []string
	for _, o := range l.Output(dayStarts) {
		name := ""
		if o.Job != "" {
			name = o.Job + " "
		}
		if o.Rate() == 0 {
			parts = append(parts, fmt.Sprintf("%s%s in %s", name, say.Thousands(int(o.Good)), say.Plural(o.Periods, "period")))
			continue
		}
		parts = append(parts, fmt.Sprintf("%s%s an hour (%s in %s h)", name, say.Rounded(o.Rate(), 0), say.Thousands(int(o.Good)), say.Rounded(o.Hours, -1)))
	}
	if len(parts) == 0 {
		return ""
	}
	return "Good envelopes by the counts, in periods of one job, the time of planned stops taken out where it is known: " + say.List(parts) +
		". Set that beside the net rate that run says of the job; what this log had of breakdowns and empty hoppers is in it."
}
