package present

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// mostMatters is how many assumptions stand on the page for the board.
const mostMatters = 3

// decision returns the first page of a comparison: what a board decides by.
func (c Comparison) decision(r *page.Report) *plots.Decision {
	d := &plots.Decision{Table: c.alternativesTable(), Cautions: plots.Cautions()}
	if f := r.Unlisted(c.picture()); f != nil {
		d.Picture = f
	}
	d.Matters, d.MattersBy = c.matters()
	if c.Money != nil && d.Matters != nil {
		d.MattersBy = "Of the net rate, not of the money: " + strings.ToLower(d.MattersBy[:1]) + d.MattersBy[1:]
	}
	return d
}

// picture draws the first line, and what the one that is recommended changes.
func (c Comparison) picture() (*plots.Figure, error) {
	base := lineOf(&c.Lines[0])
	var others []OtherLine
	switch i := c.recommended(); {
	case c.grouped():
		for _, l := range c.Lines[0].Of.Group.Lines[1:] {
			others = append(others, OtherLine{l.Name, study.LayoutOf(l)})
		}
	case i > 0:
		others = []OtherLine{{c.Lines[i].Name, study.LayoutAgainst(lineOf(&c.Lines[i]), base)}}
	}
	return BriefLayout(c.called(0), study.LayoutOf(base), others, c.grouped())
}

// alternativesTable returns all alternatives, as a board weighs them.
func (c Comparison) alternativesTable() plots.Table {
	unit := "good envelopes/h"
	rates := RateColumns("Net rate", "")
	for i := range rates {
		rates[i].Unit = unit
	}
	rates[0].Bar = true
	t := plots.Table{Name: "Decision", Caption: "The alternatives. ± is half of a 95 % interval", Names: 1, Columns: append([]plots.Column{{Title: "Line"}}, rates...)}
	if c.Money != nil {
		return c.offersTable(t)
	}
	if c.Selection == nil {
		against := RateColumns("Against the base", "")
		against[0].Bar = true
		t.Columns = append(t.Columns, against...)
	}
	t.Columns = append(t.Columns,
		plots.Column{Title: "Defective", Unit: "per million", Kind: plots.Number, Decimals: 2},
		plots.Column{Title: "Crew", Kind: plots.Number, Decimals: 0})
	for i := range c.Lines {
		x := &c.Lines[i]
		row := append([]plots.Entry{page.Words(x.Name)}, estimated(x.NetRate.Estimate())...)
		if c.Selection == nil {
			against := nothings(2)
			if i > 0 {
				against = differing(c.Compared[0][i].Difference)
			}
			row = append(row, against...)
		}
		crew := x.Study.Line.Crew.Mean(x.Study.Line.Shift)
		t.Rows = append(t.Rows, append(row, defective(x.Study), plots.Entry{Number: crew, Shown: say.Exact(crew)}))
		t.Roles = append(t.Roles, roleOf(i, c.recommended()))
	}
	return t
}

// offersTable returns the table of the alternatives as a board weighs them where there is money: one row for each,
// with what it delivers, its price, what it costs and is worth, and how often it is the cheapest.
func (c Comparison) offersTable(t plots.Table) plots.Table {
	a, unit := c.Money, c.Money.Currency
	t.Caption += ". NPV: net present value against the base, its mean and what nine draws in ten lie between. Cheapest: the share of the draws in which it costs least, all in"
	t.Columns = append(t.Columns,
		MoneyColumn("Price", unit, 0),
		plots.Column{Title: "All-in cost", Unit: unit + " per 1,000", Kind: plots.Number, Decimals: 2, Bar: true},
		MoneyColumn("NPV", unit, 0),
		MoneyColumn("5 % to 95 %", unit, 0),
		plots.Column{Title: "Cheapest", Unit: "of draws", Kind: plots.Share, Decimals: 1},
		plots.Column{Title: "Defective", Unit: "per million", Kind: plots.Number, Decimals: 2})
	for i := range c.Lines {
		x, worth := &c.Lines[i], nothings(2)
		if i > 0 {
			npv := a.Worth.Gains[i].NPV
			worth = []plots.Entry{presentValues(a).entry(npv.Mean()), page.Words(presentValues(a).nineInTen(npv))}
		}
		t.Rows = append(t.Rows, slices.Concat([]plots.Entry{page.Words(x.Name)}, estimated(x.NetRate.Estimate()),
			[]plots.Entry{averaged(a.Worth.Lines[i].Price), allIn(a).entry(a.Worth.AllInPerThousand(i).Mean())}, worth,
			[]plots.Entry{{Number: float64(a.Lines[i].Cheapest.Share), Shown: worthChance(a.Worth.Cheapest(i))}, defective(x.Study)}))
		t.Roles = append(t.Roles, roleOf(i, c.recommended()))
	}
	return t
}

// matters returns the assumptions on which the answer rests most, and how they were found.
func (c Comparison) matters() (all []string, by string) {
	if u := c.Uncertainty; u != nil {
		d := uncertaintyBetween(c.ComparisonAnswer)
		for _, s := range d.Sources[:min(len(d.Sources), mostMatters)] {
			if s.Share >= leastSource {
				all = append(all, fmt.Sprintf("%s: %s; %s of the uncertainty.", say.Capital(d.called(s.Input)), uncertainRange(s.Input), uncertainShare(s.Share)))
			}
		}
		if all != nil {
			return all, fmt.Sprintf("The uncertain inputs that make most of the uncertainty of how far %s is ahead of %s.", c.called(c.Leader), c.called(c.Rival))
		}
	}
	return c.mattersOnPaper()
}

// mattersOnPaper returns the rates and times on which the difference between the two that are set
// against each other rests most, on paper.
func (c Comparison) mattersOnPaper() (all []string, by string) {
	found := c.Matters(mostMatters)
	if len(found) == 0 {
		return nil, ""
	}
	for _, m := range found {
		turns := ""
		if c.decided() != 0 && c.decided() == sign(m.Paper) && m.Turns() {
			turns = " That would turn the answer."
		}
		value := m.Value
		if m.Input != nil {
			value = uncertainRange(*m.Input)
		}
		all = append(all, fmt.Sprintf("%s (%s): %s. With half of it %s an hour, with twice %s.%s", say.Capital(m.Name), c.namesOf(m.Of), value,
			gapOnPaper(m.Half), gapOnPaper(m.Twice), turns))
	}
	other := "than the file says"
	switch c.Basis.On {
	case study.OnDraws, study.OnMeans:
		other = "than it is taken to be: of an uncertain input its mean"
	case study.OnNominal:
		other = "than its nominal value"
	}
	return all, fmt.Sprintf("What %s delivers more or less than %s, on paper %s an hour, if a rate or a time of the line in brackets were other %s.",
		c.called(c.To), c.called(c.From), gapOnPaper(found[0].Paper), other)
}

// decided returns 1 if the second of the two that are set against each other is shown to deliver more,
// −1 if it is shown to deliver less, and 0 if neither is.
func (c Comparison) decided() int {
	switch {
	case c.Selection != nil && !c.Best.Shown, c.Selection == nil && !c.Compared[c.From][c.To].Difference.Shown():
		return 0
	}
	return sign(c.Lines[c.To].NetRate.Mean - c.Lines[c.From].NetRate.Mean)
}

// sign returns 1 of what is more than nothing, −1 of what is less, and 0 of nothing: less than an
// envelope an hour.
func sign(x study.Number) int {
	switch {
	case x >= 1:
		return 1
	case x <= -1:
		return -1
	}
	return 0
}

// namesOf lists what some alternatives are called.
func (c Comparison) namesOf(some []int) string {
	var names []string
	for _, i := range some {
		names = append(names, c.called(i))
	}
	return say.List(names)
}

// gapOnPaper returns a difference that was worked out on paper, with its sign and three digits.
func gapOnPaper(x study.Number) string {
	size := math.Abs(float64(x))
	if size < 1 {
		return "0"
	}
	places := max(0, say.Magnitude(size)-2)
	text := say.Rounded(size, places)
	if x < 0 {
		return "−" + text
	}
	return "+" + text
}
