package present

import (
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// StrategiesSection sets the strategies against each other in a report. Where none delivers
// defective envelopes there is no frontier, and differences draws how far they are apart.
func StrategiesSection(a *study.StrategiesAnswer, differences func() (*plots.Figure, error), r *page.Report) plots.Section {
	s := plots.Section{
		Heading: "What the strategies earn and what they risk",
		Text: strategiesOtherwise(a) + strategiesDropped(a) + "\n\n" +
			"How many are defective follows from the rates in the file and from how often each station tried: chance has no part in it. " +
			"It leaves out what takes two faults at once, unless the count of the shifts shows more than that.",
		Tables: StrategiesTables(a)[:2],
	}
	if a.Own().Jobs != nil {
		s.Text += "\n\nThe line is set up for every job, and a shift is shared by the jobs so that each makes its share of the yearly volume. " +
			"At a job those responses apply whose stations it uses."
		s.Tables = append(s.Tables, strategiesJobs(a))
	}
	s.Figures = strategiesPictures(a, differences, "", r)
	return s
}

// strategiesPictures draws what the strategies earn against what they risk and make again, or how far
// they are apart where none risks anything; the names of the pictures end alike.
func strategiesPictures(a *study.StrategiesAnswer, differences func() (*plots.Figure, error), end string, r *page.Report) (all []*plots.Figure) {
	if strategiesRisky(a) {
		all = append(all, r.Figure("frontier"+end)(strategiesFrontier(a)))
	} else if len(a.Strategies) > 1 {
		all = append(all, r.Figure("differences"+end)(differences()))
	}
	if a.Personalised() {
		all = append(all, r.Figure("remakes"+end)(strategiesRemakes(a)))
	}
	return all
}

// StrategiesRisks says in a report where the defective envelopes come from.
func StrategiesRisks(a *study.StrategiesAnswer) plots.Section {
	return plots.Section{Heading: "Where defective envelopes come from", Text: strings.TrimSpace(strategiesSources(a) + " " + strategiesPrices(a)), Tables: StrategiesTables(a)[2:]}
}

// strategiesRisky reports whether any strategy delivers defective envelopes.
func strategiesRisky(a *study.StrategiesAnswer) bool {
	return slices.ContainsFunc(a.Strategies, func(x study.StrategiesOne) bool { return x.Defective.PerMillion > 0 })
}

// strategiesFrontier draws what the strategies earn against the defective ones among what they deliver.
func strategiesFrontier(a *study.StrategiesAnswer) (*plots.Figure, error) {
	d := strategiesPoints(a, "defective envelopes in a million", func(x *study.StrategiesOne) (plots.Range, bool) {
		at := plots.Range{Value: float64(x.Defective.PerMillion)}
		if x.Defective.FromCount {
			at.Low, at.High = float64(x.Defective.Low), float64(x.Defective.High)
		}
		return at, x.Frontier
	})
	d.Title = strategiesHeadline(a)
	d.Subtitle = "Net rate, " + page.PerHour + ", against defective envelopes; " + page.SampleEach(a.Own().Study)
	d.Log, d.Floor = true, riskFloor
	d.Limit = &plots.Limit{X: float64(a.Limit), Label: "the limit"}
	return plots.Frontier(d)
}

// riskFloor is the least part of a million that has a place on the axis.
const riskFloor = 1e-4

// strategiesRemakes draws what the strategies earn against what must be made again.
func strategiesRemakes(a *study.StrategiesAnswer) (*plots.Figure, error) {
	d := strategiesPoints(a, "remakes in a thousand sets", func(x *study.StrategiesOne) (plots.Range, bool) {
		return plots.Range{Value: x.Remade()}, x.Saving
	})
	d.Title = "What each strategy earns and what it makes again"
	d.Subtitle = "Net rate, " + page.PerHour + ", against remakes; " + page.SampleEach(a.Own().Study)
	return plots.Frontier(d)
}

// strategiesPoints returns a dot for each strategy.
func strategiesPoints(a *study.StrategiesAnswer, across string, at func(*study.StrategiesOne) (plots.Range, bool)) plots.FrontierData {
	d := plots.FrontierData{Across: across, Up: page.PerHour}
	for i := range a.Strategies {
		x := &a.Strategies[i]
		p := plots.FrontierPoint{Label: x.Name, Name: x.Otherwise, Y: x.Study.IntervalOf(x.Study.NetRates(), say.Level), Best: i == a.Leader && a.Within}
		if i == 0 {
			p.Name = "as the file has it"
		}
		p.X, p.Frontier = at(x)
		d.Points = append(d.Points, p)
	}
	return d
}
