package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios"
)

func exampleVerb() desk.Verb {
	return desk.Verb{
		Name: "example", Takes: "[NAME]", About: "list the examples, or print one",
		More: "All examples and presets are invented.",
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			presets := flags.Bool("presets", false, "list the presets of feeders with their numbers instead")
			return func(e desk.Env, args []string) error { return example(e, args, *presets) }
		},
	}
}

func example(e desk.Env, args []string, presets bool) error {
	switch {
	case presets && len(args) > 0:
		return desk.Wrong("example takes --presets or a name, not both: found %q", args[0])
	case presets:
		_, err := io.WriteString(e.Out, presetText())
		return err
	case len(args) == 0:
		for _, x := range scenarios.Examples() {
			fmt.Fprintf(e.Out, "%-14s %s\n", x.Name, x.Title)
		}
		fmt.Fprint(e.Out, "\nAll are invented. netrate example NAME prints one, netrate run --example NAME\nsimulates it.\n")
		return nil
	case len(args) == 1:
		x, err := scenarios.ExampleNamed(args[0])
		if err != nil {
			return desk.Wrong("%v", err)
		}
		_, err = e.Out.Write(x.Data)
		return err
	}
	return desk.Wrong("example takes one name, found %d", len(args))
}

// presetText returns all presets, each as the keys of a feeder that it stands for.
func presetText() string {
	var parts []string
	for _, p := range scenarios.Presets() {
		var part strings.Builder
		part.WriteString(say.Wrapped(p.Name+": "+p.About, say.Prose()))
		for _, v := range p.Values {
			part.WriteString("  " + v.Key + ": " + v.Text + "\n")
		}
		parts = append(parts, part.String())
	}
	return strings.Join(parts, "\n") + "\nIllustrative, from memory: they belong to no maker's machine. Measure your own.\n"
}
