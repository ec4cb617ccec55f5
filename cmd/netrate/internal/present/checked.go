package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios"
)

// Checked says that a scenario is right, and what it is.
func Checked(sc *scenarios.Scenario) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s%s: ok\n  %s\n", desk.Premise(sc), desk.ShownFile(sc.File), sc.Name)
	if sc.LineGroup == nil {
		b.WriteString(checkedLine(sc.Line, checkedCrew(sc.Line, sc.NoWork), sc.NoWork))
	} else {
		fmt.Fprintf(&b, "  %s with one crew\n%s", say.Plural(len(sc.LineGroup.Lines), "line"), checkedCrew(sc.LineGroup.Lines[0], sc.NoWork))
		for _, l := range sc.LineGroup.Lines {
			text := checkedLine(l, "", sc.NoWork)
			fmt.Fprintf(&b, "  %s\n  %s\n", l.Name, strings.ReplaceAll(strings.TrimSuffix(text, "\n"), "\n", "\n  "))
		}
	}
	if s := sc.Season; s != nil {
		fmt.Fprintf(&b, "  season of %s, %s of working time in each\n", say.Plural(len(s.Weeks), "week"), page.Hours(s.Calendar.Working()))
	}
	return b.String()
}

// checkedLine says what a line is and, if there is work for it, what it does on paper.
func checkedLine(l *model.Line, crew string, noWork bool) string {
	text := say.Hanging("  ", say.Plural(len(l.Stations), "station")+": "+page.StationList(l), say.Screen) + "\n"
	if noWork {
		return text + crew
	}
	paper := study.OnPaperOf(l)
	text += fmt.Sprintf("  %s cycles an hour, set by: %s\n", say.Exact(float64(paper.Speed)), page.Limits(l)) + crew
	if l.Personalised() {
		text += fmt.Sprintf("  personalised: %s\n", strings.Join(l.Streams(), ", "))
	}
	return text + fmt.Sprintf("  on paper %s good envelopes an hour = %s\n", say.Exact(float64(paper.NetRate)), paperProduct(paper))
}

// paperProduct says what the net rate on paper is the product of.
func paperProduct(p study.OnPaper) string {
	return fmt.Sprintf("%s × %.2f %% running × %.2f %% good", say.Exact(float64(p.Speed)), 100*p.Efficiency, 100*p.Good)
}

// checkedCrew says who works, and what their work is.
func checkedCrew(l *model.Line, noWork bool) string {
	if noWork {
		return fmt.Sprintf("  %s; the work is the jobs\n", say.Plural(l.Crew.Operators, "operator"))
	}
	return fmt.Sprintf("  %s, %s of %s%s\n", say.Plural(l.Crew.Operators, "operator"), page.Period(l), page.Extent(l), closingWords(l))
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
	}
	return ", remakes left open"
}
