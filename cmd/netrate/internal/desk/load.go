package desk

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"netrate/model/study"
	"netrate/scenarios"
)

// Load reads a scenario from a file, or from the input if that is "-", and returns its
// text too, also if it is wrong. What is wrong in the file is written to e.Err, and the error
// says so in short.
func Load(e Env, file string) (*scenarios.Scenario, []byte, error) {
	from, err := e.Open(file)
	if err != nil {
		return nil, nil, err
	}
	defer func() { _ = from.Close() }() // it was only read
	var text bytes.Buffer
	sc, err := scenarios.Read(file, io.TeeReader(from, &text))
	var problems scenarios.Problems
	switch {
	case errors.As(err, &problems):
		fmt.Fprintln(e.Err, problems.Error())
		return nil, text.Bytes(), Wrong("%s cannot be run: see above", ShownFile(file))
	case err != nil:
		return nil, nil, err // of reading, with the name
	}
	return sc, text.Bytes(), nil
}

// LoadExample reads a scenario that comes with the program.
func LoadExample(name string) (*scenarios.Scenario, []byte, error) {
	x, err := scenarios.ExampleNamed(name)
	if err != nil {
		return nil, nil, Wrong("%v", err)
	}
	sc, err := scenarios.Load(name+".yaml", x.Data)
	return sc, x.Data, err
}

// ShownFile returns what a file is called in a message, also if it is the input.
func ShownFile(file string) string {
	if file == "-" {
		return "standard input"
	}
	return Shown(file)
}

// WorkFor returns why a verb cannot run a scenario that says no work.
func WorkFor(verb string, sc *scenarios.Scenario) error {
	switch {
	case !sc.NoWork:
		return nil
	case sc.Season != nil:
		return WrongAt(sc, []string{"season"}, "the file has a season and no work for %s: netrate season runs it", verb)
	}
	return WrongAt(sc, []string{"jobs"}, "the file has jobs and no work for %s: say for which job with --job NAME, or of several lines --job LINE=NAME; netrate check says which of them a line runs", verb)
}

// WrongAsked returns an error of what is asked about a scenario; of yearly volumes with their place.
func WrongAsked(sc *scenarios.Scenario, err error) error {
	if _, is := errors.AsType[*study.Unmixed](err); is {
		return WrongAt(sc, []string{"costs", "volumes"}, "%v", err)
	}
	return Wrong("%v", err)
}

// WrongAt returns an error of a scenario, with the place of what the keys lead to.
func WrongAt(sc *scenarios.Scenario, keys []string, format string, args ...any) error {
	line, column := sc.Place(keys...)
	return Wrong("%s:%d:%d: %s", ShownFile(sc.File), line, column, fmt.Sprintf(format, args...))
}
