package desk

import (
	"github.com/spf13/pflag"

	"netrate/scenarios"
)

// Inputs are the flags that say which scenarios a verb is about: those of files, or an example.
type Inputs struct {
	verb    string
	none    string // what is wrong where nothing is given
	several bool   // files may be named
	example string
}

// Subject is a scenario that a verb is about.
type Subject struct {
	*scenarios.Scenario
	Source []byte // the file itself
	Again  string // the command, up to the file
}

// NewInputs adds the flags of a verb that is about one file; about says in the help what is done
// with an example, and try, which may be empty, is said where nothing is given.
func NewInputs(verb string, flags *pflag.FlagSet, about, try string) *Inputs {
	o := &Inputs{verb: verb, none: verb + " takes one file, found 0" + try}
	flags.StringVar(&o.example, "example", "", about)
	return o
}

// NewSeveralInputs adds the flags of a verb that may be about several files; none is said where
// nothing is given.
func NewSeveralInputs(verb string, flags *pflag.FlagSet, about, none string) *Inputs {
	o := NewInputs(verb, flags, about, "")
	o.none, o.several = none, true
	return o
}

// Names returns what is named: files, one at least, or the example.
func (o *Inputs) Names(args []string) ([]string, error) {
	what := "a file"
	if o.several {
		what = "files"
	}
	switch {
	case o.example != "" && len(args) > 0:
		return nil, Wrong("%s takes --example or %s, not both: found %q", o.verb, what, args[0])
	case o.example != "":
		return []string{o.example}, nil
	case len(args) == 0:
		return nil, Wrong("%s", o.none)
	case len(args) > 1 && !o.several:
		return nil, Wrong("%s takes one file, found %d", o.verb, len(args))
	}
	return args, nil
}

// One reads the scenario of a verb that is about one.
func (o *Inputs) One(e Env, args []string) (Subject, error) {
	names, err := o.Names(args)
	if err != nil {
		return Subject{}, err
	}
	return o.Read(e, names[0])
}

// Read reads one of what is named. The source is there also if the scenario is wrong.
func (o *Inputs) Read(e Env, name string) (s Subject, err error) {
	if o.example != "" {
		s.Again = "netrate " + o.verb + " --example " + name
		s.Scenario, s.Source, err = LoadExample(name)
		return s, err
	}
	s.Again = "netrate " + o.verb + " " + Quoted(name)
	s.Scenario, s.Source, err = Load(e, name)
	return s, err
}

// Called returns what one of what is named is called in a message.
func (o *Inputs) Called(name string) string {
	if o.example != "" {
		return "example " + name
	}
	return ShownFile(name)
}
