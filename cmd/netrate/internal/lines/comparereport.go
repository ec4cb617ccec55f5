package lines

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// mostWaterfalls is how many lines have one each; of more, only those that are set against
// each other have.
const mostWaterfalls = 5

// compareReport returns the report of a comparison.
func compareReport(version string, c *contest) (*page.Report, error) {
	lead := page.Partial(c.entrants[c.Leader].study) + "All " + c.word() + "s had the same random events, " + c.period() + " by " + c.period() + ". "
	if c.Selection == nil {
		lead += "Simulated: " + c.sample() + " of each."
		if c.mixes() != nil {
			lead = strings.TrimSuffix(lead, ".") + " at each of its jobs."
		}
	}
	found := c.sentence()
	if c.worth != nil { // then that is what is asked
		found, lead = present.WorthFinding(c.worth), found+" "+lead
	}
	r := page.NewReport(version, c.opening(c.flags(), "Which of these "+c.word()+"s delivers most good envelopes an hour?", found, lead))
	r.Add(plots.Section{
		Heading: "What was compared",
		Text:    fmt.Sprintf("%s %ss. The first is the base, and each of the others is set against it.", say.Thousands(len(c.entrants)), c.word()),
		Tables:  []plots.Table{changesTable(c.field)},
	})
	if c.worth != nil {
		r.Add(present.WorthSection(c.worth, c.rows(), r))
	}
	r.Add(c.whichSection(r))
	if c.mixes() != nil {
		r.Add(c.jobsSection())
	}
	r.Add(c.whySection(r))
	if c.entrants[0].doubt != nil {
		r.Add(c.doubtSection(r))
	}
	if c.personalised() {
		r.Add(c.lostSection(r))
	}
	shift := plots.Section{Heading: "How a shift goes", Text: shiftText}
	for _, i := range c.featured() {
		for _, x := range c.atWork(i) {
			if x.line.Job.Sets == 0 && x.hall == nil {
				shift.Figures = append(shift.Figures,
					r.Figure(fileName("fan", i, x))(fan(say.Capital(x.called), x.study)),
					r.Figure(fileName("timeline", i, x))(timeline(say.Capital(x.called), x.study)))
			}
		}
	}
	if shift.Figures != nil {
		r.Add(shift)
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// whichSection says which line delivers most.
func (c *contest) whichSection(r *page.Report) plots.Section {
	s := plots.Section{Heading: "Which delivers most, and by how much", Text: c.luck()}
	sample := c.sample() + " each"
	if c.Selection != nil {
		sample = "as many " + c.period() + "s of each as the choice took"
	} else {
		s.Text += "\n\nEach line is set against each other in the same " + c.period() + "s. The intervals of the differences are all right at once " +
			"with 95 % (paired t, Bonferroni over all pairs), so that the line that happens to lead is not favoured."
		s.Figures = append(s.Figures, r.Figure("differences")(c.differences(sample)))
	}
	s.Tables = present.ComparisonRates(c.ComparisonAnswer)
	var shown []entrant
	for _, i := range c.rows() {
		shown = append(shown, c.entrants[i])
	}
	s.Figures = append(s.Figures,
		r.Figure("distribution")(distribution(present.ComparisonHeadline(c.ComparisonAnswer), sample, shown)),
		r.Figure("cumulative")(cumulative(sample, shown, c.field, c.Leader, c.Rival)),
		r.Figure("boxes")(boxes(sample, c.entrants)))
	return s
}

// whySection says where the lines lose what they lose.
func (c *contest) whySection(r *page.Report) plots.Section {
	s := plots.Section{Heading: "Why", Text: present.ComparisonWhy(c.ComparisonAnswer) + "\n\n" + whyText}
	falls := c.featured()
	if len(c.entrants) <= mostWaterfalls {
		falls = page.All(len(c.entrants))
	}
	sample := func(x entrant) string { return page.Sample(x.study) }
	for _, i := range falls {
		x := c.entrants[i]
		s.Figures = append(s.Figures, r.Figure(fileName("waterfall", i, x))(waterfall(say.Capital(c.call(i)), sample(x), x.study)))
	}
	for _, i := range c.featured() {
		for _, x := range c.atWork(i) {
			s.Figures = append(s.Figures, r.Figure(fileName("stops", i, x))(pareto(say.Capital(x.called), sample(x), x.study)))
			s.Tables = append(s.Tables, stopsOf(x))
		}
	}
	s.Tables = slices.Insert(s.Tables, 0, present.ComparisonSteps(c.ComparisonAnswer), lossesTable(c.entrants))
	s.Tables = append(s.Tables, crewTable(c.entrants))
	return s
}

// lostSection says what was not delivered good, and what one fault of a stream leads to.
func (c *contest) lostSection(r *page.Report) plots.Section {
	s := plots.Section{
		Heading: "What must be made again, and why", Text: lostText,
		Figures: []*plots.Figure{r.Figure("fates")(fates(c.sample()+" each", c.entrants))},
	}
	for _, i := range c.featured() {
		for _, x := range c.atWork(i) {
			if x.hall == nil && study.IncidentLane(x.line) >= 0 {
				s.Figures = append(s.Figures, r.Figure(fileName("incident", i, x))(incident(say.Capital(x.called), x.line)))
			}
			if x.line.Personalised() {
				s.Tables = append(s.Tables, lostTable(x))
			}
		}
	}
	return s
}

// featured returns the two that are set against each other, in their order.
func (c *contest) featured() []int {
	two := []int{c.Rival, c.Leader}
	slices.Sort(two)
	return two
}

// fileName returns the name of a figure that several lines have.
func fileName(figure string, i int, x entrant) string {
	return fmt.Sprintf("%s-%d-%s", figure, i, say.Slug(x.name))
}
