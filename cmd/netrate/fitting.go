package main

import (
	"fmt"
	"io"
	"os"

	"github.com/spf13/pflag"

	"netrate/scenarios/stoplog"
	"netrate/sim/fit"
)

func fitVerb() verb {
	return verb{
		name: "fit", takes: "LOG", about: "learn rates and clearing times from a log of stops and its counts",
		more: `LOG is a CSV file, one row a stop: when it began, the station, the cause, how long the line
stood or when it ran again; job, speed and cut off may be there. --counts is a CSV file
of the feeds of each station; job, speed and day may be there. Columns are found by their
usual headings; what was read as what is said. Each --column, --cause, --kind may be given
several times: --column when=Beginn --cause "Fehlabzug=misfeed" --kind "camera 2=reader".
--dates is iso, dotted, day first, month first or seconds; --unit seconds, minutes or hours.`,
		prepare: func(flags *pflag.FlagSet) action {
			o := &fitFlags{level: level, seed: 1, draws: count{value: usualDraws, most: 9999}}
			flags.StringVar(&o.counts, "counts", "", "read the feeds of each station from `FILE`; - is standard input")
			o.addMapping(flags)
			flags.StringArrayVar(&o.kinds, "kind", nil, "`A=B`: station A is of the kind B")
			flags.Var(&o.level, "level", "confidence of the intervals, 95% if it is not given")
			flags.Var(&o.seed, "seed", "seed of the tests by simulation, 1 if it is not given")
			flags.Var(&o.draws, "draws", "test how well a distribution fits by so many draws, 0 to 9999")
			flags.StringVar(&o.fragment, "out", "", "write the rates to `FILE`, to be taken into a scenario; -: print them instead")
			flags.BoolVar(&o.json, "json", false, "print what was found as JSON instead")
			o.outputs = newOutputs(flags)
			return o.run
		},
	}
}

// usualDraws tell a P of 0.05 from one of 0.1, and keep a log of some thousand stops from
// being a wait.
const usualDraws = 199

// fitFlags is the command line of a fit.
type fitFlags struct {
	mappingFlags
	*outputs
	counts, fragment string
	level            share
	seed             seed
	draws            count
	json             bool
}

func (o *fitFlags) run(e env, args []string) error {
	switch {
	case len(args) != 1:
		return wrong("fit takes one log, found %d", len(args))
	case o.counts == "":
		return wrong("fit wants the feeds of each station too: --counts FILE")
	case o.json && o.fragment == "-":
		return wrong("--json and --out - cannot both be printed")
	case !(o.level > 0.5):
		return wrong("--level is %s, want more than 50%%", o.level.String())
	}
	records, err := o.read(e, args[0], o.counts)
	if err != nil {
		return err
	}
	x := &fitting{records: records, level: float64(o.level), seed: uint64(o.seed), draws: o.draws.value, again: o.again(args[0])}
	if err := x.learn(); err != nil {
		return err
	}
	return o.tell(e, x)
}

// tell writes what was found in all forms that are asked for.
func (o *fitFlags) tell(e env, x *fitting) error {
	if err := o.begin(); err != nil {
		return err
	}
	defer o.drop()
	says, err := io.Writer(e.out), error(nil)
	switch {
	case o.json:
		says, err = e.err, writeDocument(e.out, x.document(version()))
	case o.fragment == "-":
		says = e.err
		_, err = io.WriteString(e.out, x.fragment())
	default:
		_, err = io.WriteString(e.out, x.answer())
	}
	if err != nil {
		return err
	}
	if err := o.writeFragment(says, x); err != nil {
		return err
	}
	if !o.wanted() {
		return nil
	}
	r, err := x.report(version())
	if err != nil {
		return err
	}
	return o.write(says, r.page, r.tables, r.figures)
}

// writeFragment writes the rates to their file, if they have one.
func (o *fitFlags) writeFragment(says io.Writer, x *fitting) error {
	if o.fragment == "" || o.fragment == "-" {
		return nil
	}
	err := drawn(o.fragment, func(w io.Writer) error {
		_, err := io.WriteString(w, x.fragment())
		return err
	})
	if err == nil {
		fmt.Fprintf(says, "\nRates    %s\n", o.fragment)
	}
	return err
}

// again returns the command that does the same again.
func (o *fitFlags) again(log string) string {
	text := "netrate fit " + quoted(log) + " --counts " + quoted(o.counts) + o.mappingFlags.again()
	if o.level != level {
		text += " --level " + o.level.String()
	}
	if o.seed != 1 {
		text += " --seed " + o.seed.String()
	}
	if o.draws.value != usualDraws {
		text += " --draws " + o.draws.String()
	}
	return text
}

// fitting is what the records of a line say.
type fitting struct {
	*records
	level float64
	seed  uint64
	draws int
	quick bool // bursts are not looked for, which takes its time: for rounds of tests
	again string

	learnt []*learnt // in the order of the records
}

// learnt is what is known of one station.
type learnt struct {
	*stationRecord
	kind   stationKind
	faults []faultLearnt
	clear  *fit.Comparison // nil if there is too little
	chosen *fit.Candidate  // of them
	noFit  string          // why there is none
	bursts *fit.Bursts     // nil if they were not looked for
	none   string          // why not

	lengths    []fit.Observation
	zeros, cut int
}

// faultLearnt is what is known of one fault of a station.
type faultLearnt struct {
	cause     stoplog.Cause
	called    string
	rate      fit.Rate
	jobs      *division // nil where there is no column of them, or too little
	speeds    *division
	growth    *fit.Growth
	unlimited string // why there is no growth though there are speeds
}

// learn finds all that the records tell.
func (x *fitting) learn() error {
	places := x.places()
	for i, r := range x.stations {
		l := &learnt{stationRecord: r, kind: x.kindOf(r)}
		x.learnt = append(x.learnt, l)
		if err := x.rates(l); err != nil {
			return err
		}
		x.clearing(l)
		x.pattern(l, places[i])
	}
	return nil
}

// fromFile hands over an open file, or the input if the name is "-".
func fromFile(e env, name string, read func(io.Reader) error) error {
	if name == "-" {
		return read(e.in)
	}
	f, err := os.Open(name)
	if err != nil {
		return wrong("%v", err)
	}
	defer func() { _ = f.Close() }() // it was only read
	return read(f)
}
