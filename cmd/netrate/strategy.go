package main

import (
	"context"
	"errors"

	"github.com/spf13/pflag"

	"netrate/sim"
)

func strategyVerb() verb {
	return verb{
		name: "strategy", takes: "FILE", about: "find what to answer to which fault, at an accepted risk",
		more: `A strategy is a response to every fault of every station. All that the line can have are
looked at on paper; those that may be best run the same shifts on the same luck. The best
is the one with the highest net rate of those that deliver no more defective envelopes
than --max-defective says: 2/1e6, 0.0002% or 0.000002. If it is not given, no more than
the strategy of the file delivers; a difference of 1 % is none.

How many are defective follows from the rates in the file; what takes two faults at once
is left out, unless the count of the shifts shows more. --reps, --seed and --workers may
also be set by NETRATE_REPS and so on. FILE may be -, which is standard input.`,
		prepare: func(flags *pflag.FlagSet) action {
			o := &strategyFlags{}
			flags.Var(&o.limit, "max-defective", "accept so many defective of those delivered: 2/1e6")
			o.lineFlags = newLineFlags("strategy", flags)
			return o.run
		},
	}
}

// strategyFlags is the command line of a search for a strategy.
type strategyFlags struct {
	*lineFlags
	limit part
}

func (o *strategyFlags) run(e env, args []string) error {
	about, err := o.line(e, args)
	if err != nil {
		return err
	}
	plan, err := o.fixed(e, about.Run, usualReps)
	if err != nil {
		return err
	}
	if err := o.begin(); err != nil {
		return err
	}
	defer o.drop()
	c := &choice{subject: about}
	if o.Changed("max-defective") {
		c.asked = &o.limit
	}
	c.search()
	ended := watched(e, plan.Max, period(about.Line), func(ctx context.Context, watch func(int)) (int, sim.Ending, error) {
		return c.simulate(ctx, plan, watch)
	})
	if c.contenders == nil {
		return ended
	}
	return errors.Join(ended, o.tell(e, c))
}
