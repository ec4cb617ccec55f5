package learn

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/scenarios/stoplog"
)

// FitVerb returns the verb fit.
func FitVerb() desk.Verb {
	return desk.Verb{
		Name: "fit", Takes: "LOG", About: "estimate rates and clearing times from a log of stops and its counts",
		More: `LOG is a CSV file, one row a stop: when it began, the station, the cause, how long the line
stood or when it ran again; job, speed and cut off may be there. --counts is a CSV file
of the feeds of each station; job, speed and day may be there. Stops may name their hour or
shift, where the counts have it too, in the place of when they began. Columns are found by their
usual headings; the answer says how each was read. Each --column, --cause, --kind may be given
several times: --column when=Beginn --cause "Fehlabzug=misfeed" --kind "camera 2=reader".
--dates is iso, dotted, day first, month first or seconds; --unit seconds, minutes or hours.
--line, --speed and --job take only those rows of both files: --speed 12000/h --job "spring letter".

--out writes the rates as stations of a scenario have them. With --into it writes your own
scenario with them, all else as it is: --into line.yaml --out line-fitted.yaml; with --variant
as changes of one of its variants.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action {
			o := &fitFlags{Outputs: &desk.Outputs{}, level: say.Level, seed: 1, draws: desk.Count{Value: usualDraws, Most: 9999}}
			flags.StringVar(&o.counts, "counts", "", "read the feeds of each station from `FILE`; - is standard input")
			o.addMapping(flags)
			flags.StringArrayVar(&o.kinds, "kind", nil, "`A=B`: station A is of the kind B")
			flags.Var(&o.level, "level", "confidence of the intervals (default 95%)")
			flags.Var(&o.seed, "seed", "random seed of the tests by simulation (default 1)")
			flags.Var(&o.draws, "draws", "number of draws in the test of how well a distribution fits, 0 to 9999")
			o.AddData(flags, "out", "write the rates to `FILE`, to be taken into a scenario; -: print them instead")
			flags.StringVar(&o.into, "into", "", "write the estimates into the scenario `FILE`, and that to the file of --out")
			flags.StringVar(&o.variant, "variant", "", "with --into: write them as changes of the variant `NAME` of that file")
			flags.Var(&o.starts, "day-starts", "when a day of the counts begins, such as 06:00 (default midnight)")
			flags.StringVar(&o.mapOut, "map-out", "", "write how the files are read to `FILE`, for --map")
			desk.Writes(flags, "map-out")
			flags.BoolVar(&o.words, "words", false, "list the causes and headings that are known instead")
			o.AddJSON(flags, "print what was found as JSON instead")
			o.AddFiles(flags)
			desk.Reads(flags, "counts", "into")
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
	*desk.Outputs
	counts string
	into   string // a scenario; "" if the rates are written alone

	variant string // of that scenario, into which they are written; "" for the file itself
	level   desk.Share
	seed    desk.Seed
	draws   desk.Count
	words   bool
	starts  dayTime
	mapOut  string       // where it is written how the files are read; "" for nowhere
	flagged mappingFlags // as they were given, without what a mapping file adds
}

func (o *fitFlags) run(e desk.Env, args []string) error {
	if o.words {
		return tellWords(e, args)
	}
	if err := o.check(args); err != nil {
		return err
	}
	given := o.again(args[0])
	o.flagged = o.mappingFlags
	if err := o.readMap(e, &o.starts); err != nil {
		return err
	}
	starts := o.starts
	log, err := o.read(e, args[0], o.counts, &starts)
	if err != nil {
		return err
	}
	if err := o.writeMap(e, log); err != nil {
		return err
	}
	x := &fitting{Fit: present.Fit{Log: log, Command: given}, log: args[0]}
	if o.into != "" {
		if x.into, err = readTarget(e, o.into, o.variant); err != nil {
			return err
		}
		if err := x.into.tell(log.Log); err != nil {
			return err
		}
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	question := study.Fit{Log: log.Log, Level: float64(o.level), Draws: o.draws.Value, Seed: uint64(o.seed), DayStarts: time.Duration(starts)}
	if x.into != nil {
		question.Lots = x.into.Lots()
	}
	ctx, stop := e.UntilInterrupted()
	err = x.ask(ctx, e, question)
	stop()
	switch {
	case err != nil && (x.FitAnswer == nil || len(x.Stations) == 0):
		return err
	case err != nil: // nothing that another run takes for whole
		o.Withdraw()
		x.into = nil
	case x.into != nil:
		if err := x.into.take(e, x); err != nil {
			return err
		}
	}
	return errors.Join(err, o.tell(e, x))
}

// ask asks a question until it is answered or ctx ends it. Then the error is the cause, and
// the answer has the stations until then.
func (x *fitting) ask(ctx context.Context, e desk.Env, question study.Fit) (err error) {
	var told func(study.Sofar[study.FitAnswer])
	if e.Terminal {
		p := desk.NewProgress(e.Err, len(question.Log.Stations), "station")
		defer p.Stop()
		told = func(s study.Sofar[study.FitAnswer]) { p.Done(s.Done) }
	}
	if x.FitAnswer, err = question.Ask(ctx, told); err == nil {
		return nil
	}
	if ctx.Err() == nil {
		return wrongLog(err)
	}
	return e.CutShort(ctx, len(x.Stations), "station")
}

// writeMap writes how the files are read, if that is asked for.
func (o *fitFlags) writeMap(e desk.Env, log present.Log) error {
	if o.mapOut == "" {
		return nil
	}
	f, err := desk.Create(e, "map-out", o.mapOut)
	if err != nil {
		return err
	}
	defer f.Drop()
	return desk.Fill(f, desk.Text(func() string { return o.mapText(log, o.starts) }))
}

// check says which flags do not go together.
func (o *fitFlags) check(args []string) error {
	if err := o.Check(); err != nil {
		return err
	}
	switch {
	case len(args) != 1:
		return desk.Wrong("fit takes one log, found %d", len(args))
	case o.counts == "":
		return desk.Wrong("fit wants the feeds of each station too: --counts FILE")
	case !(o.level > 0.5):
		return desk.Wrong("--level is %s, want more than 50%%", o.level.String())
	case o.into != "" && o.Data == "":
		return desk.Wrong("--into leaves %s as it is: --out says which file it is written to with the estimates", desk.ShownFile(o.into))
	case o.variant != "" && o.into == "":
		return desk.Wrong("--variant says into which variant of a scenario the estimates are written, and --into names none")
	case o.into == "-" && (args[0] == "-" || o.counts == "-"):
		return desk.Wrong("only one of the scenario, the log and the counts can come from standard input")
	}
	return nil
}

// tell writes what was found in the forms that are asked for.
func (o *fitFlags) tell(e desk.Env, x *fitting) error {
	a := page.Delivered(x)
	a.Data = desk.Text(x.output)
	a.Said = func() string { return o.said(x) }
	return o.Deliver(e, a)
}

// said returns where the rates went, and what became of the scenario they went into.
func (o *fitFlags) said(x *fitting) string {
	said, file := "", o.Data != "" && o.Data != "-"
	if file {
		said = fmt.Sprintf("\n%s %s\n", map[bool]string{true: "Scenario", false: "Rates   "}[x.into != nil], desk.Shown(o.Data))
	}
	if x.into == nil {
		return said
	}
	for _, text := range x.into.said {
		said += say.Wrapped(text, say.Prose())
	}
	if file {
		said += "\n" + o.commands(x.log)
	}
	return said
}

// output returns what is written to a file: the scenario with what was learnt, or that alone.
func (x *fitting) output() string {
	if x.into != nil {
		return string(x.into.edited)
	}
	return stoplog.Fragment(x.FitAnswer)
}

// again returns the command that does the same again.
func (o *fitFlags) again(log string) string {
	text := "netrate fit " + desk.Quoted(log) + " --counts " + desk.Quoted(o.counts) + o.mappingFlags.again()
	if o.level != say.Level {
		text += " --level " + o.level.String()
	}
	if o.seed != 1 {
		text += " --seed " + o.seed.String()
	}
	if o.draws.Value != usualDraws {
		text += " --draws " + o.draws.String()
	}
	if o.starts > 0 {
		text += " --day-starts " + o.starts.String()
	}
	if o.into != "" {
		text += " --into " + desk.Quoted(o.into) + " --out " + desk.Quoted(o.Data)
		if o.variant != "" {
			text += " --variant " + desk.Quoted(o.variant)
		}
	}
	return text
}

// fitting is what was learnt of a log, and where it goes.
type fitting struct {
	present.Fit
	log  string  // its file, as the command line has it
	into *target // nil if what is learnt is written alone
}

// fromFile hands over an open file, or the input if the name is "-".
func fromFile(e desk.Env, name string, read func(io.Reader) error) error {
	f, err := e.Open(name)
	if err != nil {
		return err
	}
	defer func() { _ = f.Close() }() // it was only read
	return read(f)
}
