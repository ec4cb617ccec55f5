package present

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// uncertaintyText returns, as a screen has it, what the uncertainty of an answer comes of, or that
// what is uncertain was not drawn; nothing if nothing is uncertain.
func uncertaintyText(u *study.Uncertainty, basis study.Basis) string {
	if u != nil {
		return UncertaintyIn(u).Text() + "\n"
	}
	return page.BasisNote(basis)
}

// longRunWords says of what the intervals of a study are, where that is not simply its means.
func longRunWords(s *runs.Study) string {
	if s.Each > 0 {
		return " of the long run"
	}
	return ""
}

const uncertaintyMeans = "Each draw takes new values for the uncertain inputs, as likely as what is known about them makes them, " +
	"and the same values for a whole replication and for all lines that share them. The replications of one draw differ by chance; " +
	"what draws differ by beyond that is uncertainty about the values. How far that goes is itself known only so well, which an interval allows for: more draws narrow it by that much, and only more data narrow the rest.\n\n" +
	"The share of a number is that part of the variance of the long run which goes with it in a straight line. Rates that change from day to day are no such uncertainty: they are good and bad days, where the file gives them."

// uncertaintySection says how far the answer of a run is known.
func uncertaintySection(r *page.Report, s *runs.Study, u *study.Uncertainty) plots.Section {
	d := UncertaintyIn(u)
	return plots.Section{
		Heading: "Uncertainty of the inputs",
		Text:    factSentences(d.found(s.Interval(d.Of(), say.Level))) + " " + d.MoreData() + "\n\n" + uncertaintyMeans,
		Figures: []*plots.Figure{r.Figure("uncertainty")(d.SpreadFigure(s)), d.sourcesIn(r)},
		Tables:  []plots.Table{d.Table(d.Inputs())},
	}
}
