package desk

import (
	"github.com/spf13/pflag"

	"netrate/model/study"
)

// LineFlags is the command line of a verb that runs one scenario in many ways, such as
// sweep.
type LineFlags struct {
	*PlanFlags
	*Inputs
	*Outputs
}

// UsualReps is how many shifts each way is run, if nothing else is asked for.
const UsualReps = 400

// NewLineFlags adds the flags of such a verb, and returns what they are read into.
func NewLineFlags(verb string, flags *pflag.FlagSet) *LineFlags {
	o := &LineFlags{Inputs: NewInputs(verb, flags, "use the example called `NAME` instead of a file", ""), Outputs: &Outputs{}}
	o.AddJob(flags)
	o.PlanFlags = NewFixedPlanFlags(flags, "simulate this number of shifts of each (default 400)")
	o.AddJSON(flags, "print all figures as JSON instead")
	o.AddData(flags, "csv", "write the table to `FILE`; - prints it instead")
	o.AddFiles(flags)
	return o
}

// Line reads the scenario of a verb that is about one line, which may work at all jobs that have a
// yearly volume.
func (o *LineFlags) Line(e Env, args []string) (Subject, error) {
	s, err := o.Work(e, args)
	if err == nil && s.LineGroup != nil {
		err = WrongAt(s.Scenario, []string{"lines"}, "the file has several lines with one crew, and %s is about one line: run, compare, strategy, sweep and sensitivity take several", o.verb)
	}
	return s, err
}

// Work reads the scenario of a verb that is about one line, or about several with one crew.
func (o *LineFlags) Work(e Env, args []string) (Subject, error) {
	s, err := o.Subject(e, args)
	if err != nil {
		return s, err
	}
	if s.Scenario, s.Setups, err = o.SetUp(s.Scenario); err != nil {
		return s, err
	}
	o.Premise += WithoutYear(s.Scenario)
	if s.LineGroup != nil {
		o.Premise += SetUpFor(s.Setups, s.LineGroup.Lines)
		return s, nil
	}
	if s.Mix, err = (study.Alternative{Name: s.Name, Line: s.Scenario.Line, Costs: s.Costs, Products: s.Products}).Mix(); err != nil {
		return s, WrongAsked(s.Scenario, err)
	}
	o.Premise += SetUpFor(s.Setups, nil) + AtJobs(s.Mix)
	return s, nil
}

// Subject reads the scenario.
func (o *LineFlags) Subject(e Env, args []string) (Subject, error) {
	if err := o.Check(); err != nil {
		return Subject{}, err
	}
	s, err := o.One(e, args)
	if err == nil {
		o.Premise = Premise(s.Scenario)
	}
	return s, err
}
