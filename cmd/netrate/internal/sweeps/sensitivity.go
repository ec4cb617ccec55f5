package sweeps

import (
	"context"
	"errors"
	"strconv"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/sim"
)

// SensitivityVerb returns the verb sensitivity.
func SensitivityVerb() desk.Verb {
	return desk.Verb{
		Name: "sensitivity", Takes: "FILE", About: "say which rate or time of a scenario is worth most to improve",
		More: `Every probability and every duration of the file is divided and multiplied by the factor,
one at a time, on the same luck. The answer begins with the one that gains most when it
is divided. --reps, --seed and --workers may also be set by NETRATE_REPS and so on. FILE
may be -, which is standard input.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := &sensitivityFlags{by: 2}
			o.LineFlags = desk.NewLineFlags("sensitivity", flags)
			flags.Var(&o.by, "factor", "divide and multiply by so much; 2 if it is not given")
			flags.BoolVar(&o.all, "all", false, "print all rates and times, not only the first 15")
			return o.run
		},
	}
}

// sensitivityFlags is the command line of a sensitivity.
type sensitivityFlags struct {
	*desk.LineFlags
	by  factor
	all bool
}

func (o *sensitivityFlags) run(e desk.Env, args []string) error {
	about, err := o.Line(e, args)
	if err != nil {
		return err
	}
	plan, err := o.Fixed(e, about.Run, desk.UsualReps)
	if err != nil {
		return err
	}
	if err := o.Begin(); err != nil {
		return err
	}
	defer o.Drop()
	s := &sensitivity{Subject: about, all: o.all}
	ended := desk.Watched(e, plan.Max, page.Period(about.Line), func(ctx context.Context, watch func(int)) (int, sim.Ending, error) {
		s.Sensitivity, err = model.Sensitivities(ctx, about.Line, plan, float64(o.by), say.Level, watch)
		if err != nil {
			return 0, 0, err
		}
		return len(s.Base.Shifts), s.Base.Ending, nil
	})
	if s.Sensitivity == nil || len(s.Base.Shifts) == 0 {
		return ended
	}
	return errors.Join(ended, page.Tell(e, o.LineFlags, s))
}

// sensitivity is what moving the rates and times of a scenario does.
type sensitivity struct {
	desk.Subject
	*model.Sensitivity
	all bool // are printed
}

// factor is a flag that something is divided and multiplied by.
type factor float64

// mostFactor keeps what is moved within what numbers can say.
const mostFactor = 1000

func (f *factor) Set(text string) error {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || !(x > 1 && x <= mostFactor) {
		return errors.New("want a number above 1, at most 1,000")
	}
	*f = factor(x)
	return nil
}

func (f *factor) String() string { return strconv.FormatFloat(float64(*f), 'g', -1, 64) }
func (f *factor) Type() string   { return "N" }
