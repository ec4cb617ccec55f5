package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
	"netrate/model/study"
)

// IdleBreakNotes says which breaks of people are in no shift in which they are there, on lines of their own; "" if
// none is.
func IdleBreakNotes(all []seasons.OwnBreak) (text string) {
	for _, note := range idleBreaks(all) {
		text += say.Hanging("  note: ", note, say.Prose()) + "\n"
	}
	return text
}

// idleBreaks says the same of a plan, in one paragraph with the rest of what it says.
func (s Plans) idleBreaks(x *study.PlansPlan) string {
	if notes := idleBreaks(x.Made.Plan.IdleBreaks()); len(notes) > 0 {
		return strings.Join(notes, " ") + " "
	}
	return ""
}

// idleBreaks says it one by one.
func idleBreaks(all []seasons.OwnBreak) (notes []string) {
	for _, b := range all {
		notes = append(notes, fmt.Sprintf("%s has a break of their own %s after the start of %s, and is never there then: that changes nothing. Is somebody else meant, or another shift?",
			b.Name, page.Hours(b.After), b.InWords()))
	}
	return notes
}
