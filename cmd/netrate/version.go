package main

import (
	"fmt"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
)

func versionVerb() desk.Verb {
	return desk.Verb{
		Name: "version", About: "print the version",
		Prepare: func(*pflag.FlagSet) desk.Action { return printVersion },
	}
}

func printVersion(e desk.Env, args []string) error {
	if err := noArguments("version", args); err != nil {
		return err
	}
	_, err := fmt.Fprintln(e.Out, "netrate", desk.Version())
	return err
}
