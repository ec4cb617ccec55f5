package present

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
	"netrate/scenarios/stoplog"
	"netrate/sim"
	"netrate/sim/fit"
)

// Fit is what was learnt of a log, to be said.
type Fit struct {
	*study.FitAnswer
	Log     Log
	Command string // that does it again
}

// Finding returns the answer in a few sentences.
func (f Fit) Finding() string {
	var text []string
	if s, fault := f.Worst(); s != nil {
		text = append(text, fmt.Sprintf("The most frequent fault is the %s of %s: one in %s feeds (%s: %s).",
			fault.Called, s.Name, say.OneIn(fault.Rate.P), f.Sure(), interval(fault.Rate)))
	} else {
		text = append(text, "No fault of a station whose feeds are counted is in the log.")
	}
	if slow := f.Slowest(); slow != nil {
		text = append(text, fmt.Sprintf("The longest stops are those of %s, %s s on average.", slow.Name, averageOf(&slow.Clearing)))
	}
	var bad []string
	for i := range f.Stations {
		if f.Stations[i].InBursts() {
			bad = append(bad, f.Stations[i].Name)
		}
	}
	if len(bad) > 0 {
		text = append(text, "Stops come in bursts at "+say.List(bad)+": the intervals of the rates allow for that there, but shifts will differ more than a forecast with these rates says.")
		if at, b := f.closest(); b != nil {
			text = append(text, fmt.Sprintf("The densest was %s: %s at %s, where %s were expected.", burstAt(b), say.Plural(b.Stops, "stop"), at.Name, say.FewDigits(b.Expected)))
		}
	}
	text = append(text, f.unseenBursts()...)
	return f.Log.cautioned(strings.Join(slices.Concat(f.nameless(), text), " "))
}

// nameless says what is taken of stops without a cause.
func (f Fit) nameless() []string {
	n := f.Nameless()
	if n.Stops == 0 {
		return nil
	}
	return []string{fmt.Sprintf("%s of %s at stations with feeds (%s) have no cause: they are shared out among the causes of their stations in proportion, as if nobody chose which to leave out. Without that rates would be as much lower, and net rates too high.",
		say.Thousands(n.Stops), say.Plural(n.Of, "stop"), say.Percent(float64(n.Stops)/float64(n.Of), 0))}
}

// Sure returns the confidence of the intervals.
func (f Fit) Sure() string { return say.Exact(100*f.Level) + " %" }

// interval returns the interval of a rate as feeds for each fault, or its limit.
func interval(r fit.Rate) string {
	if r.Faults == 0 {
		return "over " + say.OneIn(r.AtMost)
	}
	return say.OneIn(r.High) + " to " + say.OneIn(r.Low)
}

// meanOf returns the mean of a distribution with its standard error.
func meanOf(c *fit.Candidate) string {
	return say.PlusMinus(say.Measured(float64(c.Mean()), float64(c.MeanSE())))
}

// averageOf returns the mean of a clearing time with its standard error: of the fit, or, where no
// distribution fits, of the stops themselves, those cut off among them at the length that is written.
func averageOf(c *study.FitClearing) string {
	if !c.Misfits() {
		return meanOf(c.Chosen)
	}
	var lengths sim.Sample
	for _, x := range c.Lengths {
		lengths = append(lengths, float64(x.Seconds))
	}
	return say.PlusMinus(say.Measured(lengths.Mean(), lengths.SD()/math.Sqrt(float64(len(lengths)))))
}

// partial returns a warning that ends so, if stations are missing.
func (f Fit) partial(end string) string {
	if !f.Partial {
		return ""
	}
	return fmt.Sprintf("PARTIAL ANSWER, interrupted: %d of %s", len(f.Stations), say.Plural(len(f.FitAnswer.Log.Stations), "station")) + end
}

// Text returns what was learnt: the finding first, then the tables, then how the files were
// read.
func (f Fit) Text() string {
	tables := []plots.Table{f.Rates()}
	if days := f.SpreadTable(); f.Spread.Shown() {
		tables = append(tables, days)
	}
	if bursts := f.BurstTable(); len(bursts.Rows) > 0 {
		tables = append(tables, bursts)
	}
	if times := f.ClearingTimes(); len(times.Rows) > 0 {
		tables = append(tables, times)
	}
	shown, _ := f.Divisions()
	title := fmt.Sprintf("Rates from %s and %s%s", f.Log.StopFile.Name, f.Log.CountFile.Name, stoplog.Taken(f.Log.Log))
	var b strings.Builder
	b.WriteString(f.partial("\n\n"))
	b.WriteString(Screen(title, f.Finding(), append(tables, shown...)...) + "\n")
	if divided := f.divided(); divided != "" {
		b.WriteString(say.Wrapped(divided, say.Prose()) + "\n")
	}
	for _, part := range [][]string{f.spreadNotes(), f.burstNotes(), f.Notes()} {
		for _, text := range part {
			b.WriteString(say.Wrapped(text, say.Prose()))
		}
		if len(part) > 0 {
			b.WriteString("\n")
		}
	}
	b.WriteString(f.Log.read())
	return b.String() + "\nTo repeat it:\n  " + f.Command + "\n"
}
