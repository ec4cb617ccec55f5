package main

import (
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
)

func helpVerb() desk.Verb {
	return desk.Verb{
		Name: "help", Takes: "[VERB]", About: "say what the command does, or one verb",
		Prepare: func(*pflag.FlagSet) desk.Action { return help },
	}
}

func help(e desk.Env, args []string) error {
	switch len(args) {
	case 0:
		printHelp(e.Out)
		return nil
	case 1:
		v, err := verbNamed(args[0])
		if err != nil {
			return err
		}
		v.Help(e.Out)
		return nil
	}
	return desk.Wrong("help takes one verb, found %d", len(args))
}

// Help writes what the command does.
func printHelp(to io.Writer) {
	fmt.Fprint(to, `netrate forecasts how many good envelopes an hour an inserting line delivers.

Usage: netrate VERB …

`)
	for _, v := range verbs() {
		fmt.Fprintf(to, "  %-16s %s\n", v.Name+" "+v.Takes, v.About)
	}
	fmt.Fprint(to, `
netrate help VERB, or netrate VERB --help, tells more of a verb.
To begin with:

  netrate run --example direct-mail
  netrate example direct-mail > my-line.yaml

Exit status: 0 done, 1 failed, 2 the input is wrong, 130 or 143 interrupted.
`)
}
