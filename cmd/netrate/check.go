package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"netrate/model"
	"netrate/scenarios"
)

func checkVerb() verb {
	return verb{
		name: "check", takes: "FILE…", about: "read scenario files and say what is wrong with them",
		more:    "FILE may be -, which is standard input. The exit status is 2 if any file is wrong.",
		prepare: func(*pflag.FlagSet) action { return check },
	}
}

func check(e env, files []string) error {
	if len(files) == 0 {
		return wrong("check wants one file or more")
	}
	var errs []string
	for _, file := range files {
		sc, _, err := load(e, file)
		if err != nil {
			errs = append(errs, err.Error())
			continue
		}
		summary(e.out, sc)
	}
	if len(errs) > 0 {
		return wrongInput{strings.Join(errs, "\nnetrate: ")}
	}
	return nil
}

// summary writes what a scenario is.
func summary(to io.Writer, sc *scenarios.Scenario) {
	l, h := sc.Line, sc.Line.Hand()
	fmt.Fprintf(to, "%s: ok\n  %s\n", sc.File, sc.Name)
	fmt.Fprintf(to, "  %s: %s\n", plural(len(l.Stations), "station"), stationList(l))
	fmt.Fprintf(to, "  %s cycles an hour, set by: %s\n", exact(h.Speed), limits(l))
	fmt.Fprintf(to, "  %s, shift of %s\n", plural(l.Crew.Operators, "operator"), hours(l.Shift))
	fmt.Fprintf(to, "  on paper %s good envelopes an hour = %s × %.2f %% running × %.2f %% good\n",
		exact(h.NetRate), exact(h.Speed), 100*h.Efficiency, 100*h.Good)
}

// stationList returns how many stations of each kind there are, as they follow.
func stationList(l *model.Line) string {
	var kinds []string
	numbers := map[string]int{}
	for _, s := range l.Stations {
		kind, _, _ := kindOf(s)
		if numbers[kind]++; numbers[kind] == 1 {
			kinds = append(kinds, kind)
		}
	}
	for i, kind := range kinds {
		if n := numbers[kind]; n > 1 {
			kinds[i] = plural(n, kind)
		}
	}
	return strings.Join(kinds, ", ")
}

// limits returns what the line cannot go faster than.
func limits(l *model.Line) string {
	speed := l.RunSpeed()
	var names []string
	if l.Speed == speed {
		names = append(names, "the speed asked for")
	}
	for _, s := range l.Stations {
		if s.Where().Rated == speed {
			names = append(names, s.Where().Name)
		}
	}
	return strings.Join(names, ", ")
}
