package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
)

// shownSources is how many of the uncertain inputs have a row on the screen.
const shownSources = 6

// leastSource is the share of the uncertainty below which a number has no row.
const leastSource = 0.01

// found returns how far the figure is known that a line is judged by, what it is with all inputs at
// their nominal values, and how much of what shifts vary by is chance.
func (d Uncertain) found(nominal *runs.Study) []fact {
	below, above := UncertaintyEnds(d.singles())
	e, word := nominal.Interval(d.Of(), say.Level), page.Period(d.Study.Line)
	name, what, unit := "Net rate", "good envelopes an hour in the long run", ""
	if d.Job {
		name, what, unit = "Finished", "h on average, in the long run", " h"
	}
	return []fact{{name, []string{
		fmt.Sprintf("%s %s (95 %%)", fromTo(UncertaintyEnds(d.longRun())), what),
		fmt.Sprintf("%s%s with %s", say.PlusMinus(say.Measured(e.Mean, e.Half)), unit, d.nominal()),
		fmt.Sprintf("One %s in twenty falls below %s, one in twenty exceeds %s", word, below, above),
		fmt.Sprintf("Variance of %ss: %s (%s to %s) from what is uncertain",
			word, uncertainShare(d.Share.Share), uncertainShare(d.Share.Low), uncertainShare(d.Share.High)),
	}}}
}

// nominal says that all uncertain inputs have their nominal values.
func (d Uncertain) nominal() string {
	if n := len(d.Study.Line.UncertainInputs); n > 1 {
		return "all " + say.Plural(n, "uncertain input") + " at their nominal values"
	}
	return "the uncertain input at its nominal value"
}

// Text says what the uncertainty comes of.
func (d Uncertain) Text() string {
	table := d.Table(d.shown())
	text := say.Wrapped(d.MoreData()+fmt.Sprintf(" Drawn anew %s times.", say.Thousands(d.Draws)), say.Screen)
	if len(table.Rows) == 0 {
		return text
	}
	return brief(table) + text
}

// shown returns the sources that have a row on the screen.
func (d Uncertain) shown() []study.UncertaintySource {
	n := 0
	for n < min(len(d.Sources), shownSources) && d.Sources[n].Share >= leastSource {
		n++
	}
	return d.Sources[:n]
}

// uncertainShare returns a share of what is uncertain.
func uncertainShare(share study.Number) string { return say.Percent(float64(share), 0.01) }

// MoreData says what more data would buy.
func (d Uncertain) MoreData() string {
	if len(d.Sources) == 0 {
		return fmt.Sprintf("Too few draws to tell which of them matter: %s or more would.", "--uncertainty "+say.Thousands(2*len(d.Study.Line.UncertainInputs)+3))
	}
	if !d.DataHelps() {
		return "More data would hardly narrow that: only better knowledge of the rest does."
	}
	return fmt.Sprintf("With twice the data of all that was counted or measured the long run would be known to %s%s, with ten times as much to %s.",
		knownTo(float64(d.Twice)), d.unit(), knownTo(d.HalfWith(10)))
}
