package seasons

import (
	"context"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/order"
	"netrate/sim"
	"netrate/sim/tape"
)

// mostNear is how many orders paper finds at most by times of one length, that are looked at in the simulation.
const mostNear = 8

// An order is near the best on paper if its lateness is above the least by less than a quarter and so many hours,
// times priorities, or its end by less than a fiftieth if the soonest is looked for.
const (
	nearShare, nearHours = 0.25, 5
	nearSooner           = 0.02
)

// firstRuns and lastRuns are how often orders are simulated: all of them, and then the few that are best by then.
const (
	firstRuns, lastRuns = 10, 40
	lastFew             = 3
)

// choose takes the order that is best in the simulation, of the best on paper and those near it, by times of several
// lengths, and the one that is known; with the same random numbers, which are not those of the answer. Paper alone
// would not do: a job that ends on Friday night may end on Monday if all takes a hundredth longer, and then another
// order looks better by far. Of those that are as good the best on paper is taken.
func (m *Made) choose(ctx context.Context, how sim.Plan, shop *order.Shop, found ...[]order.Assignment) error {
	all := m.near(shop, found)
	how.Seed = ^how.Seed
	for _, runs := range []int{firstRuns, lastRuns} {
		if len(all) < 2 {
			break
		}
		comes := make(map[*Made]float64, len(all))
		for k, x := range all {
			study, err := x.simulated(ctx, how, runs)
			if err != nil {
				return err
			}
			if comes[x] = x.comesTo(study); k == 0 && x == m && comes[x] == 0 {
				return nil // nothing is better, as far as that shows
			}
		}
		m.Tried = max(m.Tried, len(all))
		slices.SortStableFunc(all, func(a, b *Made) int { return compared(comes[a], comes[b]) })
		all = all[:min(len(all), lastFew)]
	}
	if !all[0].Same(m.Assignment) {
		bounds := m.Bounds
		m.Assignment, m.Other = all[0].Assignment, true
		m.Bounds = bounds // of any order
	}
	return nil
}

// compared orders what plans come to; what differs by rounding alone is as good.
func compared(a, b float64) int {
	switch gap := 1e-9 * (math.Abs(a) + math.Abs(b)); {
	case math.IsInf(a, 1) && math.IsInf(b, 1) || math.Abs(a-b) <= gap && !math.IsInf(gap, 1):
		return 0
	case a < b:
		return -1
	}
	return 1
}

// near returns the plan in each order that is looked at, all different, its own first. Of what is found by times of
// one length those are near that are so by these.
func (m *Made) near(shop *order.Shop, found [][]order.Assignment) []*Made {
	all := []*Made{m}
	add := func(orders [][]int) {
		own := *m
		own.Assignment = shop.Value(orders)
		if !slices.ContainsFunc(all, func(x *Made) bool { return x.Same(own.Assignment) }) {
			all = append(all, &own)
		}
	}
	for _, these := range found {
		best := these[0]
		for _, a := range these {
			if m.Plan.Shortest && a.Done <= best.Done*(1+nearSooner) || !m.Plan.Shortest && a.Cost <= float64(best.Cost*(1+nearShare))+nearHours {
				add(a.Order)
			}
		}
	}
	if m.Plan.Known != nil {
		add(m.Plan.Known)
	}
	return all
}

// comesTo returns what is looked for, in the mean: hours of lateness, times priorities, or when the last job is
// finished.
func (m *Made) comesTo(study *TogetherStudy) float64 {
	if m.Plan.Shortest {
		return study.Finished.Mean()
	}
	late := 0.0
	for j := range study.Jobs {
		for _, at := range study.Jobs[j].Finished {
			late += m.Plan.lateness(m.Horizon, j, sim.Seconds(at))
		}
	}
	return late / float64(study.Done)
}

// simulated simulates the plan so often. It is no part of the answer, and on no tape.
func (m *Made) simulated(ctx context.Context, how sim.Plan, runs int) (*TogetherStudy, error) {
	study, err := RunTogether(tape.Here(ctx), m.Together(), sim.Plan{Seed: how.Seed, Min: runs, Max: runs, Workers: how.Workers}, nil)
	if err == nil && study.Ending == sim.Cancelled {
		err = context.Cause(ctx)
	}
	return study, err
}

// worked returns how long the line is at its jobs that is so longest, replication by replication: without the time in which they are
// down, or wait for a changeover of which nobody is there who may do some piece.
func (m *Made) worked(study *TogetherStudy) sim.Sample {
	down := m.Plan.down(m.Horizon)
	longest := make(sim.Sample, study.Done)
	for i, jobs := range m.Order {
		all := make(sim.Sample, study.Done)
		for _, j := range jobs {
			x := &study.Jobs[j]
			for r := range all {
				first := min(x.First[r], x.Free[r])
				all[r] += first - x.Begun[r] - within(x.Begun[r], first, x.Barred.Some)
				all[r] += x.Free[r] - first
				if down != nil {
					all[r] -= within(first, x.Free[r], down[i])
				}
			}
		}
		for r := range all {
			longest[r] = max(longest[r], all[r])
		}
	}
	return longest
}

// within returns how much of a time is in some stretches.
func within(from, to float64, stretches []model.Stretch) (sum float64) {
	for _, s := range stretches {
		sum += max(0, min(to, float64(s.To))-max(from, float64(s.From)))
	}
	return sum
}
