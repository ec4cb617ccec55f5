package sweeps

import (
	"errors"
	"strconv"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
)

// SensitivityVerb returns the verb sensitivity.
func SensitivityVerb() desk.Verb {
	return desk.Verb{
		Name: "sensitivity", Takes: "FILE", About: "find the rate or time of a scenario that is worth most to improve",
		Simulates: true,
		More: `Every probability and every duration of the file is divided and multiplied by the factor,
one at a time, with the same random events. The answer begins with the one that gains
most when it is divided. --reps, --seed and --workers may also be set by NETRATE_REPS and
so on. FILE may be -, which is standard input.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := &sensitivityFlags{by: study.SensitivityFactor}
			o.LineFlags = desk.NewLineFlags("sensitivity", flags)
			flags.Var(&o.by, "factor", "divide and multiply by this factor (default 2)")
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
	about, err := o.Work(e, args)
	if err != nil {
		return err
	}
	plan, err := o.Fixed(e, about.Run, desk.UsualReps)
	if err != nil {
		return err
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	question := &study.SensitivityAnalysis{Line: about.Line, Mix: about.Mix, Group: about.LineGroup, Factor: float64(o.by), Plan: plan}
	answer, ended := desk.Asked(e, page.Period(about.Line), question.Ask,
		func(a *study.SensitivityAnswer) study.Settings { return a.Settings })
	if answer == nil {
		return ended
	}
	s := present.Sensitivity{SensitivityAnswer: answer, Origin: page.OriginOf(about), Command: about.Again + o.by.again(), All: o.all}
	return errors.Join(ended, page.Tell(e, o.Outputs, s))
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

// again returns the flag that asks for the same factor.
func (f *factor) again() string {
	if *f == study.SensitivityFactor {
		return ""
	}
	return " --factor " + f.String()
}
