package seasons

import (
	"context"
	"math"

	"netrate/model/order"
	"netrate/sim"
	"netrate/sim/tape"
)

// contender is an order of the jobs of a plan that is simulated to choose one. All of a plan have the same
// random numbers, replication by replication.
type contender struct {
	*Made
	comes sim.Sample // to what each replication comes, see [Made.came]
	work  *togetherPlan
}

func (m *Made) contender(a order.Assignment) *contender {
	own := *m
	own.Assignment = a
	return &contender{Made: &own}
}

// run simulates it until there are so many replications. It is no part of the answer, and on no tape.
func (c *contender) run(ctx context.Context, how sim.Plan, runs int) (err error) {
	if len(c.comes) >= runs {
		return nil
	}
	if c.work == nil {
		if c.work, err = c.Together().setUp(); err != nil {
			return err
		}
	}
	fold := func(_ int, work *togetherWork) float64 {
		came := c.came(work)
		c.comes = append(c.comes, came)
		return came
	}
	_, ending, err := sim.Resume(tape.Here(ctx), sim.Plan{Seed: how.Seed, Min: runs, Max: runs, Workers: how.Workers}, c.comes, c.work.worker(how.Seed), fold, false)
	if err == nil && ending == sim.Cancelled {
		err = context.Cause(ctx)
	}
	return err
}

// mean returns to what it comes in the mean of the first replications, which it must have.
func (c *contender) mean(runs int) float64 { return c.comes[:runs].Mean() }

// compared compares to what two come in the mean of the first replications; what differs by rounding alone is as good.
func (c *contender) compared(other *contender, runs int) int {
	a, b := c.mean(runs), other.mean(runs)
	switch gap := 1e-9 * (math.Abs(a) + math.Abs(b)); {
	case math.IsInf(a, 1) && math.IsInf(b, 1) || math.Abs(a-b) <= gap && !math.IsInf(gap, 1):
		return 0
	case a < b:
		return -1
	}
	return 1
}

// behind reports whether it is shown to be behind another by the first replications: by more than two standard errors
// of the difference, replication by replication.
func (c *contender) behind(other *contender, runs int) bool {
	if c.compared(other, runs) <= 0 {
		return false
	}
	gaps := make(sim.Sample, runs)
	for r := range gaps {
		gaps[r] = c.comes[r] - other.comes[r]
	}
	return !(gaps.Mean() <= 2*gaps.SD()/math.Sqrt(float64(runs))) // of what never ends too
}

// came returns what a replication comes to in what is looked for: hours of lateness, times priorities, or when the
// last job is finished, in seconds of working time.
func (m *Made) came(work *togetherWork) (sum float64) {
	late := m.Plan.late(m.Horizon)
	for i, jobs := range m.Order {
		for k, j := range jobs {
			at := work.lines[i][k].Finished
			if m.Plan.Shortest {
				sum = max(sum, float64(at))
			} else {
				sum += late(j, at)
			}
		}
	}
	return sum
}
