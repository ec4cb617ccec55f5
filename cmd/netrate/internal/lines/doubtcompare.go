package lines

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/plots"
)

// ahead is how far it is known what an entrant delivers more than another.
type ahead struct {
	*doubtOf
	sure float64 // probability that it delivers more in the long run
}

// aheadOf sets entrant i against another, draw by draw.
func (c *contest) aheadOf(rival, i int) ahead {
	study := c.entrants[i].doubt
	a := ahead{doubtOf: &doubtOf{Doubted: c.entrants[rival].doubt.Ahead(study, netRateIn), study: study}}
	for _, x := range a.LongRun {
		if x > 0 {
			a.sure++
		}
	}
	a.sure /= float64(len(a.LongRun))
	return a
}

// inDoubt returns the doubt of an entrant's net rate.
func (c *contest) inDoubt(i int) *model.Doubted { return c.entrants[i].doubt.Of(netRateIn) }

// netRateIn is what lines are compared by, jobs too.
func netRateIn(s *model.Shift) float64 { return s.NetRate }

// doubtBlock returns how far the lines are known; nothing if nothing is in doubt.
func (c *contest) doubtBlock() string {
	if c.entrants[0].doubt == nil {
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
		row := []string{c.entrants[i].name, fromTo(within(c.inDoubt(i).Interval(say.Level))), "", ""}
		if i > 0 {
			a := c.aheadOf(0, i)
			row[2], row[3] = fromTo(withinSigned(a.Interval(say.Level))), say.Percent(a.sure, 0.01)
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
	a := c.aheadOf(c.rival(), c.best)
	text := fmt.Sprintf("What is not known is drawn anew %s times, the same for all lines. Of the variance of what %s is ahead of %s, %s by %s, %s is not knowing it.",
		say.Thousands(a.study.Draws()), c.call(c.best), c.call(c.rival()), c.period(), c.period(), say.Percent(a.Parts.Share(), 0.01))
	if a.Sources == nil || a.Sources[0].Share < leastSource {
		return text
	}
	text += fmt.Sprintf(" %s of that comes of %s (%s)", mostOf(a.Sources[0].Share), doubtCalled(a.Sources[0].Doubt), say.Percent(a.Sources[0].Share, 0.01))
	everything := func(model.Doubt) bool { return true }
	if a.Narrowed(2, everything) > hardly {
		return text + "; more data would hardly narrow it."
	}
	return text + fmt.Sprintf("; with twice the data of all the difference would be known to %s an hour, not ± %s.",
		a.narrowed(2, everything), say.TwoDigitsOr0(a.half()))
}

// mostOf returns what the largest share of something is called.
func mostOf(share float64) string {
	if share > 0.5 {
		return "Most"
	}
	return "The largest part"
}

// doubtSection says how far the lines and their differences are known.
func (c *contest) doubtSection(r *page.Report) plots.Section {
	a := c.aheadOf(c.rival(), c.best)
	t := a.table()
	t.Caption = fmt.Sprintf("What is in doubt, and what it does to what %s is ahead of %s; ± is half of the 95 %% interval of that in the long run, with twice the data of that number alone",
		c.call(c.best), c.call(c.rival()))
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
	for i, x := range c.entrants {
		low, high := c.inDoubt(i).Interval(say.Level)
		row := []plots.Entry{page.Words(x.name), page.Value(low), page.Value(high)}
		none := plots.Entry{Number: math.NaN()}
		if i == 0 {
			row = append(row, none, none, none)
		} else {
			a := c.aheadOf(0, i)
			from, to := a.Interval(say.Level)
			row = append(row, page.Value(from), page.Value(to), page.Value(100*a.sure))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func rateColumn(title string) plots.Column { return plots.Column{Title: title, Kind: plots.Number} }

// compareDoubtJSON is how far lines and their differences from the base are known.
type compareDoubtJSON struct {
	Lines []lineDoubtJSON `json:"lines"` // in the order of the lines
}

type lineDoubtJSON struct {
	Name  string       `json:"name"`
	Line  *doubtJSON   `json:"net_rate"`
	Ahead *doubtJSON   `json:"to_base,omitempty"`
	Sure  *page.Number `json:"sure_to_be_ahead,omitempty"`
}

func (c *contest) doubtDocument() *compareDoubtJSON {
	if c.entrants[0].doubt == nil {
		return nil
	}
	doc := &compareDoubtJSON{}
	for i, x := range c.entrants {
		own := doubtOf{Doubted: c.inDoubt(i), study: x.doubt}
		line := lineDoubtJSON{Name: x.name, Line: own.document()}
		if i > 0 {
			a := c.aheadOf(0, i)
			sure := page.Number(a.sure)
			line.Ahead, line.Sure = a.document(), &sure
		}
		doc.Lines = append(doc.Lines, line)
	}
	return doc
}
