package main

import (
	"fmt"
	"io"

	"github.com/spf13/pflag"
)

func helpVerb() verb {
	return verb{
		name: "help", takes: "[VERB]", about: "say what the command does, or one verb",
		prepare: func(*pflag.FlagSet) action { return help },
	}
}

func help(e env, args []string) error {
	switch len(args) {
	case 0:
		printHelp(e.out)
		return nil
	case 1:
		v, err := verbNamed(args[0])
		if err != nil {
			return err
		}
		v.printHelp(e.out)
		return nil
	}
	return wrong("help takes one verb, found %d", len(args))
}

// printHelp writes what the command does.
func printHelp(to io.Writer) {
	fmt.Fprint(to, `netrate forecasts how many good envelopes an hour an inserting line delivers.

Usage: netrate VERB …

`)
	for _, v := range verbs() {
		fmt.Fprintf(to, "  %-16s %s\n", v.name+" "+v.takes, v.about)
	}
	fmt.Fprint(to, `
netrate help VERB, or netrate VERB --help, tells more of a verb.
To begin with:

  netrate run --example direct-mail
  netrate example direct-mail > my-line.yaml

Exit status: 0 done, 1 failed, 2 the input is wrong, 130 or 143 interrupted.
`)
}

// printHelp writes what the verb does.
func (v verb) printHelp(to io.Writer) {
	fmt.Fprintf(to, "netrate %s: %s\n\nUsage: netrate %s %s\n", v.name, v.about, v.name, v.takes)
	flags := newFlags(v.name)
	v.prepare(flags)
	if flags.HasFlags() {
		fmt.Fprintln(to)
	}
	flags.VisitAll(func(f *pflag.Flag) {
		value, about := pflag.UnquoteUsage(f)
		fmt.Fprintf(to, "  %-20s %s\n", "--"+f.Name+" "+value, about)
	})
	if v.more != "" {
		fmt.Fprintf(to, "\n%s\n", v.more)
	}
}
