package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// Text returns what the lines came to, on one screen if it can be.
func (g Group) Text() string {
	var b strings.Builder
	b.WriteString(title(g.Study, g.Nominal) + "\n\n" + factLines(g.found()...) + say.Wrapped(g.Finding(), say.Prose()) + "\n")
	b.WriteString(brief(g.linesTable()) + "\n" + brief(g.sharingTable()) + "\n")
	b.WriteString(say.Wrapped(g.aloneWords()+" "+g.exposed(), say.Prose()) + "\n" + stopsText(g.Study, shownStops) + "\n")
	return b.String() + uncertaintyText(g.Uncertainty, g.Basis) + ending(g.Command, g.Nominal, g.Uncertainty != nil) + PolicyNote(g.Slips)
}

// found returns what the lines deliver together.
func (g Group) found() []fact { return found(g.Study, g.Uncertainty, g.AtNominal) }

// exposed says how often the lines deliver defective envelopes, and of none what that assumes.
func (g Group) exposed() string {
	var all []*study.Exposure
	for i := range g.Lines {
		e := *g.Lines[i].Exposures[0]
		e.Line = g.Lines[i].Name
		all = append(all, &e)
	}
	return "The lines deliver " + exposuresBrief(all, page.Period(g.Lines[0].Study.Line)) + "."
}

// aloneWords says what the lines are set beside.
func (g Group) aloneWords() string {
	return fmt.Sprintf("Alone: each line with %s to itself, in the same shifts.", page.People(float64(g.Operators)))
}
