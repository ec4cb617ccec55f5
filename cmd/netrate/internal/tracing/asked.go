package tracing

import (
	"context"
	"errors"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model/study"
)

// asked are the flags that say which shifts are looked at, of which line.
type asked struct {
	*desk.Inputs
	flags  *pflag.FlagSet
	shifts shifts
	seed   desk.Seed
	start  start
}

// newAsked adds the flags of a verb; about says in the help what is done with an example, and try is
// said where nothing is given.
func newAsked(flags *pflag.FlagSet, verb, about, try string) asked {
	o := asked{flags: flags, start: usualStart}
	o.Inputs = desk.NewInputs(verb, flags, about, try)
	o.AddJob(flags)
	return o
}

// add adds the flags that say which shift it is.
func (o *asked) add() {
	o.flags.Var((*oneShift)(&o.shifts), "shift", "the shift with this number, from 0 (default 0)")
	o.flags.Var(&o.seed, "seed", "random seed, as of the run (default that of the file)")
	o.flags.Var(&o.start, "start", "when the first of them begins, for clock times (default "+usualStart.String()+")")
}

// line reads the line, or the line group, that is looked at, set up for its work.
func (o *asked) line(e desk.Env, args []string) (desk.Subject, error) {
	about, err := o.One(e, args)
	if err != nil {
		return about, err
	}
	if about.Scenario, about.Setups, err = o.SetUp(about.Scenario); err != nil {
		return about, err
	}
	return about, o.Mixed(about.Scenario)
}

// ask asks for the shifts until they are done or a signal ends it.
func (o *asked) ask(e desk.Env, about desk.Subject) (*study.TraceAnswer, error) {
	q := study.Trace{Line: about.Line, Group: about.LineGroup, Seed: about.Run.Seed, First: o.shifts.first, Last: o.shifts.last}
	if q.Group != nil {
		q.Line = nil
	}
	if o.flags.Changed("seed") {
		q.Seed = uint64(o.seed)
	}
	ctx, stop := e.UntilInterrupted()
	defer stop()
	var told func(int)
	if e.Terminal {
		bar := desk.NewProgress(e.Err, q.Last-q.First+1, "shift")
		defer bar.Stop()
		told = bar.Done
	}
	a, err := q.Ask(ctx, told)
	if err != nil && errors.Is(err, context.Cause(ctx)) {
		return nil, e.CutShort(ctx, 0, "shift")
	}
	return a, err
}
