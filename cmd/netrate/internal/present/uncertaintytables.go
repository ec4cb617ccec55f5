package present

import (
	"fmt"
	"math"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// SpreadFigure draws single replications with all as given, and with what is uncertain drawn.
func (d Uncertain) SpreadFigure(s *runs.Study) (*plots.Figure, error) {
	word, axis := page.Period(s.Line), page.PerHour
	if d.Job {
		axis = "hours until the job is finished"
	}
	from, to := UncertaintyEnds(d.singles())
	given := s.Sample(d.Of())
	from0, to0 := UncertaintyEnds(given.Quantile(0.05), given.Quantile(0.95))
	return plots.Cumulative(plots.CumulativeData{
		Head: plots.Head{
			Title: fmt.Sprintf("Nine %ss in ten are from %s to %s%s, not from %s to %s, allowing for uncertain inputs", word, from, to, d.unit(), from0, to0),
			Subtitle: fmt.Sprintf("Share of %ss at or below a value, %s; %s at nominal values, %s draws of the uncertain inputs, %d %ss each",
				word, axis, say.Plural(len(given), word), say.Thousands(d.Draws), d.Each, word),
		},
		Axis:   axis,
		Curves: []plots.Values{{Name: "nominal", Role: plots.Base, Values: given}, {Name: "uncertain", Values: d.UncertainFigure.All}},
	})
}

// sourcesIn returns the figure of what the uncertainty comes of, nil if no input makes up much of it:
// the text says so.
func (d Uncertain) sourcesIn(r *page.Report) *plots.Figure {
	if len(d.Sources) == 0 || d.Sources[0].Share < leastSource {
		return nil
	}
	return r.Figure("uncertainty-sources")(d.SourcesFigure())
}

// SourcesFigure draws what the uncertainty comes of.
func (d Uncertain) SourcesFigure() (*plots.Figure, error) {
	data := plots.ParetoData{Axis: "% of the variance of the long run"}
	for _, s := range d.Sources {
		if s.Share >= leastSource {
			data.Causes = append(data.Causes, plots.Cause{Name: d.called(s.Input), Amount: 100 * float64(s.Share), Detail: "nominally " + uncertainValue(s.Input, float64(s.Nominal))})
		}
	}
	title := "No single input makes up much of the uncertainty"
	if len(data.Causes) > 0 {
		title = fmt.Sprintf("%s of the uncertainty comes from %s: %s", mostOf(d.Sources[0].Share), data.Causes[0].Name, uncertainShare(d.Sources[0].Share))
	}
	data.Head = plots.Head{
		Title:    title,
		Subtitle: "Share of each uncertain input in the variance of the long run; those below " + say.Percent(leastSource, 0.01) + " left out",
	}
	return plots.Pareto(data)
}

// Table returns some of what is uncertain, and what it adds.
func (d Uncertain) Table(some []study.UncertaintySource) plots.Table {
	t := plots.Table{
		Name: "Uncertainty", Caption: "The uncertain inputs, and what they do to the answer. To measure: what to count or time until half of its uncertainty is left, or a tenth; ± is half of the 95 % interval of the long run then, all else as it is",
		Columns: []plots.Column{
			{Title: "Uncertain input", Brief: "Source of uncertainty"},
			{Title: "Nominal", Brief: "nominal"},
			{Title: "95 %: from", Brief: "95 %: from"},
			{Title: "to", Brief: "to"},
			{Title: "Share of the uncertainty", Kind: plots.Share, Decimals: 1, Brief: "share"},
			{Title: "To halve it", Brief: "to halve it"},
			{Title: "Hours", Unit: "of the line", Kind: plots.Number, Decimals: 1},
			{Title: "± then", Unit: d.unit()[1:], Kind: plots.Number, Decimals: 1},
			{Title: "To a tenth"},
			{Title: "± at a tenth", Unit: d.unit()[1:], Kind: plots.Number, Decimals: 1},
		},
	}
	for _, s := range some {
		t.Rows = append(t.Rows, append([]plots.Entry{
			page.Words(d.called(s.Input)), page.Words(uncertainValue(s.Input, float64(s.Nominal))),
			page.Words(uncertainValue(s.Input, float64(s.Range.Low))), page.Words(uncertainValue(s.Input, float64(s.Range.High))),
			d.shareOf(s),
		}, measuring(s)...))
	}
	return t
}

// shareOf returns the share of an input in the uncertainty; nothing if the draws do not tell.
func (d Uncertain) shareOf(s study.UncertaintySource) plots.Entry {
	if math.IsNaN(float64(s.Share)) {
		return page.Value(math.NaN())
	}
	return plots.Entry{Number: float64(s.Share), Shown: uncertainShare(s.Share)}
}

// measuring returns the entries of what it takes to measure a source.
func measuring(s study.UncertaintySource) []plots.Entry {
	none := plots.Entry{Number: math.NaN()}
	if s.Measure == nil {
		return []plots.Entry{page.Words("–"), none, none, page.Words("–"), none}
	}
	return []plots.Entry{
		page.Words(observations(s.Measure, s.Measure.Half)), page.Value(float64(s.Measure.Half.Hours)), page.HalfWidth(float64(s.Measure.Half.LongRun)),
		page.Words(observations(s.Measure, s.Measure.Tenth)), page.HalfWidth(float64(s.Measure.Tenth.LongRun)),
	}
}
