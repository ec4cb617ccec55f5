package runs

import (
	"fmt"

	"netrate/model"
	"netrate/sim"
)

// Course is what a line delivers in the course of its shift: the shift cut into windows of
// equal length.
type Course struct {
	Window sim.Seconds
	Rates  []sim.Sample // of each window: good envelopes an hour, shift by shift
}

// CourseOf runs the first replications of a line and returns their course, in so many
// windows. It panics unless there is one of each at least.
func CourseOf(l *model.Line, seed uint64, replications, windows int) (*Course, error) {
	if replications < 1 || windows < 1 {
		panic(fmt.Sprintf("model: the course of %d shifts in %d windows", replications, windows))
	}
	s, err := model.New(l)
	if err != nil {
		return nil, err
	}
	c := &Course{Window: l.Shift / sim.Seconds(windows), Rates: make([]sim.Sample, windows)}
	times := make([]sim.Seconds, windows)
	for i := range times {
		times[i] = l.Shift * sim.Seconds(i+1) / sim.Seconds(windows)
	}
	var o model.Outcome
	for replication := range replications {
		_, good, err := s.Record(seed, replication, times, &o)
		if err != nil {
			return nil, err
		}
		before := int64(0)
		for i, delivered := range good {
			c.Rates[i] = append(c.Rates[i], float64(delivered-before)*3600/float64(c.Window))
			before = delivered
		}
	}
	return c, nil
}
