package tracing

import (
	"errors"
	"io"
	"math"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/model/trace"
)

// TraceVerb returns the verb trace.
func TraceVerb() desk.Verb {
	return desk.Verb{
		Name: "trace", Takes: "FILE", About: "show single shifts in full: stops, sets, crew",
		More: `FILE may be -, which is standard input. Shifts have the numbers of netrate run --csv, from 0; a
run names the shift nearest to its median, its worst and its best. With the same seed the
shift is the same as in the run. Where inputs are uncertain, it is that at nominal values.

--stops and --counts are files that netrate fit reads; with --seen it finds the rates of all
faults that a station sees, also of those that do not stop the line. The next shift begins a
day after the one before. One of the files may be -, which prints it instead. Of a job, the
number is that of the job, and it is shown pass by pass; of lines that share a crew, all are shown.`,
		Prepare: func(flags *pflag.FlagSet) desk.Action { return newTraceFlags(flags).run },
	}
}

// traceFlags is the command line of a trace.
type traceFlags struct {
	asked
	hour  desk.Count
	json  bool
	seen  bool
	all   bool
	files []*traceFile
}

// traceFile is a file that may be written.
type traceFile struct {
	flag, path string
	write      func(to io.Writer, all []*trace.Shift) error
	out        *desk.OutFile // nil if it is not wanted, or printed
}

func newTraceFlags(flags *pflag.FlagSet) *traceFlags {
	o := &traceFlags{asked: newAsked(flags, "trace", "trace the example called `NAME` instead of a file", "; try netrate trace --example direct-mail --shift 5"), hour: desk.Count{Value: 1, Most: 10_000}}
	o.add()
	flags.Var(&o.shifts, "shifts", "these shifts, such as 1-20, for the files")
	flags.Var(&o.hour, "hour", "list the stops of this hour of the shift, 0 for all (default 1)")
	flags.BoolVar(&o.json, "json", false, "print all of it as JSON")
	o.file(flags, "stops", "write the list of stops to `FILE`", o.writeStops)
	flags.BoolVar(&o.seen, "seen", false, "with --stops: a row of 0 s for each fault that was seen and did not stop the line")
	o.file(flags, "counts", "write the feeds of each station to `FILE`", o.writeCounts)
	o.file(flags, "sets", "write the trail of every set that is not simply good to `FILE`", o.writeSets)
	flags.BoolVar(&o.all, "all", false, "with --sets: a row for each good set, too")
	o.file(flags, "crew", "write what the crew did to `FILE`", o.writeCrew)
	o.file(flags, "events", "write the shift for trace viewers to `FILE`, in the Trace Event Format", o.writeEvents)
	return o
}

func (o *traceFlags) file(flags *pflag.FlagSet, name, about string, write func(io.Writer, []*trace.Shift) error) {
	f := &traceFile{flag: name, write: write}
	flags.StringVar(&f.path, name, "", about)
	desk.Writes(flags, name)
	o.files = append(o.files, f)
}

func (o *traceFlags) run(e desk.Env, args []string) error {
	if err := o.check(); err != nil {
		return err
	}
	about, err := o.line(e, args)
	if err != nil {
		return err
	}
	defer o.drop()
	if err := o.begin(e); err != nil {
		return err
	}
	a, err := o.ask(e, about)
	if err != nil {
		return err
	}
	if hours := hoursOf(a); o.hour.Value > hours {
		return desk.Wrong("--hour is %d, and the shift has %s: want one of them, or 0 for all", o.hour.Value, say.Plural(hours, "hour"))
	}
	return o.deliver(e, about, a)
}

// linesOf returns the lines of a file that has several; nil if it has one.
func linesOf(about desk.Subject) []*model.Line {
	if g := about.LineGroup; g != nil {
		return g.Lines
	}
	return nil
}

// hoursOf returns how many hours the first shift has, or the first job in all its passes.
func hoursOf(a *study.TraceAnswer) int {
	all := a.Traced[0].Shifts
	last := all[len(all)-1]
	return int(math.Ceil(float64((last.Begins + last.Lasts()) / 3600)))
}

// check returns what does not go together.
func (o *traceFlags) check() error {
	printed := 0
	if o.json {
		printed++
	}
	for _, f := range o.files {
		if f.path == "-" {
			printed++
		}
		if f.flag == "events" && f.path != "" && o.shifts.last > o.shifts.first {
			return desk.Wrong("--events is of one shift: use --shift")
		}
		for flag, beside := range map[string]bool{"sets": o.all, "stops": o.seen} {
			if f.flag == flag && f.path == "" && beside {
				return desk.Wrong("--%s says how --%s is written, which is not asked for", map[string]string{"sets": "all", "stops": "seen"}[flag], flag)
			}
		}
	}
	if printed > 1 {
		return desk.Wrong("only one file can be printed, or the JSON")
	}
	if o.flags.Changed("shift") && o.flags.Changed("shifts") {
		return desk.Wrong("--shift is one of them, --shifts are several: choose one")
	}
	return nil
}

// begin begins the files, so that nothing is traced in vain.
func (o *traceFlags) begin(e desk.Env) (err error) {
	for _, f := range o.files {
		if f.path == "" || f.path == "-" {
			continue
		}
		if f.out, err = desk.Create(e, f.flag, f.path); err != nil {
			return err
		}
	}
	return nil
}

func (o *traceFlags) drop() {
	for _, f := range o.files {
		f.out.Drop()
	}
}

// deliver prints what was asked for, and then writes the files.
func (o *traceFlags) deliver(e desk.Env, about desk.Subject, a *study.TraceAnswer) error {
	all := a.Shifts()
	print := func(to io.Writer, _ []*trace.Shift) error {
		if o.json {
			return page.WriteDocument(to, page.DocumentOf(desk.Version(), page.OriginOf(about), a))
		}
		premise := desk.Premise(about.Scenario) + desk.SetUpFor(about.Setups, linesOf(about))
		_, err := io.WriteString(to, premise+present.TraceText(about.Name, a, o.start.Time, o.hour.Value))
		return err
	}
	for _, f := range o.files {
		if f.path == "-" {
			print = f.write
		}
	}
	errs := []error{print(e.Out, all)}
	for _, f := range o.files {
		if f.out != nil {
			errs = append(errs, desk.Fill(f.out, func(to io.Writer) error { return f.write(to, all) }))
		}
	}
	return errors.Join(errs...)
}
