package main

import (
	"fmt"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/scenarios"
)

func exampleVerb() desk.Verb {
	return desk.Verb{
		Name: "example", Takes: "[NAME]", About: "list the examples, or print one",
		More:    "All examples are invented.",
		Prepare: func(*pflag.FlagSet) desk.Action { return example },
	}
}

func example(e desk.Env, args []string) error {
	switch len(args) {
	case 0:
		for _, x := range scenarios.Examples() {
			fmt.Fprintf(e.Out, "%-14s %s\n", x.Name, x.Title)
		}
		fmt.Fprint(e.Out, "\nAll are invented. netrate example NAME prints one, netrate run --example NAME\nsimulates it.\n")
		return nil
	case 1:
		x, err := scenarios.ExampleNamed(args[0])
		if err != nil {
			return desk.Wrong("%v", err)
		}
		_, err = e.Out.Write(x.Data)
		return err
	}
	return desk.Wrong("example takes one name, found %d", len(args))
}
