package present

import (
	"fmt"
	"math"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/seasons"
	"netrate/model/study"
)

// Checked says that a scenario is right, and what it is.
func Checked(of page.Origin) string {
	sc := of.Scenario
	lines := []string{sc.Name}
	if sc.LineGroup == nil {
		lines = append(lines, checkedLine(sc.Line, checkedCrew(sc.Line, sc.NoWork), sc.NoWork)...)
	} else {
		lines = append(append(lines, say.Plural(len(sc.LineGroup.Lines), "line")+" with one crew"), checkedCrew(sc.LineGroup.Lines[0], sc.NoWork)...)
	}
	var text strings.Builder
	text.WriteString(desk.Premise(sc) + desk.ShownFile(sc.File) + ": ok\n" + checkedLines("  ", lines))
	if sc.LineGroup != nil {
		for _, l := range sc.LineGroup.Lines {
			text.WriteString(checkedLines("  ", []string{l.Name}) + checkedLines("    ", checkedLine(l, nil, sc.NoWork)))
		}
	}
	if s := sc.Season; s != nil {
		text.WriteString(checkedLines("  ", []string{"season of " + say.Plural(len(s.Weeks), "week") + ", " + page.Hours(s.Calendar.Working()) + " of working time in each"}))
	}
	if p := sc.SeasonPlan; p != nil {
		text.WriteString(checkedLines("  ", []string{"season of " + say.Plural(len(p.Weeks), "week") + ": " + checkedPlan(p.Plan)}))
		if p.Check() == nil {
			text.WriteString(checkedMore(notTaken(study.PlansNotTakenOf(p.Plan))))
		}
	}
	if sc.Plan != nil {
		text.WriteString(checkedLines("  ", []string{"plan of " + checkedPlan(sc.Plan.Plan)}))
		if sc.Plan.Check() == nil {
			p := sc.Plan.Plan
			text.WriteString(checkedMore(notTaken(study.PlansNotTakenOf(p))) + checkedMore(hopeless(p, func(m study.PlansMoment) string { return momentOf(m, sc.Plan.Starts) })) +
				checkedMore(idleStaff(p, p.IdleStaff(), " and changes nobody")) + checkedMore(idleItems(p)))
		}
	}
	if c := sc.Calendar; c != nil {
		text.WriteString(checkedBreaks(c.OwnBreaks()))
	}
	return text.String()
}

// checkedBreaks names the breaks in which the others work on; nothing where there are none.
func checkedBreaks(all []seasons.OwnBreak) string {
	if len(all) == 0 {
		return ""
	}
	var said []string
	for _, b := range all {
		said = append(said, fmt.Sprintf("%s for %s after %s of %s", b.Name, page.Hours(b.Length), page.Hours(b.After), b.InWords()))
	}
	return checkedLines("  ", []string{"breaks while the others work on: " + strings.Join(said, "; ")})
}

// checkedMore returns what more is to be said; nothing where there is nothing.
func checkedMore(text string) string {
	if text == "" {
		return ""
	}
	return checkedLines("  ", []string{strings.TrimSpace(text)})
}

// checkedPlan says what a plan has.
func checkedPlan(p *seasons.Plan) string {
	dated, optional := 0, 0
	for _, j := range p.Jobs {
		if !math.IsInf(float64(j.Due), 1) {
			dated++
		}
	}
	for _, s := range p.Staffed {
		if s.Optional {
			optional++
		}
	}
	text := fmt.Sprintf("%s, %d with a date, on %s", say.Plural(len(p.Jobs), "job"), dated, say.Plural(len(p.Lines), "line"))
	if p.Order != nil {
		text += ", in an order that is given"
	}
	if optional > 0 {
		text += fmt.Sprintf("; of staff, %s optional", say.Plural(optional, "item")+map[bool]string{true: " is", false: " are"}[optional == 1])
	}
	return text + notRemadeChecked(p.NotRemade())
}

// notRemadeChecked says of which jobs nothing is made again.
func notRemadeChecked(names []string) string {
	if text := notRemade(names); text != "" {
		return "." + strings.TrimSuffix(text, ".")
	}
	return ""
}

// checkedLines returns statements, each on lines of its own.
func checkedLines(margin string, all []string) string {
	var b strings.Builder
	for _, x := range all {
		b.WriteString(say.Hanging(margin, x, say.Prose()) + "\n")
	}
	return b.String()
}

// checkedLine says what a line is, who works on it and, if there is work for it, what it does on
// paper.
func checkedLine(l *model.Line, crew []string, noWork bool) []string {
	all := []string{say.Plural(len(l.Stations), "station") + ": " + page.StationList(l)}
	if noWork {
		return append(all, crew...)
	}
	paper := study.OnPaperOf(l)
	all = append(append(all, fmt.Sprintf("%s cycles an hour, set by: %s", say.Exact(float64(paper.Speed)), page.Limits(l))), crew...)
	if l.Personalised() {
		all = append(all, "personalised: "+strings.Join(l.Streams(), ", "))
	}
	nominal := ""
	if len(l.UncertainInputs) > 0 {
		nominal = ", at nominal values"
	}
	return append(all, "on paper "+rateOnPaper(paper)+nominal)
}

// rateOnPaper says what the net rate on paper is, and of what it is the product.
func rateOnPaper(p study.OnPaper) string {
	return fmt.Sprintf("%s an hour = %s × %.2f %% running × %.2f %% good", say.Exact(float64(p.NetRate)), say.Exact(float64(p.Speed)), 100*p.Efficiency, 100*p.Good)
}

// checkedCrew says who works, what their work is, and when they do not.
func checkedCrew(l *model.Line, noWork bool) []string {
	work := fmt.Sprintf(", %s of %s%s", page.Period(l), page.Extent(l), closingWords(l))
	if noWork {
		work = "; the work is the jobs"
	}
	lines := []string{page.Operators(&l.Crew) + work}
	if breaks := page.Breaks(&l.Crew); breaks != "" {
		lines = append(lines, breaks)
	}
	lines = append(lines, page.Skills(&l.Crew)...)
	if l.BreaksDown() {
		lines = append(lines, page.Technicians(&l.Crew)+" for breakdowns")
	}
	return lines
}

// closingWords returns how the remakes of a job are closed.
func closingWords(l *model.Line) string {
	switch {
	case l.Job.Sets == 0 || !l.Personalised():
		return ""
	case l.Job.Closing == model.SecondPass:
		return ", remakes run on the line again"
	case l.Job.Closing == model.ByHand:
		return ", remakes made by hand"
	case l.Job.Closing == model.Beside:
		return ", remakes made by hand beside the line"
	}
	return ", remakes left open"
}
