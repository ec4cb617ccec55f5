package learn

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/spf13/pflag"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/setup"
	"netrate/model/study"
	"netrate/sim"
)

// usualRecords are enough for four tests at 5 %, with a P of 0.005 for the smallest.
const usualRecords = 400

// AgainstFlags is the part of a run's command line that compares it with a log.
type AgainstFlags struct {
	mappingFlags
	log, counts string
	dayStarts   dayTime
	own         []string // names of the flags that are of no use without a log
}

// NewAgainstFlags adds the flags of the comparison, and returns what they are read into.
func NewAgainstFlags(flags *pflag.FlagSet) *AgainstFlags {
	o := &AgainstFlags{}
	flags.StringVar(&o.log, "against", "", "compare the stops of `LOG` with simulated ones, instead of the usual answer")
	own := pflag.NewFlagSet("against", pflag.ContinueOnError)
	own.SortFlags = false
	own.StringVar(&o.counts, "counts", "", "read the feeds of each station and day from `FILE`")
	o.addMapping(own)
	own.Var(&o.dayStarts, "day-starts", "when a day of the counts begins, such as 06:00 (default midnight)")
	desk.Reads(flags, "against")
	desk.Reads(own, "counts")
	own.VisitAll(func(f *pflag.Flag) {
		if flags.Lookup(f.Name) == nil { // else it says something of the run too
			o.own = append(o.own, f.Name)
		}
	})
	flags.AddFlagSet(own)
	return o
}

// Trial is a run that is to be compared with a log, so far as its command line matters here.
type Trial struct {
	*desk.PlanFlags
	*desk.Outputs
	Draws int // of the uncertain inputs
}

// Asked reports whether a run is to be compared with a log.
func (o *AgainstFlags) Asked() bool { return o.log != "" }

// Check says which flags do not go together.
func (o *AgainstFlags) Check(of Trial, args []string) error {
	if !o.Asked() {
		for _, name := range o.own {
			if of.Changed(name) {
				return desk.Wrong("--%s is about a log: --against says which", name)
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
		return desk.Wrong("--against wants the feeds of each station and day too: --counts FILE")
	case of.Data != "":
		return desk.Wrong("--csv writes shifts, and --against simulates none: choose one")
	case of.Changed("precision"):
		return desk.Wrong("--precision is about the net rate, which --against does not report: choose one")
	case of.Draws != 0 && of.Changed("uncertainty"):
		return desk.Wrong("--against draws the uncertain inputs once for each record: --uncertainty can be 0 only")
	case inputs > 1:
		return desk.Wrong("only one of the scenario, the log and the counts can come from standard input")
	}
	return nil
}

// Run compares a scenario with a log, of which only the rows of a job are taken if one is named.
func (o *AgainstFlags) Run(e desk.Env, of Trial, about desk.Subject, job string) error {
	if about.LineGroup != nil {
		return desk.WrongAt(about.Scenario, []string{"lines"}, "the file has several lines, and --against compares one with its log")
	}
	plan, err := of.Fixed(e, about.Run, usualRecords)
	if err != nil {
		return err
	}
	again := about.Again + o.again()
	line, products := *about.Line, about.Products
	if len(about.Setups) > 0 {
		products = nil // the line is set up already
	}
	if of.Draws == 0 {
		line.UncertainInputs, products = nil, certain(products)
		again += " --uncertainty 0"
	}
	o.only.job = job
	if err := o.readMap(e, &o.dayStarts); err != nil {
		return err
	}
	starts := o.dayStarts
	log, err := o.read(e, o.log, o.counts, &starts)
	if err != nil {
		return err
	}
	question := study.Replay{Line: &line, File: desk.ShownFile(about.File), Log: log.Log, DayStarts: time.Duration(starts), Products: products, Plan: plan}
	defer of.Drop()
	if err := of.Begin(e); err != nil {
		return err
	}
	answer, ended := replayed(e, question)
	if answer == nil || answer.Tests == nil {
		return wrongLog(ended)
	}
	return errors.Join(ended, page.Tell(e, of.Outputs, present.Replay{
		ReplayAnswer: answer, Log: log, Origin: page.Origin{Scenario: about.Scenario, Text: about.Source}, Command: again,
	}))
}

// certain returns jobs of which nothing is uncertain.
func certain(products []*setup.Product) (all []*setup.Product) {
	for _, p := range products {
		own := *p
		own.Rates = slices.Clone(p.Rates)
		for i := range own.Rates {
			own.Rates[i].Uncertain = nil
		}
		all = append(all, &own)
	}
	return all
}

// replayed asks the question and shows how far it is. Where nothing was simulated the answer
// has no tests.
func replayed(e desk.Env, q study.Replay) (answer *study.ReplayAnswer, ended error) {
	ended = desk.Watched(e, q.Plan.Max, "record", func(ctx context.Context, watch func(int)) (done int, ending sim.Ending, err error) {
		var told func(study.Sofar[study.ReplayAnswer])
		if watch != nil {
			told = func(s study.Sofar[study.ReplayAnswer]) { watch(s.Done - 1) }
		}
		if answer, err = q.Ask(ctx, told); err != nil {
			return 0, 0, err
		}
		return len(answer.Drawn), answer.Ending, nil
	})
	return answer, ended
}

// again returns the flags as they were given.
func (o *AgainstFlags) again() string {
	text := " --against " + desk.Quoted(o.log) + " --counts " + desk.Quoted(o.counts) + o.mappingFlags.again()
	if o.dayStarts > 0 {
		text += " --day-starts " + o.dayStarts.String()
	}
	return text
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
