package main

import (
	"fmt"

	"github.com/spf13/pflag"

	"netrate/scenarios"
)

func exampleVerb() verb {
	return verb{
		name: "example", takes: "[NAME]", about: "list the examples, or print one",
		more:    "All examples are invented.",
		prepare: func(*pflag.FlagSet) action { return example },
	}
}

func example(e env, args []string) error {
	switch len(args) {
	case 0:
		for _, x := range scenarios.Examples() {
			fmt.Fprintf(e.out, "%-14s %s\n", x.Name, x.Title)
		}
		fmt.Fprint(e.out, "\nAll are invented. netrate example NAME prints one, netrate run --example NAME\nsimulates it.\n")
		return nil
	case 1:
		x, err := scenarios.ExampleNamed(args[0])
		if err != nil {
			return wrong("%v", err)
		}
		_, err = e.out.Write(x.Data)
		return err
	}
	return wrong("example takes one name, found %d", len(args))
}
