package main

import (
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/manual"
)

func helpVerb() desk.Verb {
	return desk.Verb{
		Name: "help", Takes: "[VERB or TOPIC]", About: "list verbs and topics, or print the help of one",
		Prepare: func(*pflag.FlagSet) desk.Action { return help },
	}
}

func help(e desk.Env, args []string) error {
	switch len(args) {
	case 0:
		printHelp(e.Out)
		return nil
	case 1:
		return printHelpOf(e.Out, args[0])
	}
	return desk.Wrong("help takes one verb or topic, found %d", len(args))
}

// printHelpOf writes the help of a verb, or a topic of the manual.
func printHelpOf(to io.Writer, name string) error {
	var names []string
	for _, v := range verbs() {
		if v.Name == name {
			v.Help(to)
			return nil
		}
		names = append(names, v.Name)
	}
	for _, t := range manual.Topics() {
		if t.Name == name {
			_, err := io.WriteString(to, t.Plain())
			return err
		}
		names = append(names, t.Name)
	}
	return desk.Wrong("%q is neither a verb nor a topic%s; netrate help lists them", name, desk.Meant(name, names, ""))
}

// printHelp writes what the command does.
func printHelp(to io.Writer) {
	fmt.Fprint(to, `netrate forecasts how many good envelopes an hour an inserting line delivers.

Usage: netrate VERB …

`)
	for _, v := range verbs() {
		fmt.Fprintf(to, "  %-22s %s\n", v.Name+" "+v.Takes, v.About)
	}
	fmt.Fprint(to, "\nTopics of the manual:\n\n")
	for _, t := range manual.Topics() {
		fmt.Fprintf(to, "  %-22s %s\n", t.Name, t.Title)
	}
	fmt.Fprint(to, `
netrate help VERB, or netrate VERB --help, lists the flags of a verb; netrate help TOPIC
prints a topic. To begin with:

  netrate run --example direct-mail
  netrate example direct-mail > my-line.yaml

Exit status: 0 done, 1 failed, 2 the input is wrong, 3 a merge needs another round of
shards, 130 or 143 interrupted.
`)
}
