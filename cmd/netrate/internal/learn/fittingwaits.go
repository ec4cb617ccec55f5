package learn

import (
	"fmt"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
)

// waits says how much of a stop is the wait for somebody free. It is "" where clearing times are from
// the arrival of an operator on, and where nothing can be simulated: whoever runs it will see why.
func waits(x *fitting, line *model.Line, learnt []string) string {
	for i := range x.Stations {
		if x.Stations[i].Clearing.Attended > 0 {
			return ""
		}
	}
	a, err := study.FitWaits{Line: line, Stations: learnt}.Ask()
	if err != nil || !a.Shown() {
		return ""
	}
	return fmt.Sprintf("Simulated, a stop at these stations lasts %s s, %s s of it waiting for somebody free. The lengths of the log hold such a wait already, so that clearing times are some %s too long: a column arrival in the log, when an operator was there, takes it out.",
		say.TwoDigits(float64(a.Stop)), say.TwoDigits(float64(a.Wait)), say.Percent(float64(a.Wait/a.Stop), 0.01))
}
