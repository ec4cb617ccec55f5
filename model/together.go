package model

import (
	"context"
	"fmt"

	"netrate/sim"
	"netrate/sim/output"
)

// Together runs the same replications of several lines, so that a station that two of them
// have has the same luck in both, and returns a study of each, in the same order.
//
// Without a race all lines run until the net rate of the first is as precise as the plan
// asks. With one, the race is fed the net rates, lines that it drops are not run in later
// batches and their studies end there, and all ends with the race: the ending is then
// [sim.Precise] if its promise is reached. After each replication, in order, watch is
// called, if there is one, with the studies so far, which go on to grow: see [Study.Kept].
func Together(ctx context.Context, lines []*Line, plan sim.Plan, race *output.Selection, watch func(replication int, soFar []*Study)) ([]*Study, error) {
	ctx, end := context.WithCancel(ctx)
	defer end()
	studies := make([]*Study, len(lines))
	for i, l := range lines {
		studies[i] = &Study{Line: l, Plan: plan}
	}
	rates := make([]float64, len(lines))
	fold := func(replication int, outcomes *[]Outcome) float64 {
		for i := range lines {
			if o := &(*outcomes)[i]; o.Time.Shift > 0 {
				rates[i] = studies[i].fold(o)
			}
		}
		if race != nil && !race.Add(rates) {
			end()
		}
		if watch != nil {
			watch(replication, studies)
		}
		return rates[0]
	}
	worker := func() (func(int, *[]Outcome) error, error) { return newTogether(lines, plan.Seed, race) }
	_, ending, err := sim.Replicate(ctx, plan, worker, fold)
	if err != nil {
		return nil, err
	}
	if race != nil && race.Over() {
		ending = sim.AtMost
		if _, promised := race.Best(); promised {
			ending = sim.Precise
		}
	}
	for _, s := range studies {
		s.Ending = ending
	}
	return studies, nil
}

// Counting returns what is to be called with the studies so far from what is to be called with
// the number of the replication alone; nil from nil.
func Counting(watch func(replication int)) func(int, []*Study) {
	if watch == nil {
		return nil
	}
	return func(replication int, _ []*Study) { watch(replication) }
}

// newTogether returns a worker that runs one replication of every line that is still in the
// race. The outcome of a line that is not has no time in it.
func newTogether(lines []*Line, seed uint64, race *output.Selection) (func(int, *[]Outcome) error, error) {
	sims := make([]*Sim, len(lines))
	for i, l := range lines {
		s, err := New(l)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", l.Name, err)
		}
		sims[i] = s
	}
	return func(replication int, outcomes *[]Outcome) error {
		if *outcomes == nil {
			*outcomes = make([]Outcome, len(lines))
		}
		for i, s := range sims {
			o := &(*outcomes)[i]
			o.Time = Time{}
			if race != nil && !race.InRace(i) {
				continue
			}
			if err := s.Run(seed, replication, o); err != nil {
				return fmt.Errorf("%s: %w", lines[i].Name, err)
			}
		}
		return nil
	}, nil
}
