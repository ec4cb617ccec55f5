package runs

import (
	"context"
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

// CourseOf runs the first replications of a study once more and returns their course, in a
// number of windows. It panics unless there is one of each at least.
func CourseOf(of *Study, replications, windows int) (*Course, error) {
	if replications < 1 || windows < 1 {
		panic(fmt.Sprintf("model: the course of %d shifts in %d windows", replications, windows))
	}
	l, seed := of.Line, of.Plan.Seed
	c := &Course{Window: l.Shift / sim.Seconds(windows), Rates: make([]sim.Sample, windows)}
	times := make([]sim.Seconds, windows)
	for i := range times {
		times[i] = l.Shift * sim.Seconds(i+1) / sim.Seconds(windows)
		c.Rates[i] = make(sim.Sample, 0, replications)
	}
	worker := func() (func(int, *[]int64) error, error) {
		s, err := model.New(of.LineOf(0))
		if err != nil {
			return nil, err
		}
		var o model.Outcome
		return func(replication int, good *[]int64) (err error) {
			if *good == nil {
				*good = make([]int64, windows)
			}
			if of.Each > 0 { // another draw, another line
				if s, err = model.New(of.LineOf(replication)); err != nil {
					return err
				}
			}
			return s.Course(seed, replication, times, *good, &o)
		}, nil
	}
	plan := sim.Plan{Seed: seed, Min: replications, Max: replications}
	_, _, err := sim.Replicate(context.Background(), plan, worker, func(_ int, good *[]int64) float64 {
		c.add(*good)
		return 0
	})
	if err != nil {
		return nil, err
	}
	return c, nil
}

// add takes in how many good sets one more shift had delivered by the end of each window.
func (c *Course) add(good []int64) {
	before := int64(0)
	for i, delivered := range good {
		c.Rates[i] = append(c.Rates[i], float64(delivered-before)*3600/float64(c.Window))
		before = delivered
	}
}
