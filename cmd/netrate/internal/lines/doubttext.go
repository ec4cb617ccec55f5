package lines

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
)

// shownSources is how many of the numbers in doubt have a row on the screen.
const shownSources = 6

// leastSource is the share of the doubt below which a number has no row.
const leastSource = 0.01

// hardly is a width against another that is hardly narrower.
const hardly = 0.97

// doubtBlock returns how far the answer of a run is known; nothing if nothing is in doubt.
func doubtBlock(l *model.Line, s *model.DoubtStudy) string {
	if s == nil {
		if note := page.GivenNote(l); note != "" {
			return "\n" + note
		}
		return ""
	}
	d := doubtIn(s)
	return "\n" + d.finding() + "\n" + d.sourcesTable() + say.Wrapped(d.moreData(), say.Screen)
}

// finding says how far the figure is known, and how much of what shifts vary by is chance.
func (d *doubtOf) finding() string {
	interval := fromTo(within(d.Interval(say.Level)))
	below, above := within(d.All.Quantile(0.05), d.All.Quantile(0.95))
	low, high := d.Parts.ShareInterval(say.Level)
	word := page.Period(d.study.Line)
	return fmt.Sprintf("In doubt  %s of the file, drawn anew %s times\n", say.Plural(len(d.study.Line.Doubts), "number"), say.Thousands(d.study.Draws())) +
		fmt.Sprintf("          %s %s%s with 95 %%: ± %s\n", d.called(), interval, d.unit(), say.TwoDigitsOr0(d.half())) +
		fmt.Sprintf("          One %s in twenty falls below %s, one in twenty exceeds %s\n", word, below, above) +
		fmt.Sprintf("          Of the variance of %ss %s (%s to %s) is not knowing them\n",
			word, say.Percent(d.Parts.Share(), 0.01), say.Percent(low, 0.01), say.Percent(high, 0.01))
}

// sourcesTable returns the numbers that the doubt comes of.
func (d *doubtOf) sourcesTable() string {
	if d.Sources == nil {
		return ""
	}
	rows := [][]string{{"Doubt comes of", "given", "95 %: from", "to", "share", "with twice its data"}}
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
