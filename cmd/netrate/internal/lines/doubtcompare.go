package lines

import (
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
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
	return "\n" + present.ComparisonLongRunText(c.ComparisonAnswer, c.rows()) + say.Wrapped(present.ComparisonUncertainty(c.ComparisonAnswer), say.Screen)
}

// doubtSection says how far the lines and their differences are known.
func (c *contest) doubtSection(r *page.Report) plots.Section {
	a := present.UncertaintyIn(c.Uncertainty.Rival.Uncertainty)
	t := a.Table()
	t.Caption = fmt.Sprintf("The uncertain inputs, and what they do to what %s is ahead of %s; ± is half of the 95 %% interval of that in the long run, with twice the data of that input alone",
		c.call(c.Leader), c.call(c.Rival))
	return plots.Section{
		Heading: "Uncertainty of the inputs",
		Text:    present.ComparisonUncertainty(c.ComparisonAnswer) + "\n\n" + doubtText,
		Figures: []*plots.Figure{r.Figure("uncertainty-sources")(a.SourcesFigure())},
		Tables:  []plots.Table{present.ComparisonLongRun(c.ComparisonAnswer), t},
	}
}
