package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// ComparisonUncertainty says what the uncertainty of the difference comes of.
func ComparisonUncertainty(a *study.ComparisonAnswer) string {
	d := Uncertain{a.Uncertainty.Rival.Uncertainty}
	text := fmt.Sprintf("The uncertain inputs are drawn anew %s times, the same for all lines. Of the variance of what %s is ahead of %s, %s by %s, %s comes from their uncertainty.",
		say.Thousands(d.Draws), ComparisonCalled(a, a.Leader), ComparisonCalled(a, a.Rival), ComparisonPeriod(a), ComparisonPeriod(a), uncertainShare(d.Share.Share))
	if len(d.Sources) == 0 || d.Sources[0].Share < leastSource {
		return text
	}
	text += fmt.Sprintf(" %s of that comes from %s (%s)", mostOf(d.Sources[0].Share), uncertainCalled(d.Sources[0].Input), uncertainShare(d.Sources[0].Share))
	if !d.DataHelps() {
		return text + "; more data would hardly narrow it."
	}
	return text + fmt.Sprintf("; with twice the data of all the difference would be known to %s an hour, not ± %s.",
		knownTo(float64(d.Twice)), say.TwoDigitsOr0(d.Half()))
}

// ComparisonLongRunText returns a row for each of some alternatives.
func ComparisonLongRunText(a *study.ComparisonAnswer, shown []int) string {
	rows := [][]string{{"Long run, inputs uncertain, 95 %", "net rate", "to base", "sure to be ahead"}}
	for _, i := range shown {
		u := a.Uncertainty.Lines[i]
		row := []string{u.Name, fromTo(UncertaintyEnds(Uncertain{u.NetRate}.longRun())), "", ""}
		if u.Ahead != nil {
			row[2], row[3] = fromTo(signedEnds(Uncertain{u.Ahead}.longRun())), uncertainShare(*u.Sure)
		}
		rows = append(rows, row)
	}
	return say.Columns(rows)
}

// ComparisonLongRun returns how far every line is known.
func ComparisonLongRun(a *study.ComparisonAnswer) plots.Table {
	t := plots.Table{
		Name: "Long run", Caption: "Net rate in the long run, " + page.PerHour + ", with the uncertain inputs drawn anew: 95 % intervals, of each by itself",
		Columns: []plots.Column{
			{Title: "Line"},
			rateColumn("From"), rateColumn("to"), rateColumn("To base: from"), rateColumn("to"),
			{Title: "Sure to be ahead", Unit: "%", Kind: plots.Number, Decimals: 1},
		},
	}
	for _, u := range a.Uncertainty.Lines {
		low, high := Uncertain{u.NetRate}.longRun()
		row := []plots.Entry{page.Words(u.Name), page.Value(low), page.Value(high)}
		none := plots.Entry{Number: math.NaN()}
		if u.Ahead == nil {
			row = append(row, none, none, none)
		} else {
			from, to := Uncertain{u.Ahead}.longRun()
			row = append(row, page.Value(from), page.Value(to), page.Value(100*float64(*u.Sure)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func rateColumn(title string) plots.Column { return plots.Column{Title: title, Kind: plots.Number} }

// uncertaintyBlock returns how far the lines are known; nothing if nothing is uncertain.
func (c Comparison) uncertaintyBlock() string {
	if c.Uncertainty == nil {
		if note := page.GivenNote(c.attended()...); note != "" {
			return "\n" + note
		}
		return ""
	}
	return "\n" + ComparisonLongRunText(c.ComparisonAnswer, c.rows()) + say.Wrapped(ComparisonUncertainty(c.ComparisonAnswer), say.Screen)
}

// uncertaintySection says how far the lines and their differences are known.
func (c Comparison) uncertaintySection(r *page.Report) plots.Section {
	a := UncertaintyIn(c.Uncertainty.Rival.Uncertainty)
	t := a.Table()
	t.Caption = fmt.Sprintf("The uncertain inputs, and what they do to what %s is ahead of %s; ± is half of the 95 %% interval of that in the long run, with twice the data of that input alone",
		c.called(c.Leader), c.called(c.Rival))
	return plots.Section{
		Heading: "Uncertainty of the inputs",
		Text:    ComparisonUncertainty(c.ComparisonAnswer) + "\n\n" + uncertaintyText,
		Figures: []*plots.Figure{r.Figure("uncertainty-sources")(a.SourcesFigure())},
		Tables:  []plots.Table{ComparisonLongRun(c.ComparisonAnswer), t},
	}
}
