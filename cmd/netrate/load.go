package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"

	"netrate/scenarios"
)

// load reads a scenario from a file, or from the input if that is "-", and returns its
// text too, also if it is wrong. What is wrong in the file is written to e.err, and the error
// says so in short.
func load(e env, file string) (*scenarios.Scenario, []byte, error) {
	from := e.in
	if file != "-" {
		f, err := os.Open(file)
		if err != nil {
			return nil, nil, wrong("%v", err)
		}
		defer func() { _ = f.Close() }() // it was only read
		from = f
	}
	var text bytes.Buffer
	sc, err := scenarios.Read(file, io.TeeReader(from, &text))
	var problems scenarios.Problems
	switch {
	case errors.As(err, &problems):
		fmt.Fprintln(e.err, problems.Error())
		return nil, text.Bytes(), wrong("%s is no scenario that can be run: see above", shownFile(file))
	case err != nil:
		return nil, nil, wrong("%v", err)
	}
	return sc, text.Bytes(), nil
}

// loadExample reads a scenario that comes with the program.
func loadExample(name string) (*scenarios.Scenario, []byte, error) {
	x, err := scenarios.ExampleNamed(name)
	if err != nil {
		return nil, nil, wrong("%v", err)
	}
	sc, err := scenarios.Load(name+".yaml", x.Data)
	return sc, x.Data, err
}

func shownFile(file string) string {
	if file == "-" {
		return "standard input"
	}
	return file
}

// workFor returns why a verb cannot run a scenario that says no work.
func workFor(verb string, sc *scenarios.Scenario) error {
	switch {
	case !sc.NoWork:
		return nil
	case sc.Season != nil:
		return wrong("%s has a season and no work for %s: netrate season runs it", shownFile(sc.File), verb)
	}
	return wrong("%s has jobs and no work for %s: netrate check says which of them the line runs", shownFile(sc.File), verb)
}
