package model

import (
	"context"
	"fmt"

	"netrate/sim"
)

// Together runs the same replications of several lines, so that a station that two of them
// have has the same luck in both, and returns a study of each, in the same order.
//
// After each replication, in order, it calls judge with the net rates; judge returns whether
// to go on. It may strike lines off, by setting racing[i] to false: they are not run in the
// batches of replications to come, their studies end there, and their net rates are 0 from
// then on. The precision of the plan is that of the first line's net rate. A nil judge lets
// all lines run.
func Together(ctx context.Context, lines []*Line, plan sim.Plan, judge func(replication int, netRates []float64, racing []bool)) ([]*Study, error) {
	racing := make([]bool, len(lines))
	studies := make([]*Study, len(lines))
	for i, l := range lines {
		racing[i], studies[i] = true, &Study{Line: l, Plan: plan}
	}
	worker := func() (func(int, *[]Outcome) error, error) { return newTogether(lines, plan.Seed, racing) }
	rates := make([]float64, len(lines))
	ran := make([]bool, len(lines)) // in the batch in hand
	fold := func(replication int, outcomes *[]Outcome) float64 {
		for i := range lines {
			o := &(*outcomes)[i]
			if ran[i] = o.Time.Shift > 0; !ran[i] {
				rates[i] = 0
				continue
			}
			rates[i] = o.NetRate()
			studies[i].Shifts = append(studies[i].Shifts, shiftOf(o))
			studies[i].Total.add(o)
		}
		if judge != nil {
			judge(replication, rates, racing)
		}
		return rates[0]
	}
	_, ending, err := sim.Replicate(ctx, plan, worker, fold)
	if err != nil {
		return nil, err
	}
	for _, s := range studies {
		s.Ending = ending
	}
	return studies, nil
}

// newTogether returns a worker that runs one replication of every line still racing. The
// outcome of a line that is not has no time in it.
func newTogether(lines []*Line, seed uint64, racing []bool) (func(int, *[]Outcome) error, error) {
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
			if !racing[i] {
				o.Time = Time{}
				continue
			}
			if err := s.Run(seed, replication, o); err != nil {
				return fmt.Errorf("%s: %w", lines[i].Name, err)
			}
		}
		return nil
	}, nil
}
