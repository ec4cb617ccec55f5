package lines

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/plots"
)

const doubtText = "Each draw takes other values for what is in doubt, as likely as what is known of them makes them, " +
	"and the same values for a whole replication and for all lines. What the replications of one draw differ by is chance; " +
	"what draws differ by beyond that is not knowing the values. More simulated replications narrow the ± of a mean; only more data narrow the doubt.\n\n" +
	"The share of each number is what the long run follows of it in a straight line. Rates that change from day to day are not in the model."

// doubtSection says how far the answer of a run is known.
func doubtSection(r *page.Report, s *model.Study, u *study.Uncertainty) plots.Section {
	d := doubtOf{u}
	return plots.Section{
		Heading: "What is not known",
		Text:    sentences(d.finding()) + " " + d.moreData() + "\n\n" + doubtText,
		Figures: []*plots.Figure{r.Figure("doubt")(d.spreadFigure(s)), r.Figure("doubt-sources")(d.sourcesFigure())},
		Tables:  []plots.Table{d.table()},
	}
}

// spreadFigure draws single replications with all as given, and with what is in doubt drawn.
func (d doubtOf) spreadFigure(s *model.Study) (*plots.Figure, error) {
	word, axis := page.Period(s.Line), page.PerHour
	if d.Job {
		axis = "hours until the job is finished"
	}
	from, to := within(d.singles())
	given := s.Sample(d.figure())
	from0, to0 := within(given.Quantile(0.05), given.Quantile(0.95))
	return plots.Cumulative(plots.CumulativeData{
		Head: plots.Head{
			Title: fmt.Sprintf("Nine %ss in ten are from %s to %s%s, not from %s to %s, if the doubt is allowed for", word, from, to, d.unit(), from0, to0),
			Subtitle: fmt.Sprintf("Share of %ss at or below a value, %s; %s as given, %s draws of what is in doubt, %d %ss each",
				word, axis, say.Plural(len(given), word), say.Thousands(d.Draws), d.Each, word),
		},
		Axis:   axis,
		Curves: []plots.Values{{Name: "as given", Values: given}, {Name: "in doubt", Values: d.Doubted.All}},
	})
}

// sourcesFigure draws what the doubt comes of.
func (d doubtOf) sourcesFigure() (*plots.Figure, error) {
	data := plots.ParetoData{Axis: "% of the variance of the long run"}
	for _, s := range d.Sources {
		if s.Share >= leastSource {
			data.Causes = append(data.Causes, plots.Cause{Name: doubtCalled(s.Input), Amount: 100 * float64(s.Share), Detail: "given as " + doubtValue(s.Input, float64(s.Given))})
		}
	}
	title := "No single number makes up much of the doubt"
	if len(data.Causes) > 0 {
		title = fmt.Sprintf("%s of the doubt is that of %s: %s", mostOf(d.Sources[0].Share), data.Causes[0].Name, percent(d.Sources[0].Share))
	}
	data.Head = plots.Head{
		Title:    title,
		Subtitle: "Share of each number in doubt in the variance of the long run; those below " + say.Percent(leastSource, 0.01) + " left out",
	}
	return plots.Pareto(data)
}

// table returns all that is in doubt.
func (d doubtOf) table() plots.Table {
	t := plots.Table{
		Name: "Doubt", Caption: "What is in doubt, and what it does to the answer; ± is half of the 95 % interval of the long run, with twice the data of that number alone",
		Columns: []plots.Column{
			{Title: "Number"},
			{Title: "Given"},
			{Title: "95 %: from"},
			{Title: "to"},
			{Title: "Share of the doubt", Unit: "%", Kind: plots.Number, Decimals: 1},
			{Title: "± with twice its data", Unit: d.unit()[1:], Kind: plots.Number, Decimals: 1},
		},
	}
	for _, s := range d.Inputs() {
		narrower := plots.Entry{Number: math.NaN()}
		if s.Learnt && !math.IsNaN(float64(s.Share)) {
			narrower = page.Value(d.HalfWithTwice(s.Input))
		}
		t.Rows = append(t.Rows, []plots.Entry{
			page.Words(doubtCalled(s.Input)), page.Words(doubtValue(s.Input, float64(s.Given))),
			page.Words(doubtValue(s.Input, float64(s.Range.Low))), page.Words(doubtValue(s.Input, float64(s.Range.High))),
			page.Value(100 * float64(s.Share)), narrower,
		})
	}
	return t
}
