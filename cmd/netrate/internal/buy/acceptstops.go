package buy

import (
	"errors"
	"fmt"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model/study"
	"netrate/scenarios"
	"netrate/scenarios/stoplog"
)

// addStops takes the stops for faults of a test from its stop log, and the clearing times if the log
// says of each when an operator was there. A log needs the usual headings.
func addStops(e desk.Env, file string, to *study.AcceptanceResult) error {
	from, err := e.Open(file)
	if err != nil {
		return err
	}
	defer func() { _ = from.Close() }() // it was only read
	to.Stops, to.Clearing = 0, 0
	attended := true
	_, err = stoplog.Read(from, stoplog.Mapping{File: desk.ShownFile(file)}, func(s stoplog.Stop) error {
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
	var problems scenarios.Problems
	switch {
	case errors.As(err, &problems):
		fmt.Fprintln(e.Err, problems.Error())
		return desk.Wrong("%s cannot be read: see above", desk.ShownFile(file))
	case err != nil:
		return desk.Wrong("%v", err)
	}
	return nil
}
