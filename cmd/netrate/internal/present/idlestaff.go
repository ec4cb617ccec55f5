package present

import (
	"slices"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
)

// idleItems says the same of what is not optional, with a question, since it may be a slip.
func idleItems(p *seasons.Plan) string {
	names := p.IdleItems()
	if len(names) == 0 {
		return ""
	}
	return say.Capital(say.List(names)) + map[bool]string{true: " changes", false: " change"}[len(names) == 1] + " nobody: without it the same people are there in each shift. Is another day, shift or number meant? "
}

// idleStaff says which of what is optional changes nobody, what follows, and why that may be; nothing for none.
func idleStaff(p *seasons.Plan, names []string, follows string) string {
	if len(names) == 0 {
		return ""
	}
	text := say.Capital(say.List(names)) + map[bool]string{true: " is", false: " are"}[len(names) == 1] + " optional," + follows + ": with or without it the same people are there in each shift. "
	for i := range p.Staffed {
		if s := &p.Staffed[i]; s.Absent != nil && slices.Contains(names, s.Name) {
			return text + "Who is absent by one item of staff is so whatever another says. "
		}
	}
	return text
}
