// Command netrate forecasts how many good envelopes an hour an inserting line delivers.
//
// This package holds the list of verbs (verb.go) and those that only tell of the command.
// All others stand in rooms below internal, each with its flags, its answer, its report and
// its document:
//
//	lines    run, compare, strategy: lines as they stand
//	sweeps   sweep, sensitivity: what a line is, changed
//	weeks    season: the work of some weeks
//	buy      accept: the acceptance test of a contract
//	learn    fit, and run --against: what a log tells
//	willrun  check: what can be said before anything is run
//
// They stand on three others, each on those after it: page, what reports and documents share;
// desk, what verbs share with the shell; say, how numbers, tables and sentences are written.
package main

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"syscall"

	"golang.org/x/term"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
)

func main() {
	// A reader of the answer that has gone must not take the files along: the error of
	// writing says it too.
	signal.Ignore(syscall.SIGPIPE)
	say.Fit(desk.WidthOf(os.Stdout))
	out := bufio.NewWriter(os.Stdout)
	err := run(started(os.Args[1:], onDesktop(os.Getenv)), desk.Env{
		In: os.Stdin, Out: out, Err: os.Stderr, Stdout: os.Stdout,
		Terminal: term.IsTerminal(int(os.Stderr.Fd())),
		Getenv:   os.Getenv,
	})
	if flushed := out.Flush(); flushed != nil && !errors.Is(err, flushed) { // else it is said already
		err = errors.Join(err, flushed)
	}
	for _, one := range desk.Each(err) {
		fmt.Fprintln(os.Stderr, "netrate: "+one.Error())
	}
	os.Exit(desk.Status(err))
}

// run runs the verb that the arguments begin with.
func run(args []string, e desk.Env) error {
	if len(args) == 0 {
		printHelp(e.Err)
		return desk.Wrong("a verb is missing")
	}
	name := args[0]
	switch name {
	case "-h", "--help":
		name = "help"
	case "--version":
		name = "version"
	}
	v, err := verbNamed(name)
	if err != nil {
		return err
	}
	return v.Run(args[1:], e)
}
