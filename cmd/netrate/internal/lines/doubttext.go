package lines

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/sim"
)

// shownSources is how many of the numbers in doubt have a row on the screen.
const shownSources = 6

// leastSource is the share of the doubt below which a number has no row.
const leastSource = 0.01

// hardly is a width against another that is hardly narrower.
const hardly = 0.97

// inDoubt returns how far the answer of a run is known and what the doubt comes of, or else
// that what is in doubt was not drawn.
func inDoubt(x entrant) (found, table, note string) {
	if x.doubt != nil {
		d := doubtIn(x.doubt)
		return d.finding(), "\n" + d.doubtTable(), ""
	}
	if note = page.GivenNote(x.line); note != "" {
		note = "\n" + note
	}
	return "", "", note
}

// finding says how far the figure is known, and how much of what shifts vary by is chance.
func (d *doubtOf) finding() string {
	interval := fromTo(within(d.Interval(say.Level)))
	below, above := within(d.All.Quantile(0.05), d.All.Quantile(0.95))
	low, high := d.Parts.ShareInterval(say.Level)
	word := page.Period(d.study.Line)
	return fmt.Sprintf("In doubt  %s %s (95 %%), known to ± %s\n", interval, d.called(), say.TwoDigitsOr0(d.half())) +
		fmt.Sprintf("          One %s in twenty falls below %s, one in twenty exceeds %s\n", word, below, above) +
		fmt.Sprintf("          Of the variance of %ss %s (%s to %s) is not knowing %s\n",
			word, say.Percent(d.Parts.Share(), 0.01), say.Percent(low, 0.01), say.Percent(high, 0.01), d.numbers())
}

// numbers returns how many numbers are in doubt.
func (d *doubtOf) numbers() string { return say.Plural(len(d.study.Line.Doubts), "number") }

// headline says the same in a sentence, as given beside it.
func (d *doubtOf) headline(given sim.Estimate) string {
	what := "good envelopes an hour in the long run"
	if d.job {
		what = "h until the job is finished, on average"
	}
	return fmt.Sprintf("From %s %s (95 %%), if the doubt of %s is allowed for; %s with all as they are given.",
		fromTo(within(d.Interval(say.Level))), what, d.numbers(), say.PlusMinus(say.Measured(given.Mean, given.Half)))
}

// doubtTable says what the doubt comes of.
func (d *doubtOf) doubtTable() string {
	return d.sourcesTable() + say.Wrapped(d.moreData()+fmt.Sprintf(" Drawn anew %s times.", say.Thousands(d.study.Draws())), say.Screen)
}

// sourcesTable returns the numbers that the doubt comes of.
func (d *doubtOf) sourcesTable() string {
	if d.Sources == nil {
		return ""
	}
	rows := [][]string{{"Doubt comes of", "given", "95 %: from", "to", "of the doubt", "twice the data"}}
	for i, s := range d.Sources {
		if i == shownSources || s.Share < leastSource {
			break
		}
		rows = append(rows, []string{
			doubtCalled(s.Doubt), doubtValue(s.Doubt, s.Doubt.Of.Given()),
			doubtValue(s.Doubt, s.Doubt.Of.Quantile((1-say.Level)/2)), doubtValue(s.Doubt, s.Doubt.Of.Quantile((1+say.Level)/2)),
			say.Percent(s.Share, 0.01), d.twice(s.Doubt),
		})
	}
	if len(rows) == 1 {
		return ""
	}
	return say.Columns(rows)
}

// twice returns the half-width with twice the data of one number; "–" if it does not come of
// data.
func (d *doubtOf) twice(of model.Doubt) string {
	if !of.Of.Learnt() {
		return "–"
	}
	return d.narrowed(2, func(x model.Doubt) bool { return x == of })
}

// moreData says what more data would buy.
func (d *doubtOf) moreData() string {
	if d.Sources == nil {
		return fmt.Sprintf("Too few draws to tell which of them matter: %s or more would.", "--doubt "+say.Thousands(2*len(d.study.Line.Doubts)+3))
	}
	everything := func(model.Doubt) bool { return true }
	if d.Narrowed(2, everything) > hardly {
		return "More data would hardly narrow that: only better knowledge of the rest does."
	}
	return fmt.Sprintf("With twice the data of all that was counted or measured the long run would be known to %s%s, with ten times as much to %s.",
		d.narrowed(2, everything), d.unit(), d.narrowed(10, everything))
}
