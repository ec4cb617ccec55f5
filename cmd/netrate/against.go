package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/spf13/pflag"

	"netrate/model"
	"netrate/scenarios"
	"netrate/sim"
)

// usualRecords are enough for four tests at 5 %, with a P of 0.005 for the smallest.
const usualRecords = 400

// againstFlags is the part of a run's command line that compares it with a log.
type againstFlags struct {
	mappingFlags
	log, counts string
	dayStarts   dayTime
	own         []string // names of the flags that are of no use without a log
}

func newAgainstFlags(flags *pflag.FlagSet) *againstFlags {
	o := &againstFlags{}
	flags.StringVar(&o.log, "against", "", "compare the stops of `LOG` with simulated ones, instead of the usual answer")
	own := pflag.NewFlagSet("against", pflag.ContinueOnError)
	own.SortFlags = false
	own.StringVar(&o.counts, "counts", "", "read the feeds of each station and day beside LOG from `FILE`")
	o.addMapping(own)
	own.Var(&o.dayStarts, "day-starts", "when a day of the counts begins: 06:00; midnight if it is not given")
	own.VisitAll(func(f *pflag.Flag) { o.own = append(o.own, f.Name) })
	flags.AddFlagSet(own)
	return o
}

// check says which flags do not go together.
func (o *againstFlags) check(of *runFlags, args []string) error {
	if o.log == "" {
		for _, name := range o.own {
			if of.Changed(name) {
				return wrong("--%s is about a log: --against says which", name)
			}
		}
		return nil
	}
	inputs := 0
	for _, name := range append([]string{o.log, o.counts}, args...) {
		if name == "-" {
			inputs++
		}
	}
	switch {
	case o.counts == "":
		return wrong("--against wants the feeds of each station and day too: --counts FILE")
	case of.csv != "":
		return wrong("--csv writes shifts, and --against simulates none: choose one")
	case of.Changed("precision"):
		return wrong("--precision is about the net rate, which --against does not tell: choose one")
	case *of.doubt != 0 && of.Changed("doubt"):
		return wrong("--against draws what is in doubt once for each record: --doubt can be 0 only")
	case inputs > 1:
		return wrong("only one of the scenario, the log and the counts can come from standard input")
	}
	return nil
}

// runAgainst compares a scenario with a log.
func (o *runFlags) runAgainst(e env, again string, sc *scenarios.Scenario, source []byte) error {
	if sc.Hall != nil {
		return wrong("%s has several lines, and --against compares one with its log", shownFile(sc.File))
	}
	plan, err := o.fixed(e, sc.Run, usualRecords)
	if err != nil {
		return err
	}
	x := &against{Scenario: sc, source: source, line: *sc.Line, plan: plan, again: again + o.against.again()}
	if *o.doubt == 0 {
		x.line.Doubts = nil
		x.again += " --doubt 0"
	}
	if x.records, err = o.against.read(e, o.against.log, o.against.counts); err != nil {
		return err
	}
	if err := x.arrange(o.against.dayStarts); err != nil {
		return err
	}
	if err := o.begin(); err != nil {
		return err
	}
	defer o.drop()
	ended := x.simulate(e)
	if x.tests == nil {
		return ended
	}
	return errors.Join(ended, o.tellAgainst(e, x))
}

// simulate simulates the record and tests the log against it. Where nothing was simulated
// there are no tests.
func (x *against) simulate(e env) error {
	ended := watched(e, x.plan.Max, "record", func(ctx context.Context, watch func(int)) (done int, ending sim.Ending, err error) {
		x.drawn, x.ending, err = x.replay().Run(ctx, x.plan, watch)
		if err != nil {
			x.drawn = nil
		}
		return len(x.drawn), x.ending, err
	})
	if len(x.drawn) > 0 {
		x.tests = model.CompareRecords(x.log, x.drawn, usualP)
	}
	return ended
}

// again returns the flags as they were given.
func (o *againstFlags) again() string {
	text := " --against " + quoted(o.log) + " --counts " + quoted(o.counts) + o.mappingFlags.again()
	if o.dayStarts > 0 {
		text += " --day-starts " + o.dayStarts.String()
	}
	return text
}

// tellAgainst writes what was found in all forms that are asked for.
func (o *runFlags) tellAgainst(e env, x *against) (err error) {
	says := e.out
	if o.json {
		says, err = e.err, writeDocument(e.out, x.document(version()))
	} else {
		_, err = io.WriteString(e.out, x.answer())
	}
	if err != nil || !o.wanted() {
		return err
	}
	r, err := x.report(version())
	if err != nil {
		return err
	}
	return o.write(says, r.page, r.tables, r.figures)
}

// dayTime is a flag that is a time of day, from midnight.
type dayTime time.Duration

func (d *dayTime) Set(text string) error {
	t, err := time.Parse("15:04", text)
	if err != nil {
		return errors.New("want a time of day such as 06:00")
	}
	*d = dayTime(time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute)
	return nil
}

func (d *dayTime) String() string {
	minutes := int(time.Duration(*d).Minutes())
	return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60)
}

func (d *dayTime) Type() string { return "TIME" }
