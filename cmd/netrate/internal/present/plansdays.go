package present

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/seasons"
	"netrate/model/study"
)

// name returns what a plan is called, its days as the plan has them.
func (s Plans) name(x *study.PlansPlan) string {
	name := x.Name
	for i := range x.Prices {
		if p := &x.Prices[i]; p.Of != nil {
			name = strings.Replace(name, p.Called(), s.priced(p), 1)
		}
	}
	return name
}

// priced returns what is chosen, with its days where that is not all of it: "overtime (Thu and Fri)".
func (s Plans) priced(p *study.PlansPrice) string {
	if p.Of == nil {
		return p.Name
	}
	return p.Name + " (" + s.staffDays(p.Of) + ")"
}

// chosenItems returns all that is chosen for a plan, and what was bought before.
func (s Plans) chosenItems(x *study.PlansPlan) (all []string) {
	for _, of := range [][]study.PlansPrice{s.Bought, x.Prices} {
		for i := range of {
			all = append(all, s.priced(&of[i]))
		}
	}
	return all
}

// staffDays returns days or shifts of an item of staff.
func (s Plans) staffDays(days []seasons.StaffDay) string {
	var all []string
	for _, d := range days {
		text := s.day(dayNumber(study.PlansMoment{At: d.From()}))
		if d.Shift > 0 {
			text += fmt.Sprintf(" shift %d", d.Shift)
		}
		all = append(all, text)
	}
	return say.List(all)
}

// daysTried says, after a space, how days were chosen, and that they may not be the best; "" if none were tried.
func (s Plans) daysTried() string {
	if s.Days == nil {
		return ""
	}
	text := fmt.Sprintf(" Beside what is taken whole, %s with fewer %s %s tried, one left out after another", say.Plural(s.Days.Tried, "choice"), s.pers(), map[bool]string{true: "was", false: "were"}[s.Days.Tried == 1])
	if s.Days.Stopped {
		return text + "; that is as many as are tried, and more may be saved."
	}
	return text + "; another set of them may cost less."
}

// pers returns what is left out: days, shifts, or both.
func (s Plans) pers() string {
	var day, shift bool
	for i := range s.Plans {
		for _, p := range s.Plans[i].Prices {
			day, shift = day || p.Per == string(seasons.PerDay), shift || p.Per == string(seasons.PerShift)
		}
	}
	switch {
	case day && shift:
		return "days or shifts"
	case shift:
		return "shifts"
	}
	return "days"
}
