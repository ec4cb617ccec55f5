package present

import (
	"slices"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
)

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
