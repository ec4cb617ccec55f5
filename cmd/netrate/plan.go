package main

import (
	"github.com/spf13/pflag"

	"netrate/scenarios"
	"netrate/sim"
)

// mostReps bounds --reps as the scenario files bound run.max.
const mostReps = 10_000_000

// mostWorkers is more than a batch of replications can keep busy.
const mostWorkers = 1000

// planFlags is how many shifts to simulate, on which luck and how many at a time.
type planFlags struct {
	*pflag.FlagSet
	reps      count
	precision share
	seed      seed
	workers   count
}

func newPlanFlags(flags *pflag.FlagSet) *planFlags {
	o := &planFlags{
		FlagSet: flags,
		reps:    count{least: 1, most: mostReps}, workers: count{most: mostWorkers},
	}
	flags.Var(&o.reps, "reps", "simulate exactly so many shifts")
	flags.Var(&o.precision, "precision", "go on until the net rate is known to ± so much of it: 0.5%")
	flags.Var(&o.seed, "seed", "which luck: the same seed gives the same result")
	flags.Var(&o.workers, "workers", "how many shifts to simulate at a time; 0 for one a core")
	return o
}

// plan returns what is to be run: what the flags say, else the environment, else the file.
func (o *planFlags) plan(e env, asked scenarios.Settings) (sim.Plan, error) {
	names := []string{"seed", "workers"}
	if !o.Changed("reps") && !o.Changed("precision") { // each rules out the other
		names = append(names, "reps", "precision")
	}
	if err := fromEnvironment(o.FlagSet, e.getenv, names...); err != nil {
		return sim.Plan{}, err
	}
	plan := sim.Plan{
		Seed: asked.Seed, Min: asked.Min, Max: asked.Max, Precision: asked.Precision, Workers: o.workers.value,
	}
	switch {
	case o.Changed("reps") && o.Changed("precision"):
		return sim.Plan{}, wrong("--reps asks for a fixed number of shifts, --precision for as many as it takes: choose one")
	case o.Changed("reps"):
		plan.Min, plan.Max, plan.Precision = o.reps.value, o.reps.value, 0
	case o.Changed("precision"):
		plan.Precision = float64(o.precision)
	}
	if o.Changed("seed") {
		plan.Seed = uint64(o.seed)
	}
	return plan, nil
}
