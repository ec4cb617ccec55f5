package present

import (
	"cmp"
	"fmt"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/runs"
	"netrate/model/study"
	"netrate/plots"
)

// Report returns the run as a page.
func (run Run) Report(version string) (*page.Report, error) {
	all := run.Alternatives()
	x := all[0]
	s := run.Study
	sample, word := page.Sample(s), page.Period(s.Line)
	known := "The mean is known to within its ±; single " + word + "s differ by chance far more than that. " +
		"More simulated " + word + "s make the ± smaller, and leave the spread of " + word + "s as it is."
	if run.Uncertainty != nil {
		known = "A ± is half of the 95 % interval of the long run: what is not known of the inputs is in it, and more simulated " + word + "s " +
			"do not make it smaller. Single " + word + "s differ by chance besides."
	}
	r := page.NewReport(version, run.opening(factSentences(run.Finding()...), page.Partial(run.Nominal)+"Simulated: "+sample+". "+factSentences(run.onPaper())))
	r.Add(layoutSection(r.Figure("line")(simulatedLayout("The line", x, nil))))
	delivers := plots.Section{
		Heading: "What it delivers",
		Text:    known,
		Figures: run.spreads(r, all),
		Tables:  []plots.Table{setsTable(s), figuresTable(s)},
	}
	if run.Target != nil {
		delivers.Figures = append(delivers.Figures, r.Figure("target")(targetFigure(say.Capital(targetFact(run.Target, word).says[0]), sample, all, 0)))
	}
	if seen := run.Scenes; seen != nil && seen.Settling != nil {
		delivers.Figures = append(delivers.Figures, r.Figure("running-mean")(SettlingFigure(seen.Settling, word)))
	}
	r.Add(delivers)
	r.Add(plots.Section{
		Heading: "Where the rest goes", Text: whyText + CutNote(run.Slips),
		Figures: run.losses(r),
		Tables:  append(append([]plots.Table{timeTable(s), lossesTable(all)}, paperTables(run.OnPaper.Difference)...), stopsTable(x), crewTable(all)),
	})
	r.Add(exposureSection(all))
	if x.Study.Line.Personalised() {
		r.Add(lostSection(r, x))
	}
	if run.Uncertainty != nil {
		r.Add(uncertaintySection(r, run.Nominal, run.Uncertainty))
	}
	if seen := run.Scenes; seen != nil && seen.Course != nil {
		goes := plots.Section{
			Heading: "How a shift goes", Text: shiftText,
			Figures: []*plots.Figure{r.Figure("fan")(CourseFigure(seen.Course, "The line")), r.Figure("timeline")(MedianShiftFigure(seen.MedianShift, "The line"))},
		}
		if len(seen.MedianShift.Stocks) > 0 {
			goes.Figures = append(goes.Figures, r.Figure("stocks")(StocksFigure(seen.MedianShift, "The line")))
		}
		r.Add(goes)
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// Glance returns what of the report is seen first, and moves while a line is changed: the answer, and
// the figures of the distribution, the waterfall and the stops.
func (run Run) Glance(version string) (*page.Report, error) {
	r := page.NewReport(version, page.Opening{Answer: factSentences(run.Finding()...)})
	run.spreads(r, run.Alternatives())
	run.losses(r)
	return r.Done()
}

// spreads draws how shifts differ.
func (run Run) spreads(r *page.Report, all []study.LineAnswer) []*plots.Figure {
	s := run.Study
	low, high := s.NetRates().Quantile(0.05), s.NetRates().Quantile(0.95)
	half := s.IntervalOf(s.NetRates(), say.Level).Half
	return []*plots.Figure{
		r.Figure("distribution")(spreads(fmt.Sprintf("One %s in twenty falls below %s an hour, one in twenty exceeds %s",
			page.Period(s.Line), say.Rough(low, half), say.Rough(high, half)), page.Sample(s), all, 0, run.Room...)),
	}
}

// losses draws where the rest goes.
func (run Run) losses(r *page.Report) []*plots.Figure {
	s := run.Study
	return []*plots.Figure{
		r.Figure("waterfall")(waterfall("The line", page.Sample(s), s)),
		r.Figure("stops")(pareto("The line", page.Sample(s), s)),
	}
}

// opening returns the beginning of the page.
func (run Run) opening(found, lead string) page.Opening {
	s := run.Nominal
	return page.Opening{
		Title: run.Origin.Scenario.Name, Question: cmp.Or(run.Origin.Scenario.Question, "How many good envelopes an hour does this line deliver?"),
		Answer: found, Lead: lead, Command: run.Command + repeat(s), Origins: []page.Origin{run.Origin}, Plan: &s.Plan,
		Word: page.Period(s.Line), Most: len(s.Shifts),
		Assumptions: page.Assumed(page.Basis{Name: run.Origin.Scenario.Name, Scenario: run.Origin.Scenario, Line: s.Line}),
	}
}

// repeat returns the flags that run the same replications again.
func repeat(s *runs.Study) string {
	return fmt.Sprintf(" --seed %d --reps %d", s.Plan.Seed, len(s.Shifts))
}

// The texts of sections that a run and a comparison have alike.
const (
	whyText = "Each step is what is lost on the way from the rated speed to the net rate. " +
		"Time in which the line stands is counted in envelopes that it would have made at its speed; " +
		"when several stops are open at once, the time belongs to the one that came first."
	shiftText = "The fan shows how much the rate of a short stretch differs from shift to shift; " +
		"the timeline is a single shift, as an operator would live through it."
)
