package lines

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/sim"
)

// shownSources is how many of the numbers in doubt have a row on the screen.
const shownSources = 6

// leastSource is the share of the doubt below which a number has no row.
const leastSource = 0.01

// inDoubt returns how far the answer of a run is known and what the doubt comes of, or else
// that what is in doubt was not drawn.
func inDoubt(u *study.Uncertainty, lines ...*model.Line) (found, table, note string) {
	if u != nil {
		d := doubtOf{u}
		return d.finding(), "\n" + d.doubtTable(), ""
	}
	if note = page.GivenNote(lines...); note != "" {
		note = "\n" + note
	}
	return "", "", note
}

// finding says how far the figure is known, and how much of what shifts vary by is chance.
func (d doubtOf) finding() string {
	interval := fromTo(within(d.longRun()))
	below, above := within(d.singles())
	word := page.Period(d.Study.Line)
	return fmt.Sprintf("In doubt  %s %s (95 %%), known to ± %s\n", interval, d.called(), say.TwoDigitsOr0(d.Half())) +
		fmt.Sprintf("          One %s in twenty falls below %s, one in twenty exceeds %s\n", word, below, above) +
		fmt.Sprintf("          Of the variance of %ss %s (%s to %s) is not knowing %s\n",
			word, percent(d.Share.Share), percent(d.Share.Low), percent(d.Share.High), d.numbers())
}

// numbers returns how many numbers are in doubt.
func (d doubtOf) numbers() string { return say.Plural(len(d.Study.Line.Doubts), "number") }

// headline says the same in a sentence, as given beside it.
func (d doubtOf) headline(given sim.Estimate) string {
	what := "good envelopes an hour in the long run"
	if d.Job {
		what = "h until the job is finished, on average"
	}
	return fmt.Sprintf("From %s %s (95 %%), if the doubt of %s is allowed for; %s with all as they are given.",
		fromTo(within(d.longRun())), what, d.numbers(), say.PlusMinus(say.Measured(given.Mean, given.Half)))
}

// doubtTable says what the doubt comes of.
func (d doubtOf) doubtTable() string {
	return d.sourcesTable() + say.Wrapped(d.moreData()+fmt.Sprintf(" Drawn anew %s times.", say.Thousands(d.Draws)), say.Screen)
}

// sourcesTable returns the numbers that the doubt comes of.
func (d doubtOf) sourcesTable() string {
	if len(d.Sources) == 0 {
		return ""
	}
	rows := [][]string{{"Doubt comes of", "given", "95 %: from", "to", "of the doubt", "twice the data"}}
	for i, s := range d.Sources {
		if i == shownSources || s.Share < leastSource {
			break
		}
		rows = append(rows, []string{
			doubtCalled(s.Input), doubtValue(s.Input, float64(s.Given)),
			doubtValue(s.Input, float64(s.Range.Low)), doubtValue(s.Input, float64(s.Range.High)),
			percent(s.Share), d.twice(s),
		})
	}
	if len(rows) == 1 {
		return ""
	}
	return say.Columns(rows)
}

// twice returns the half-width with twice the data of one number; "–" if it does not come of
// data.
func (d doubtOf) twice(s study.UncertaintySource) string {
	if !s.Learnt {
		return "–"
	}
	return known(d.HalfWithTwice(s.Input))
}

// percent returns a share of what is uncertain.
func percent(share study.Number) string { return say.Percent(float64(share), 0.01) }

// moreData says what more data would buy.
func (d doubtOf) moreData() string {
	if len(d.Sources) == 0 {
		return fmt.Sprintf("Too few draws to tell which of them matter: %s or more would.", "--doubt "+say.Thousands(2*len(d.Study.Line.Doubts)+3))
	}
	if !d.DataHelps() {
		return "More data would hardly narrow that: only better knowledge of the rest does."
	}
	return fmt.Sprintf("With twice the data of all that was counted or measured the long run would be known to %s%s, with ten times as much to %s.",
		known(float64(d.Twice)), d.unit(), known(d.HalfWith(10)))
}
