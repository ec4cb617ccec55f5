package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/say"
)

// Text returns what the lines came to, on one screen if it can be.
func (g Group) Text() string {
	var b strings.Builder
	b.WriteString(title(g.Study, g.Nominal) + "\n\n" + factLines(g.found()...) + say.Wrapped(g.Finding(), say.Screen) + "\n")
	b.WriteString(brief(g.linesTable()) + "\n" + brief(g.sharingTable()) + "\n")
	b.WriteString(say.Wrapped(g.aloneWords(), say.Screen) + "\n" + stopsText(g.Study, shownStops) + "\n")
	return b.String() + uncertaintyText(g.Uncertainty, g.Basis) + ending(g.Command, g.Nominal, g.Uncertainty != nil) + PolicyNote(g.Slips)
}

// found returns what the lines deliver together.
func (g Group) found() []fact { return found(g.Study, g.Uncertainty, g.AtNominal) }

// aloneWords says what the lines are set beside.
func (g Group) aloneWords() string {
	return fmt.Sprintf("Alone: each line with %s to itself, simulated in the same shifts with the same random events.", say.Plural(g.Operators, "operator"))
}
