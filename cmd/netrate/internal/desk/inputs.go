package desk

import (
	"errors"

	"github.com/spf13/pflag"

	"netrate/model/runs"
	"netrate/model/setup"
	"netrate/scenarios"
)

// Inputs are the flags that say which scenarios a verb is about: those of files, or an example.
type Inputs struct {
	verb    string
	none    string // what is wrong where nothing is given
	several bool   // files may be named
	example string
	as      string   // the variant as which a file is taken; "" for none
	only    []string // the variants that are taken of a file, of a verb that compares them
	set     []string // PATH=VALUE, in the order in which they are made
	jobs    []string // NAME, or LINE=NAME
	choices []string // of the design
}

// Subject is a scenario that a verb is about.
type Subject struct {
	*scenarios.Scenario
	Source []byte // the file itself
	Again  string // the command, up to the file

	Setups []*setup.Setup // for which its lines are set up; nil if they are as they stand
	Mix    *runs.Mix      // its work at the yearly volumes of its jobs; nil if it has one kind of work
}

// NewInputs adds the flags of a verb that is about one file; about says in the help what is done
// with an example, and try, which may be empty, is said where nothing is given.
func NewInputs(verb string, flags *pflag.FlagSet, about, try string) *Inputs {
	o := newInputs(verb, flags, about)
	o.none = verb + " takes one file, found 0" + try
	flags.StringVar(&o.as, "variant", "", "use the variant `NAME` of the file, not the file as it stands")
	o.addSet(flags)
	return o
}

func newInputs(verb string, flags *pflag.FlagSet, about string) *Inputs {
	o := &Inputs{verb: verb}
	flags.StringVar(&o.example, "example", "", about)
	return o
}

func (o *Inputs) addSet(flags *pflag.FlagSet) {
	flags.StringArrayVar(&o.set, "set", nil, "what if: `PATH=VALUE` takes the place of a value in the file; may be repeated")
}

// AddChoices adds the flag that takes the line with choices of its design.
func (o *Inputs) AddChoices(flags *pflag.FlagSet) {
	flags.StringArrayVar(&o.choices, "choice", nil, "use the line with the choice `NAME` of its design, not as it stands; may be repeated")
}

// NewSeveralInputs adds the flags of a verb that may be about several files; none is said where
// nothing is given.
func NewSeveralInputs(verb string, flags *pflag.FlagSet, about, none string) *Inputs {
	o := NewInputs(verb, flags, about, "")
	o.none, o.several = none, true
	return o
}

// NewComparedInputs adds those of a verb that compares files, or the variants of one.
func NewComparedInputs(verb string, flags *pflag.FlagSet, about, none string) *Inputs {
	o := newInputs(verb, flags, about)
	o.none, o.several = none, true
	flags.StringArrayVar(&o.only, "variant", nil, "compare only the variant `NAME` of the file with its base; may be repeated")
	o.addSet(flags)
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

// Read reads one of what is named, and takes it as the flags say. The source is there also if the
// scenario is wrong.
func (o *Inputs) Read(e Env, name string) (s Subject, err error) {
	if o.example != "" {
		s.Again = "netrate " + o.verb + " --example " + name
		s.Scenario, s.Source, err = LoadExample(name)
	} else {
		s.Again = "netrate " + o.verb + " " + Quoted(name)
		s.Scenario, s.Source, err = Load(e, name)
	}
	if err != nil {
		return s, err
	}
	s.Again += o.Flags()
	s.Scenario, err = o.taken(s.Scenario)
	return s, err
}

// Flags returns the flags that say how what is named is taken, as the command line has them.
func (o *Inputs) Flags() (text string) {
	if o.as != "" {
		text += " --variant " + Quoted(o.as)
	}
	for _, name := range o.only {
		text += " --variant " + Quoted(name)
	}
	for _, set := range o.set {
		text += " --set " + Quoted(set)
	}
	for _, name := range o.choices {
		text += " --choice " + Quoted(name)
	}
	for _, job := range o.jobs {
		text += " --job " + Quoted(job)
	}
	return text
}

// taken returns a scenario as the flags say: as one of its variants or with only some of them, and
// with other values.
func (o *Inputs) taken(sc *scenarios.Scenario) (*scenarios.Scenario, error) {
	var err error
	if o.as != "" {
		if sc, err = sc.As(o.as); err != nil {
			return nil, Wrong("--variant: %v", err)
		}
	}
	var settings []scenarios.Setting
	for _, text := range o.set {
		one, err := scenarios.ParseSetting(text)
		if err != nil {
			return nil, Wrong("--set %v", err)
		}
		settings = append(settings, one)
	}
	if settings != nil {
		if sc, err = sc.Set(settings); err != nil {
			return nil, wrongSettings(err)
		}
	}
	if o.choices != nil {
		if sc, err = sc.Designed(o.choices); err != nil {
			return nil, Wrong("--choice: %v", err)
		}
	}
	if o.only != nil {
		if sc, err = sc.Only(o.only); err != nil {
			return nil, Wrong("--variant: %v", err)
		}
	}
	return sc, nil
}

// wrongSettings returns what is wrong with settings, each by itself.
func wrongSettings(err error) error {
	var problems scenarios.Problems
	if !errors.As(err, &problems) {
		return err
	}
	var errs []error
	for _, p := range problems {
		errs = append(errs, Wrong("--set %s", p.Text))
	}
	return errors.Join(errs...)
}

// Chosen reports whether only some variants of a file are taken.
func (o *Inputs) Chosen() bool { return o.only != nil }

// Called returns what one of what is named is called in a message.
func (o *Inputs) Called(name string) string {
	if o.example != "" {
		return "example " + name
	}
	return ShownFile(name)
}
