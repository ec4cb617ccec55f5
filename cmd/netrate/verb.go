package main

import (
	"errors"

	"github.com/spf13/pflag"
)

// verb is one thing that the command does.
type verb struct {
	name  string
	takes string // its arguments, as the help shows them
	about string // one line
	more  string // what the help of the verb says below its flags; may be empty
	// prepare adds the verb's flags, and returns what is done once they are read.
	prepare func(flags *pflag.FlagSet) action
}

type action func(e env, args []string) error

// verbs returns all verbs, in the order of the help.
func verbs() []verb {
	return []verb{runVerb(), compareVerb(), sweepVerb(), sensitivityVerb(), strategyVerb(), seasonVerb(), fitVerb(), checkVerb(), exampleVerb(), schemaVerb(), versionVerb(), helpVerb()}
}

func verbNamed(name string) (verb, error) {
	var names []string
	for _, v := range verbs() {
		if v.name == name {
			return v, nil
		}
		names = append(names, v.name)
	}
	if len(name) > 1 && name[0] == '-' {
		return verb{}, wrong("flags come after the verb: netrate VERB %s", name)
	}
	return verb{}, wrong("%q is no verb%s; netrate help lists them", name, meant(name, names, ""))
}

// run reads the flags among the arguments and does what they ask.
func (v verb) run(args []string, e env) error {
	flags := newFlags(v.name)
	act := v.prepare(flags)
	err := flags.Parse(args)
	if errors.Is(err, pflag.ErrHelp) {
		v.printHelp(e.out)
		return nil
	}
	if err != nil {
		return flagError(v.name, flags, err)
	}
	return act(e, flags.Args())
}

// noArguments returns an error if there are any.
func noArguments(verb string, args []string) error {
	if len(args) > 0 {
		return wrong("%s takes no arguments, found %q", verb, args[0])
	}
	return nil
}
