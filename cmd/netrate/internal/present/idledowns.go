package present

import (
	"strings"
	"time"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
	"netrate/model/study"
)

// IdleDownNotes says which times in which a line is down meet no working time, on lines of their own; "" if
// none does, or if p is nil. starts is the first day of the plan; the zero time if it has no dates.
func IdleDownNotes(p *seasons.Plan, starts time.Time) (text string) {
	for _, note := range idleDowns(p, func(m study.PlansMoment) string { return momentOf(m, starts) }) {
		text += say.Hanging("  note: ", note, say.Prose()) + "\n"
	}
	return text
}

// idleDowns says the same of a plan, in one paragraph with the rest of what it says.
func (s Plans) idleDowns(x *study.PlansPlan) string {
	if notes := idleDowns(x.Made.Plan, s.Moment); len(notes) > 0 {
		return strings.Join(notes, " ") + " "
	}
	return ""
}

// idleDowns says it one by one.
func idleDowns(p *seasons.Plan, moment func(study.PlansMoment) string) (notes []string) {
	for _, d := range p.IdleDowns() {
		notes = append(notes, p.Lines[d.Line].Name+" is down from "+moment(study.PlansMoment{At: d.From})+" to "+
			moment(study.PlansMoment{At: d.To})+", when nobody works: that changes nothing. Is another day or hour meant?")
	}
	return notes
}
