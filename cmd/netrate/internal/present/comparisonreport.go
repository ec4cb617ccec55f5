package present

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// Report returns the comparison as a page.
func (c Comparison) Report(version string) (*page.Report, error) { return c.report(version, true) }

// Details returns the report without the page for the board: on what the difference rests most is a
// question of its own there, which takes seconds of lines with sixty stations.
func (c Comparison) Details(version string) (*page.Report, error) { return c.report(version, false) }

func (c Comparison) report(version string, board bool) (*page.Report, error) {
	lead := page.Partial(c.Lines[c.Leader].Nominal) + "All " + c.word() + "s had the same random events, " + c.period() + " by " + c.period() + ". "
	if c.Selection == nil {
		lead += "Simulated: " + c.sample() + " of each."
		if c.mixed() {
			lead = strings.TrimSuffix(lead, ".") + " at each of its jobs."
		}
	}
	found := ComparisonFinding(c.ComparisonAnswer)
	own := c.asked(true)
	if c.Money != nil { // then that is what is asked
		own, found, lead = c.moneyFirst(), WorthFinding(c.Money), found+" "+lead
	}
	if own != "" {
		found = own + "\n\n" + found
	}
	r := page.NewReport(version, c.opening(found, lead))
	if board {
		r.Decide(c.decision(r))
	}
	r.Add(plots.Section{
		Heading: "What was compared",
		Text:    fmt.Sprintf("%s %ss. The first is the base, and each of the others is set against it.", say.Thousands(len(c.Lines)), c.word()),
		Figures: c.layouts(r),
		Tables:  []plots.Table{c.changesTable()},
	})
	if c.Money != nil {
		r.Add(WorthSection(c.Money, c.rows(), r))
		r.Sums = append(r.Sums, WorthCalculation(c.Money))
	}
	r.Add(c.whichSection(r))
	if c.mixed() {
		r.Add(c.jobsSection())
	}
	r.Add(c.whySection(r))
	if !c.grouped() {
		r.Add(exposureSection(c.Lines))
	}
	if c.Lines[0].Draws != nil {
		r.Add(c.uncertaintySection(r))
	}
	if c.Personalised() {
		r.Add(c.lostSection(r))
	}
	if shift := c.shiftSection(r); shift.Figures != nil {
		r.Add(shift)
	}
	r.Add(page.LeftOut())
	return r.Done()
}

// shiftSection shows how a shift of the two that are set against each other goes, on one scale.
func (c Comparison) shiftSection(r *page.Report) plots.Section {
	shift := plots.Section{Heading: "How a shift goes", Text: shiftText + c.unfeatured()}
	var all []*study.CourseAnswer // on one scale
	for _, i := range c.featured() {
		for _, x := range c.atWork(i) {
			if seen := x.Scenes; seen != nil && seen[0].Course != nil {
				all = append(all, seen[0].Course)
			}
		}
	}
	for _, i := range c.featured() {
		for _, x := range c.atWork(i) {
			if seen := x.Scenes; seen != nil && seen[0].Course != nil {
				shift.Figures = append(shift.Figures,
					r.Figure(fileName("fan", i, x))(CourseFigure(seen[0].Course, say.Capital(x.Of.InWords()), all...)),
					r.Figure(fileName("timeline", i, x))(MedianShiftFigure(seen[0].MedianShift, say.Capital(x.Of.InWords()))))
			}
		}
	}
	return shift
}

// opening returns the beginning of the page.
func (c Comparison) opening(found, lead string) page.Opening {
	base := c.Origins[0].Scenario
	question := "Which of these " + c.word() + "s delivers most good envelopes an hour?"
	if c.Money != nil {
		question = "Which of these " + c.word() + "s costs least over the life?"
	}
	o := page.Opening{
		Title: base.Name, Question: cmp.Or(base.Question, question),
		Answer: found, Lead: lead, Command: c.Command + c.repeat(), Origins: c.Origins, Plan: &c.Lines[0].Nominal.Plan,
		Word: c.period(), Assumptions: page.Assumed(c.bases()...),
	}
	for i := range c.Lines {
		o.Most = max(o.Most, len(c.Lines[i].Nominal.Shifts))
	}
	return o
}

// whichSection says which line delivers most.
func (c Comparison) whichSection(r *page.Report) plots.Section {
	s := plots.Section{Heading: "Which delivers most, and by how much", Text: c.random()}
	sample := c.sample() + " each"
	if c.Selection != nil {
		sample = "as many " + c.period() + "s of each as the choice took"
	} else if c.Uncertainty != nil {
		s.Text += "\n\nEach line is set against every other in the same draws of the uncertain inputs: a difference is the mean of the draws, and its ± " +
			"half of the 95 % interval of what it is in the long run, of each pair by itself. How probable it is that a line delivers most " +
			"is judged for all lines together."
		s.Figures = append(s.Figures, r.Figure("differences")(c.differences(sample)))
	} else {
		s.Text += "\n\nEach line is set against every other in the same " + c.period() + "s. The intervals of the differences are all right at once " +
			"with 95 % (paired t, Bonferroni over all pairs), so that the line that happens to lead is not favoured."
		s.Figures = append(s.Figures, r.Figure("differences")(c.differences(sample)))
	}
	s.Tables = comparisonWhich(c.ComparisonAnswer)
	s.Figures = append(s.Figures, r.Figure("distribution")(spreads(ComparisonHeadline(c.ComparisonAnswer), sample, c.Lines, c.recommended())))
	if c.Lines[0].Target != nil {
		title, _, _ := strings.Cut(c.targetWords(), ". ")
		s.Figures = append(s.Figures, r.Figure("target")(targetFigure(strings.TrimSuffix(title, "."), sample, c.Lines, c.recommended())))
	}
	return s
}

// whySection says where the lines lose what they lose.
func (c Comparison) whySection(r *page.Report) plots.Section {
	s := plots.Section{Heading: "Why", Text: ComparisonWhy(c.ComparisonAnswer) + "\n\n" + whyText}
	sample := c.sample() + " each"
	s.Figures = append(s.Figures, r.Figure("difference")(c.differenceFall(sample)), r.Figure("time")(states(sample, c.Lines)))
	pair := c.featured()
	at, beside := c.atWork(pair[0]), c.atWork(pair[1])
	roles := []plots.Role{roleOf(pair[0], c.recommended()), roleOf(pair[1], c.recommended())}
	for k := range at {
		name := "stops"
		if len(at) > 1 {
			name = fmt.Sprintf("stops-%d", k+1)
		}
		s.Figures = append(s.Figures, r.Figure(name)(stopsBeside(sample+leftOutOf(c.others()), []study.LineAnswer{at[k], beside[k]}, roles)))
		s.Tables = append(s.Tables, stopsTable(at[k]), stopsTable(beside[k]))
	}
	s.Tables = slices.Insert(s.Tables, 0, comparisonSteps(c.ComparisonAnswer, len(c.Steps)), lossesTable(c.Lines))
	s.Tables = append(s.Tables, crewTable(c.Lines))
	return s
}

// lostSection says what was not delivered good, and what one fault of a stream leads to.
func (c Comparison) lostSection(r *page.Report) plots.Section {
	s := plots.Section{
		Heading: "What must be made again, and why", Text: lostText,
		Figures: []*plots.Figure{r.Figure("fates")(fates(c.sample()+" each", c.Lines))},
	}
	for _, i := range c.featured() {
		for _, x := range c.atWork(i) {
			if seen := x.Scenes; seen != nil && seen[0].Incident != nil {
				s.Figures = append(s.Figures, r.Figure(fileName("incident", i, x))(IncidentFigure(seen[0].Incident, say.Capital(x.Of.InWords()))))
			}
			if x.Study.Line.Personalised() {
				s.Tables = append(s.Tables, lostTable(x))
			}
		}
	}
	return s
}

// others returns the names of the lines that are not featured.
func (c Comparison) others() (names []string) {
	for i := range c.Lines {
		if !slices.Contains(c.featured(), i) {
			names = append(names, c.Lines[i].Name)
		}
	}
	return names
}

// unfeatured says that of some lines nothing is shown; nothing where there are none.
func (c Comparison) unfeatured() string {
	others := c.others()
	if len(others) == 0 {
		return ""
	}
	pair := c.featured()
	return fmt.Sprintf(" Both are of %s and of %s alone, without %s.", c.called(pair[0]), c.called(pair[1]), firstOf(others))
}

// fileName returns the name of a figure that several lines have.
func fileName(figure string, i int, x study.LineAnswer) string {
	return fmt.Sprintf("%s-%d-%s", figure, i, say.Slug(x.Name))
}
