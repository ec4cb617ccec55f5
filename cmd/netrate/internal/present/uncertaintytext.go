package present

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/sim"
)

// shownSources is how many of the uncertain inputs have a row on the screen.
const shownSources = 6

// leastSource is the share of the uncertainty below which a number has no row.
const leastSource = 0.01

// found returns what the figure is in the long run and how far that is known, how much of what
// shifts vary by is chance, and what it is at nominal values.
func (d Uncertain) found(nominal sim.Estimate) fact {
	below, above := UncertaintyEnds(d.singles())
	word, longRun := page.Period(d.Study.Line), fromTo(UncertaintyEnds(d.longRun()))
	mean := d.mean()
	f := fact{"Net rate", []string{fmt.Sprintf("%s good envelopes an hour in the long run (95 %%: %s)", mean, longRun)}}
	if d.Job {
		f = fact{"Finished", []string{fmt.Sprintf("after %s h in the long run (95 %%: %s)", mean, longRun)}}
	}
	f.says = append(f.says,
		fmt.Sprintf("One %s in twenty falls below %s, one in twenty exceeds %s", word, below, above),
		fmt.Sprintf("Variance of %ss: %s (%s to %s) from %s", word, uncertainShare(d.Share.Share), uncertainShare(d.Share.Low),
			uncertainShare(d.Share.High), say.Plural(len(d.Study.Line.UncertainInputs), "uncertain input")),
		"At nominal values: "+say.PlusMinus(say.Measured(nominal.Mean, nominal.Half)))
	return f
}

// mean returns the mean over the draws, with the digits that its interval bears.
func (d Uncertain) mean() string {
	mean, _ := say.Measured(d.UncertainFigure.All.Mean(), d.Half())
	return mean
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
