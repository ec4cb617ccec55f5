package lines

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/plots"
)

// opening returns the beginning of a report on the field; the question is the one that is
// asked if the base has none.
func (f *field) opening(flags, question, answer, lead string) page.Opening {
	o := page.Opening{
		Title: f.base().Name, Question: f.base().Question, Answer: answer, Lead: lead,
		Command: f.again + flags, Origins: f.origins, Plan: &f.entrants[0].study.Plan, Word: f.period(), Assumptions: page.Assumed(f.bases()...),
	}
	if o.Question == "" {
		o.Question = question
	}
	for _, x := range f.entrants {
		o.Most = max(o.Most, len(x.study.Shifts))
	}
	return o
}

// runReport returns the report of a run.
func runReport(version string, a *ran) (*page.Report, error) {
	x := a.entrant()
	f := &field{entrants: []entrant{x}, origins: []page.Origin{a.from}, again: a.again}
	s := a.Study
	sample, word := page.Sample(s), page.Period(s.Line)
	said := sentences(delivers(s))
	lead := ""
	if a.Uncertainty != nil {
		d := present.UncertaintyIn(a.Uncertainty)
		said, lead = d.Headline(x.study.Sample(d.Of()).Interval(say.Level)), said+" "
	}
	r := page.NewReport(version, f.opening(fmt.Sprintf(" --seed %d --reps %d", s.Plan.Seed, len(s.Shifts)), "How many good envelopes an hour does this line deliver?",
		said, page.Partial(s)+lead+"Simulated: "+sample+". "+sentences(onPaper(s))))
	low, high := s.NetRates().Quantile(0.05), s.NetRates().Quantile(0.95)
	half := s.NetRates().Interval(say.Level).Half
	r.Add(plots.Section{
		Heading: "What it delivers",
		Text: "The mean is known to within its ±; single " + word + "s differ by chance far more than that. " +
			"More simulated " + word + "s make the ± smaller, and leave the spread of " + word + "s as it is.",
		Figures: []*plots.Figure{
			r.Figure("distribution")(distribution(fmt.Sprintf("One %s in twenty falls below %s an hour, one in twenty exceeds %s",
				word, say.Rough(low, half), say.Rough(high, half)), sample, f.entrants)),
			r.Figure("cumulative")(cumulative(sample, f.entrants, f, 0, 0)),
		},
		Tables: []plots.Table{figuresTable(s)},
	})
	r.Add(plots.Section{
		Heading: "Where the rest goes", Text: whyText,
		Figures: []*plots.Figure{
			r.Figure("waterfall")(waterfall("The line", sample, s)),
			r.Figure("stops")(pareto("The line", sample, s)),
		},
		Tables: []plots.Table{lossesTable(f.entrants), stopsOf(x), crewTable(f.entrants)},
	})
	if x.line.Personalised() {
		r.Add(lostSection(r, x))
	}
	if a.Uncertainty != nil {
		r.Add(doubtSection(r, s, a.Uncertainty))
	}
	if word == "shift" {
		r.Add(plots.Section{
			Heading: "How a shift goes", Text: shiftText,
			Figures: []*plots.Figure{r.Figure("fan")(fan("The line", s)), r.Figure("timeline")(timeline("The line", s))},
		})
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// The texts of sections that a run and a comparison have alike.
const (
	whyText = "Each step is what is lost on the way from the rated speed to the net rate. " +
		"Time in which the line stands is counted in envelopes that it would have made at its speed; " +
		"when several stops are open at once, the time belongs to the one that came first."
	shiftText = "The fan shows how much the rate of a short stretch differs from shift to shift; " +
		"the timeline is a single shift, as an operator would live through it."
)

// sentences returns lines of the answer as running text.
func sentences(lines string) string {
	var all []string
	for line := range strings.Lines(lines) {
		if line = strings.Join(strings.Fields(line), " "); line != "" {
			all = append(all, line)
		}
	}
	return strings.Join(all, ". ") + "."
}
