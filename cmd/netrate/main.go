// Command netrate forecasts how many good envelopes an hour an inserting line delivers.
//
// This package holds one file for each verb: flags, output and exit statuses. What the
// verbs do is done elsewhere.
package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"syscall"

	"golang.org/x/term"
)

func main() {
	out := bufio.NewWriter(os.Stdout)
	err := run(os.Args[1:], env{
		in: os.Stdin, out: out, err: os.Stderr,
		terminal: term.IsTerminal(int(os.Stderr.Fd())),
		getenv:   os.Getenv,
	})
	err = errors.Join(err, out.Flush())
	if err != nil {
		fmt.Fprintln(os.Stderr, "netrate: "+err.Error())
	}
	os.Exit(status(err))
}

// env is what a verb has to do with the world around it.
type env struct {
	in       io.Reader
	out      io.Writer // the answer, and nothing else
	err      io.Writer // all else
	terminal bool      // whether err is a terminal
	getenv   func(name string) string
}

// run runs the verb that the arguments begin with.
func run(args []string, e env) error {
	if len(args) == 0 {
		printHelp(e.err)
		return wrong("a verb is missing")
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
	return v.run(args[1:], e)
}

// wrongInput is an error of the command line or of a file: running again is of no use.
type wrongInput struct{ text string }

func (w wrongInput) Error() string { return w.text }

func wrong(format string, args ...any) error { return wrongInput{fmt.Sprintf(format, args...)} }

// interrupted is the error of a run that a signal ended.
type interrupted struct {
	signal syscall.Signal
	text   string // what became of the answer
}

func (i interrupted) Error() string { return "interrupted: " + i.text }

// status returns the exit status: 0 done, 1 failed, 2 the input is wrong, and as a shell
// has it 130 or 143 after a signal.
func status(err error) int {
	var stopped interrupted
	var input wrongInput
	switch {
	case err == nil:
		return 0
	case errors.As(err, &stopped):
		return 128 + int(stopped.signal)
	case errors.As(err, &input):
		return 2
	}
	return 1
}
