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

// Finding says what the figure is in the long run and how far that is known, how much of what shifts
// vary by is chance, and what it is at nominal values.
func (d Uncertain) Finding(nominal sim.Estimate) string {
	below, above := UncertaintyEnds(d.singles())
	word := page.Period(d.Study.Line)
	lead := fmt.Sprintf("Net rate  %s good envelopes an hour in the long run (95 %%: %s)\n", d.mean(), fromTo(UncertaintyEnds(d.longRun())))
	if d.Job {
		lead = fmt.Sprintf("Finished  after %s h in the long run (95 %%: %s)\n", d.mean(), fromTo(UncertaintyEnds(d.longRun())))
	}
	return lead +
		fmt.Sprintf("          One %s in twenty falls below %s, one in twenty exceeds %s\n", word, below, above) +
		fmt.Sprintf("          Variance of %ss: %s (%s to %s) from %s\n",
			word, uncertainShare(d.Share.Share), uncertainShare(d.Share.Low), uncertainShare(d.Share.High), d.numbers()) +
		"          At nominal values: " + say.PlusMinus(say.Measured(nominal.Mean, nominal.Half)) + "\n"
}

// mean returns the mean over the draws, with the digits that its interval bears.
func (d Uncertain) mean() string {
	mean, _ := say.Measured(d.UncertainFigure.All.Mean(), d.Half())
	return mean
}

// numbers returns how many numbers are uncertain.
func (d Uncertain) numbers() string {
	return say.Plural(len(d.Study.Line.UncertainInputs), "uncertain input")
}

// Headline says the same in a sentence.
func (d Uncertain) Headline(nominal sim.Estimate) string {
	what := "good envelopes an hour in the long run"
	if d.Job {
		what = "h until the job is finished, on average"
	}
	return fmt.Sprintf("%s %s, from %s (95 %%), allowing for %s; %s with all of them at their nominal values.",
		d.mean(), what, fromTo(UncertaintyEnds(d.longRun())), d.numbers(), say.PlusMinus(say.Measured(nominal.Mean, nominal.Half)))
}

// Text says what the uncertainty comes of.
func (d Uncertain) Text() string {
	return d.sourcesTable() + say.Wrapped(d.MoreData()+fmt.Sprintf(" Drawn anew %s times.", say.Thousands(d.Draws)), say.Screen)
}

// sourcesTable returns the numbers that the uncertainty comes of.
func (d Uncertain) sourcesTable() string {
	if len(d.Sources) == 0 {
		return ""
	}
	rows := [][]string{{"Source of uncertainty", "nominal", "95 %: from", "to", "share", "twice the data"}}
	for i, s := range d.Sources {
		if i == shownSources || s.Share < leastSource {
			break
		}
		rows = append(rows, []string{
			uncertainCalled(s.Input), uncertainValue(s.Input, float64(s.Nominal)),
			uncertainValue(s.Input, float64(s.Range.Low)), uncertainValue(s.Input, float64(s.Range.High)),
			uncertainShare(s.Share), d.twice(s),
		})
	}
	if len(rows) == 1 {
		return ""
	}
	return say.Columns(rows)
}

// twice returns the half-width with twice the data of one number; "–" if it does not come of
// data.
func (d Uncertain) twice(s study.UncertaintySource) string {
	if !s.FromData {
		return "–"
	}
	return knownTo(d.HalfWithTwice(s.Input))
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
