package lines

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// doubtBlock returns how far the lines are known; nothing if nothing is in doubt.
func (c *contest) doubtBlock() string {
	if c.Uncertainty == nil {
		if note := page.GivenNote(c.attended()...); note != "" {
			return "\n" + note
		}
		return ""
	}
	return "\n" + c.doubtTable() + say.Wrapped(c.doubtSentence(), say.Screen)
}

// doubtTable returns a row for each entrant.
func (c *contest) doubtTable() string {
	rows := [][]string{{"In doubt: long run, 95 %", "net rate", "to base", "sure to be ahead"}}
	for _, i := range c.rows() {
		u := c.Uncertainty.Lines[i]
		row := []string{u.Name, fromTo(within(doubtOf{u.NetRate}.longRun())), "", ""}
		if u.Ahead != nil {
			row[2], row[3] = fromTo(withinSigned(doubtOf{u.Ahead}.longRun())), percent(*u.Sure)
		}
		rows = append(rows, row)
	}
	return say.Columns(rows)
}

// fromTo returns an interval, or one figure where no doubt is shown.
func fromTo(from, to string) string {
	if from == to {
		return from
	}
	return from + " to " + to
}

// withinSigned returns the ends of an interval of a difference.
func withinSigned(low, high float64) (from, to string) {
	from, to = within(low, high)
	sign := func(x float64, text string) string {
		if x > 0 {
			return "+" + text
		}
		return text
	}
	return sign(low, from), sign(high, to)
}

// doubtSentence says what the doubt of the difference comes of.
func (c *contest) doubtSentence() string {
	a := doubtOf{c.Uncertainty.Rival.Uncertainty}
	text := fmt.Sprintf("What is not known is drawn anew %s times, the same for all lines. Of the variance of what %s is ahead of %s, %s by %s, %s is not knowing it.",
		say.Thousands(a.Draws), c.call(c.Leader), c.call(c.Rival), c.period(), c.period(), percent(a.Share.Share))
	if len(a.Sources) == 0 || a.Sources[0].Share < leastSource {
		return text
	}
	text += fmt.Sprintf(" %s of that comes of %s (%s)", mostOf(a.Sources[0].Share), doubtCalled(a.Sources[0].Input), percent(a.Sources[0].Share))
	if !a.DataHelps() {
		return text + "; more data would hardly narrow it."
	}
	return text + fmt.Sprintf("; with twice the data of all the difference would be known to %s an hour, not ± %s.",
		known(float64(a.Twice)), say.TwoDigitsOr0(a.Half()))
}

// mostOf returns what the largest share of something is called.
func mostOf(share study.Number) string {
	if share > 0.5 {
		return "Most"
	}
	return "The largest part"
}

// doubtSection says how far the lines and their differences are known.
func (c *contest) doubtSection(r *page.Report) plots.Section {
	a := doubtOf{c.Uncertainty.Rival.Uncertainty}
	t := a.table()
	t.Caption = fmt.Sprintf("What is in doubt, and what it does to what %s is ahead of %s; ± is half of the 95 %% interval of that in the long run, with twice the data of that number alone",
		c.call(c.Leader), c.call(c.Rival))
	return plots.Section{
		Heading: "What is not known",
		Text:    c.doubtSentence() + "\n\n" + doubtText,
		Figures: []*plots.Figure{r.Figure("doubt-sources")(a.sourcesFigure())},
		Tables:  []plots.Table{c.longRunTable(), t},
	}
}

// longRunTable returns how far every line is known.
func (c *contest) longRunTable() plots.Table {
	t := plots.Table{
		Name: "Long run", Caption: "Net rate in the long run, " + page.PerHour + ", with what is in doubt drawn anew: 95 % intervals, of each by itself",
		Columns: []plots.Column{
			{Title: "Line"},
			rateColumn("From"), rateColumn("to"), rateColumn("To base: from"), rateColumn("to"),
			{Title: "Sure to be ahead", Unit: "%", Kind: plots.Number, Decimals: 1},
		},
	}
	for _, u := range c.Uncertainty.Lines {
		low, high := doubtOf{u.NetRate}.longRun()
		row := []plots.Entry{page.Words(u.Name), page.Value(low), page.Value(high)}
		none := plots.Entry{Number: math.NaN()}
		if u.Ahead == nil {
			row = append(row, none, none, none)
		} else {
			from, to := doubtOf{u.Ahead}.longRun()
			row = append(row, page.Value(from), page.Value(to), page.Value(100*float64(*u.Sure)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func rateColumn(title string) plots.Column { return plots.Column{Title: title, Kind: plots.Number} }
