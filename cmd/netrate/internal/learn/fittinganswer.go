package learn

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/sim/fit"
)

// answer returns what was learnt: the finding first, then the tables, then how the files
// were read.
func (x *fitting) answer() string {
	var b strings.Builder
	fmt.Fprintf(&b, "Rates from %s and %s%s\n\n%s\n", desk.ShownFile(x.logFile), desk.ShownFile(x.countFile), x.words(), say.Wrapped(x.finding(), say.Screen))
	b.WriteString(say.Columns(x.rateRows()))
	if rows := x.clearRows(); len(rows) > 1 {
		b.WriteString("\n" + say.Columns(rows))
		b.WriteString(say.Wrapped("How long the line stood, ± one standard error. P is how often a record would lie so far off a fit that is right.", say.Screen))
	}
	for _, part := range [][]string{x.divisions(), x.burstNotes(), x.notes()} {
		for i, text := range part {
			if i == 0 {
				b.WriteString("\n")
			}
			if strings.HasPrefix(text, "  ") { // a row of a table
				b.WriteString(text)
			} else {
				b.WriteString(say.Wrapped(text, say.Screen))
			}
		}
	}
	b.WriteString("\n" + wasRead(x.records))
	return b.String() + "\nTo repeat it:\n  " + x.again + "\n"
}

// finding returns the answer in a few sentences.
func (x *fitting) finding() string {
	var text []string
	if l, f := x.worst(); l != nil {
		text = append(text, fmt.Sprintf("The most frequent fault is the %s of %s: one in %s feeds (%s: %s).",
			f.called, l.name, say.OneIn(f.rate.P), x.sure(), interval(f.rate)))
	} else {
		text = append(text, "No fault of a station whose feeds are counted is in the log.")
	}
	var slow *learnt
	for _, l := range x.learnt {
		if l.chosen != nil && (slow == nil || l.chosen.Mean() > slow.chosen.Mean()) {
			slow = l
		}
	}
	if slow != nil {
		text = append(text, fmt.Sprintf("The longest stops are those of %s, %s s on average.", slow.name,
			say.PlusMinus(say.Measured(float64(slow.chosen.Mean()), float64(slow.chosen.MeanSE())))))
	}
	var bad []string
	for _, l := range x.learnt {
		if inBursts(l.bursts) {
			bad = append(bad, l.name)
		}
	}
	if len(bad) > 0 {
		text = append(text, "Stops come in bursts at "+say.List(bad)+": the intervals of the rates are too narrow there, and a forecast with these rates spreads too little.")
	}
	return x.withCautions(strings.Join(text, " "))
}

// sure returns the confidence of the intervals.
func (x *fitting) sure() string { return say.Exact(100*x.level) + " %" }

// worst returns the most frequent fault, nil if there is none.
func (x *fitting) worst() (at *learnt, most *faultLearnt) {
	for _, l := range x.learnt {
		for i := range l.faults {
			if f := &l.faults[i]; f.rate.Faults > 0 && (most == nil || f.rate.P > most.rate.P) {
				at, most = l, f
			}
		}
	}
	return at, most
}

// rateRows returns the table of the rates.
func (x *fitting) rateRows() [][]string {
	rows := [][]string{{"", "seen", "feeds", "one in", x.sure() + ": one in"}}
	for _, l := range x.learnt {
		for _, f := range l.faults {
			rows = append(rows, append([]string{l.name + ", " + f.called}, rateCells(f.rate)...))
		}
	}
	return rows
}

func rateCells(r fit.Rate) []string {
	return []string{say.Thousands(r.Faults), say.Thousands(r.Feeds), say.OneIn(r.P), interval(r)}
}

// clearRows returns the table of the lengths of stops.
func (x *fitting) clearRows() [][]string {
	rows := [][]string{{"", "stops", "cut off", "kind", "mean, s", "cv", "P"}}
	for _, l := range x.learnt {
		c := l.chosen
		if c == nil {
			continue
		}
		cv := "1"
		if se := c.CVSE(); se > 0 {
			cv = say.PlusMinus(say.Measured(c.CV(), se))
		}
		p := "–"
		if c.Goodness.Tested {
			p = say.Rounded(c.Goodness.P, -2)
		}
		rows = append(rows, []string{
			l.name, say.Thousands(len(l.lengths)), say.Thousands(l.cut), c.Kind.String(),
			say.PlusMinus(say.Measured(float64(c.Mean()), float64(c.MeanSE()))), cv, p,
		})
	}
	return rows
}

// ranking returns the kinds that were not chosen, with how far they lie behind by AIC.
func (l *learnt) ranking() string {
	var others []string
	for _, c := range l.clear.Candidates {
		if c.Kind != l.chosen.Kind {
			others = append(others, fmt.Sprintf("%s %+.1f", c.Kind, c.AIC()-l.chosen.AIC()))
		}
	}
	return say.List(others)
}

// burstNotes returns whether the stops of stations come in bursts.
func (x *fitting) burstNotes() []string {
	var text, quiet []string
	for _, l := range x.learnt {
		switch {
		case l.bursts == nil:
		case inBursts(l.bursts):
			text = append(text, l.name+": "+l.bursts.Finding())
		default:
			quiet = append(quiet, fmt.Sprintf("%s (%s)", l.name, say.Plural(l.bursts.Stops, "stop")))
		}
	}
	if len(quiet) > 0 {
		text = append(text, "No bursts are shown at "+say.List(quiet)+". The model takes faults for independent.")
	}
	if len(text) > 0 {
		text = append(text, "Bursts were looked for in the time for which the line ran between stops, as the log has no feeds; pauses are guessed.")
	}
	return text
}
