package main

import (
	"context"
	"encoding/json"
	"io"

	"github.com/spf13/pflag"

	"netrate/plots"
	"netrate/scenarios"
	"netrate/sim"
)

// lineFlags is the command line of a verb that runs one line in many ways: sweep and
// sensitivity.
type lineFlags struct {
	verb string
	*planFlags
	*outputs
	example string
	json    bool
	csv     string

	rows *outFile // of the CSV, begun
}

// usualReps is how many shifts each way is run, if nothing else is asked for.
const usualReps = 400

func newLineFlags(verb string, flags *pflag.FlagSet) *lineFlags {
	o := &lineFlags{verb: verb}
	flags.StringVar(&o.example, "example", "", "take the example called `NAME` instead of a file")
	o.planFlags = newFixedPlanFlags(flags, "simulate so many shifts of each; 400 if it is not given")
	flags.BoolVar(&o.json, "json", false, "print all figures as JSON instead")
	flags.StringVar(&o.csv, "csv", "", "write the table to `FILE`; - prints it instead")
	o.outputs = newOutputs(flags)
	return o
}

// subject is the scenario that such a verb is about.
type subject struct {
	*scenarios.Scenario
	source []byte // the file itself
	again  string // the command, up to the file
}

// line reads the scenario of a verb that is about one line and its work.
func (o *lineFlags) line(e env, args []string) (subject, error) {
	s, err := o.subject(e, args)
	if err != nil {
		return s, err
	}
	if s.Hall != nil {
		return s, wrong("%s has several lines with one crew, and %s is about one line: run and compare can do with several", shownFile(s.File), o.verb)
	}
	return s, workFor(o.verb, s.Scenario)
}

// subject reads the scenario.
func (o *lineFlags) subject(e env, args []string) (s subject, err error) {
	switch {
	case o.json && o.csv == "-":
		return s, wrong("--json and --csv - cannot both be printed")
	case o.example != "" && len(args) > 0:
		return s, wrong("%s takes --example or a file, not both: found %q", o.verb, args[0])
	case o.example != "":
		s.again = "netrate " + o.verb + " --example " + o.example
		s.Scenario, s.source, err = loadExample(o.example)
		return s, err
	case len(args) != 1:
		return s, wrong("%s takes one file, found %d", o.verb, len(args))
	}
	s.again = "netrate " + o.verb + " " + quoted(args[0])
	s.Scenario, s.source, err = load(e, args[0])
	return s, err
}

// begin begins all files that are to be written. drop must be called in the end.
func (o *lineFlags) begin() (err error) {
	if o.csv != "" && o.csv != "-" {
		if o.rows, err = create(o.csv); err != nil {
			return err
		}
	}
	return o.outputs.begin()
}

func (o *lineFlags) drop() {
	if o.rows != nil {
		o.rows.drop()
	}
	o.outputs.drop()
}

// watched runs shifts or jobs, as word says, at most so many, and shows on a terminal how far they are. When
// a signal ended them it returns the cause.
func watched(e env, most int, word string, run func(ctx context.Context, watch func(replication int)) (done int, ending sim.Ending, err error)) error {
	ctx, stop := untilInterrupted()
	defer stop()
	var watch func(int)
	if e.terminal {
		p := newProgress(e.err, most, word)
		defer p.stop()
		watch = func(replication int) { p.done(replication + 1) }
	}
	done, ending, err := run(ctx, watch)
	if err != nil || ending != sim.Cancelled {
		return err
	}
	return cutShort(ctx, done, word)
}

// findings is what such a verb has found, in every form in which it is told.
type findings interface {
	answer() string
	document() any
	table() plots.Table
	report() (*report, error)
}

// tell writes what was found in the forms that are asked for.
func (o *lineFlags) tell(e env, f findings) error {
	table := f.table()
	if o.rows != nil {
		if err := fill(o.rows, table.WriteCSV); err != nil {
			return err
		}
	}
	says := e.out
	switch {
	case o.json:
		says = e.err
		if err := writeDocument(e.out, f.document()); err != nil {
			return err
		}
	case o.csv == "-":
		says = e.err
		if err := table.WriteCSV(e.out); err != nil {
			return err
		}
	default:
		if _, err := io.WriteString(e.out, f.answer()); err != nil {
			return err
		}
	}
	if !o.wanted() {
		return nil
	}
	r, err := f.report()
	if err != nil {
		return err
	}
	return o.write(says, r.page, []plots.Table{table}, r.figures)
}

// writeDocument writes JSON as people can read it.
func writeDocument(to io.Writer, document any) error {
	encoder := json.NewEncoder(to)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(document)
}
