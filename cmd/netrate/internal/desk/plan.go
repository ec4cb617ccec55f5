package desk

import (
	"runtime/debug"

	"github.com/spf13/pflag"

	"netrate/scenarios"
	"netrate/sim"
)

// mostReps bounds --reps as the scenario files bound run.max.
const mostReps = 10_000_000

// mostWorkers is more than a batch of replications can keep busy.
const mostWorkers = 1000

// PlanFlags is how many shifts to simulate, on which random numbers and how many at a time.
type PlanFlags struct {
	*pflag.FlagSet
	reps      Count
	Precision Share
	seed      Seed
	workers   Count
}

// NewPlanFlags returns the flags of a run.
func NewPlanFlags(flags *pflag.FlagSet) *PlanFlags {
	o := NewFixedPlanFlags(flags, "simulate exactly this number of shifts")
	flags.Var(&o.Precision, "precision", "go on until the net rate is known to within this share of it: 0.5%")
	return o
}

// NewFixedPlanFlags returns the flags of a plan that looks at no precision; reps says in
// the help what --reps does.
func NewFixedPlanFlags(flags *pflag.FlagSet, reps string) *PlanFlags {
	o := &PlanFlags{
		FlagSet: flags,
		reps:    Count{least: 1, Most: mostReps}, workers: Count{Most: mostWorkers},
	}
	flags.Var(&o.reps, "reps", reps)
	flags.Var(&o.seed, "seed", "random seed: the same seed gives the same result")
	flags.Var(&o.workers, "workers", "number of shifts simulated at a time; 0 for one per core")
	return o
}

// Fixed returns a plan of a fixed number of shifts: the usual one, unless a flag or the
// environment says otherwise.
func (o *PlanFlags) Fixed(e Env, asked scenarios.Settings, usual int) (sim.Plan, error) {
	asked.Min, asked.Max, asked.Precision = usual, usual, 0
	return o.Plan(e, asked)
}

// manyShifts is a number of shifts whose figures take up most of the memory: they are kept to
// the end, while all else is soon thrown away. Collecting that earlier costs hardly any time.
const manyShifts = 100_000

// Plan returns what is to be run: what the flags say, else the environment, else the file.
func (o *PlanFlags) Plan(e Env, asked scenarios.Settings) (sim.Plan, error) {
	names := []string{"seed", "workers"}
	if !o.Changed("reps") && !o.Changed("precision") { // each rules out the other
		names = append(names, "reps")
		if o.Lookup("precision") != nil {
			names = append(names, "precision")
		}
	}
	if err := e.fromEnvironment(o.FlagSet, names...); err != nil {
		return sim.Plan{}, err
	}
	plan := sim.Plan{
		Seed: asked.Seed, Min: asked.Min, Max: asked.Max, Precision: asked.Precision, Workers: o.workers.Value,
	}
	switch {
	case o.Changed("reps") && o.Changed("precision"):
		return sim.Plan{}, Wrong("--reps asks for a fixed number of shifts, --precision for as many as it takes: choose one")
	case o.Changed("reps"):
		plan.Min, plan.Max, plan.Precision = o.reps.Value, o.reps.Value, 0
	case o.Changed("precision"):
		plan.Precision = float64(o.Precision)
	}
	if !o.Changed("workers") {
		plan.Workers = coresOfTask(e.Getenv)
	}
	if o.Changed("seed") {
		plan.Seed = uint64(o.seed)
	}
	if plan.Max > manyShifts {
		debug.SetGCPercent(25)
	}
	return plan, nil
}
