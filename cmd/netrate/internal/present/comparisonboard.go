package present

import (
	"fmt"
	"math"

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
	if c.Selection == nil {
		against := RateColumns("Against the base", "")
		against[0].Bar = true
		t.Columns = append(t.Columns, against...)
	}
	if c.Money != nil {
		t.Columns = append(t.Columns, plots.Column{Title: "All-in cost", Unit: c.Money.Currency + " per 1,000", Kind: plots.Number, Decimals: 2, Bar: true})
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
		if c.Money != nil {
			row = append(row, averaged(c.Money.Worth.AllInPerThousand(i)))
		}
		crew := x.Study.Line.Crew.Mean(x.Study.Line.Shift)
		t.Rows = append(t.Rows, append(row, defective(x.Study), plots.Entry{Number: crew, Shown: say.Exact(crew)}))
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
				all = append(all, fmt.Sprintf("%s: %s, from %s to %s (95 %%); %s of the uncertainty.", say.Capital(d.called(s.Input)), uncertainValue(s.Input, float64(s.Nominal)),
					uncertainValue(s.Input, float64(s.Range.Low)), uncertainValue(s.Input, float64(s.Range.High)), uncertainShare(s.Share)))
			}
		}
		if all != nil {
			return all, fmt.Sprintf("The uncertain inputs that make most of the uncertainty of how far %s is ahead of %s.", c.called(c.Leader), c.called(c.Rival))
		}
	}
	found := c.Matters(mostMatters)
	if len(found) == 0 {
		return nil, ""
	}
	for _, m := range found {
		turns := ""
		if m.Turns() {
			turns = " That would turn the answer."
		}
		all = append(all, fmt.Sprintf("%s: %s. With half of it %s an hour, with twice %s.%s", say.Capital(m.Name), m.Value, gapOnPaper(m.Half), gapOnPaper(m.Twice), turns))
	}
	return all, fmt.Sprintf("What %s delivers more or less than %s, on paper %s an hour, if a rate or a time were other than the file says.", c.called(c.To), c.called(c.From), gapOnPaper(found[0].Paper))
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
