package present

import (
	"fmt"
	"slices"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// ComparisonUncertainty says what the uncertainty of the difference comes of.
func ComparisonUncertainty(a *study.ComparisonAnswer) string {
	d := uncertaintyBetween(a)
	text := fmt.Sprintf("The uncertain inputs are drawn %s times; those that lines share have the same values in all of them. Of the variance of how far %s is ahead of %s, %s by %s, %s comes from their uncertainty.",
		say.Thousands(d.Draws), ComparisonCalled(a, a.Leader), ComparisonCalled(a, a.Rival), ComparisonPeriod(a), ComparisonPeriod(a), uncertainShare(d.Share.Share))
	if len(d.Sources) == 0 || d.Sources[0].Share < leastSource {
		return text
	}
	text += fmt.Sprintf(" %s of that comes from %s (%s)", mostOf(d.Sources[0].Share), d.called(d.Sources[0].Input), uncertainShare(d.Sources[0].Share))
	return text + ". " + d.MoreData()
}

// ComparisonLongRun returns how far some of the lines are known.
func ComparisonLongRun(a *study.ComparisonAnswer, some []int) plots.Table {
	t := plots.Table{
		Name: "Long run", Caption: "Net rate in the long run, " + page.PerHour + ", with the uncertain inputs drawn anew: 95 % intervals, of each by itself",
		Columns: slices.Concat([]plots.Column{{Title: "Line", Brief: "Long run, 95 %"}},
			intervalColumns("Net rate", "net rate"), intervalColumns("To the base", "to base"),
			[]plots.Column{
				{Title: "Probability of being ahead", Kind: plots.Share, Decimals: 1, Brief: "ahead"},
				{Title: "Probability of delivering most", Kind: plots.Share, Decimals: 1, Brief: "most"},
			}),
	}
	for _, i := range some {
		u := a.Uncertainty.Lines[i]
		ahead, draws := nothings(4), u.NetRate.Draws
		if u.Ahead != nil {
			from, to := UncertaintyIn(u.Ahead).longRun()
			sure := plots.Entry{Number: float64(*u.Sure), Shown: chance(*u.Sure, draws)}
			ahead = append(bounds(from, to, fromTo(signedEnds(from, to))), sure)
		}
		low, high := UncertaintyIn(u.NetRate).longRun()
		t.Rows = append(t.Rows, slices.Concat([]plots.Entry{page.Words(u.Name)}, bounds(low, high, fromTo(UncertaintyEnds(low, high))), ahead,
			[]plots.Entry{{Number: float64(u.Best), Shown: chance(u.Best, draws)}}))
	}
	return t
}

// intervalColumns are the columns of an interval in good envelopes an hour: people read both its
// ends in one.
func intervalColumns(title, brief string) []plots.Column {
	both := plots.Column{Title: title, Unit: "an hour", Kind: plots.Number, Brief: brief}
	from, to := both, both
	from.Title, from.Brief, from.Data = title+": from", "", true
	to.Title, to.Brief, to.Data = title+": to", "", true
	return []plots.Column{both, from, to}
}

// bounds returns the entries of an interval.
func bounds(low, high float64, words string) []plots.Entry {
	return []plots.Entry{page.Words(say.WithMinus(words)), page.Value(low), page.Value(high)}
}

// uncertaintyBlock returns how far the lines are known; nothing if nothing is uncertain.
func (c Comparison) uncertaintyBlock() string {
	if c.Uncertainty == nil {
		if note := page.BasisNote(c.Basis); note != "" {
			return "\n" + note
		}
		return ""
	}
	return "\n" + brief(ComparisonLongRun(c.ComparisonAnswer, c.rows())) + say.Wrapped(ComparisonUncertainty(c.ComparisonAnswer), say.Prose())
}

// uncertaintySection says how far the lines and their differences are known.
func (c Comparison) uncertaintySection(r *page.Report) plots.Section {
	a := uncertaintyBetween(c.ComparisonAnswer)
	t := a.Table(a.Inputs())
	t.Caption = fmt.Sprintf("The uncertain inputs, and their part in how far %s is ahead of %s; ± is half of the 95 %% interval of that in the long run, once the input is measured that well",
		c.called(c.Leader), c.called(c.Rival))
	return plots.Section{
		Heading: "Uncertainty of the inputs",
		Text:    ComparisonUncertainty(c.ComparisonAnswer) + "\n\n" + uncertaintyMeans,
		Figures: []*plots.Figure{a.sourcesIn(r)},
		Tables:  []plots.Table{ComparisonLongRun(c.ComparisonAnswer, page.All(len(c.Lines))), t},
	}
}
