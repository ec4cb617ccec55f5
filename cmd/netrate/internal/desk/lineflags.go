package desk

import (
	"github.com/spf13/pflag"

	"netrate/scenarios"
)

// LineFlags is the command line of a verb that runs one scenario in many ways, such as
// sweep.
type LineFlags struct {
	Verb string
	*PlanFlags
	*Outputs
	Example string
}

// UsualReps is how many shifts each way is run, if nothing else is asked for.
const UsualReps = 400

// NewLineFlags adds the flags of such a verb, and returns what they are read into.
func NewLineFlags(verb string, flags *pflag.FlagSet) *LineFlags {
	o := &LineFlags{Verb: verb, Outputs: &Outputs{}}
	flags.StringVar(&o.Example, "example", "", "take the example called `NAME` instead of a file")
	o.PlanFlags = NewFixedPlanFlags(flags, "simulate this number of shifts of each; 400 if not given")
	o.AddJSON(flags, "print all figures as JSON instead")
	o.AddData(flags, "csv", "write the table to `FILE`; - prints it instead")
	o.AddFiles(flags)
	return o
}

// Subject is the scenario that such a verb is about.
type Subject struct {
	*scenarios.Scenario
	Source []byte // the file itself
	Again  string // the command, up to the file
}

// Line reads the scenario of a verb that is about one line and its work.
func (o *LineFlags) Line(e Env, args []string) (Subject, error) {
	s, err := o.Subject(e, args)
	if err != nil {
		return s, err
	}
	if s.LineGroup != nil {
		return s, Wrong("%s has several lines with one crew, and %s is about one line: run and compare can do with several", ShownFile(s.File), o.Verb)
	}
	return s, WorkFor(o.Verb, s.Scenario)
}

// Subject reads the scenario.
func (o *LineFlags) Subject(e Env, args []string) (s Subject, err error) {
	if err := o.Check(); err != nil {
		return s, err
	}
	switch {
	case o.Example != "" && len(args) > 0:
		return s, Wrong("%s takes --example or a file, not both: found %q", o.Verb, args[0])
	case o.Example != "":
		s.Again = "netrate " + o.Verb + " --example " + o.Example
		s.Scenario, s.Source, err = LoadExample(o.Example)
		return s, err
	case len(args) != 1:
		return s, Wrong("%s takes one file, found %d", o.Verb, len(args))
	}
	s.Again = "netrate " + o.Verb + " " + Quoted(args[0])
	s.Scenario, s.Source, err = Load(e, args[0])
	return s, err
}
