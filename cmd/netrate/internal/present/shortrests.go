package present

import (
	"fmt"
	"strings"
	"time"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
	"netrate/model/study"
)

// ShortRestNotes says who has too little rest, on lines of their own; "" if nobody has. starts is the first day; the
// zero time if there are no dates.
func ShortRestNotes(all []seasons.ShortRest, starts time.Time) (text string) {
	if said := shortRests(all, func(m study.PlansMoment) string { return momentOf(m, starts) }); said != "" {
		return say.Hanging("  note: ", strings.TrimSpace(said), say.Prose()) + "\n"
	}
	return ""
}

// shortRests says it in one paragraph; nothing where nobody has.
func shortRests(all []seasons.ShortRest, moment func(study.PlansMoment) string) string {
	if len(all) == 0 {
		return ""
	}
	var order []seasons.ShortRest
	names := map[seasons.ShortRest][]string{} // of who has it alike
	for _, x := range all {
		name := x.Name
		if x.Name = ""; names[x] == nil {
			order = append(order, x)
		}
		names[x] = append(names[x], name)
	}
	var who []string
	for _, x := range order {
		who = append(who, fmt.Sprintf("%s %s %s at a stretch in the 24 hours from %s on, and %s in shifts", say.List(names[x]),
			map[bool]string{true: "has", false: "have"}[len(names[x]) == 1], page.Hours(x.Rest), moment(study.PlansMoment{At: x.From}), page.Hours(x.Work)))
	}
	return "Too little rest: " + strings.Join(who, "; ") + ". Directive 2003/88/EC, article 3, wants " + page.Hours(seasons.LeastRest) +
		" for everybody; local rules decide. Is somebody else meant? "
}
