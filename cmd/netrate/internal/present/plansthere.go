package present

import (
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// mostExceptions is how many lines of exceptions the sheet has room for beside its chart and its jobs.
const mostExceptions = 8

// roster is some people who are there, or are not, for one reason, in some shifts.
type roster struct {
	presence study.PlansPresence
	by       string
	who      []int // numbers of the crew
	shifts   []study.PlansShift
}

// there says who is there: first what is not as usual, item by item, then the usual shifts, of all that begin before
// the last job is finished, each to its end.
func (s Plans) there(x *study.PlansPlan) (all []string) {
	exceptions, usual := rosters(x)
	for i, r := range exceptions {
		if i == mostExceptions {
			all = append(all, say.Plural(len(exceptions)-i, "exception")+" more: the lanes of people have all")
			break
		}
		text := r.by + ": "
		switch r.presence {
		case study.PlansAbsent:
			text += "without " + plansNames(x, r.who)
		case study.PlansChosen:
			text = r.by + ", which is chosen: " + plansNames(x, r.who) + s.besides(x, &r)
		default:
			text += plansNames(x, r.who) + s.besides(x, &r)
		}
		all = append(all, text+", "+s.when(x, r.shifts))
	}
	var parts []string
	for _, r := range usual {
		parts = append(parts, plansNames(x, r.who)+", "+s.when(x, r.shifts))
	}
	if len(parts) == 0 {
		return all
	}
	head := "The usual shifts: "
	if len(exceptions) > 0 {
		head = "But for that, as usual: "
	}
	all = append(all, head+strings.Join(parts, "; "))
	if breaks := s.ownBreaks(x); breaks != "" {
		all = append(all, breaks)
	}
	return all
}

// ownBreaks says who has a break while the others work on, and at which hours, which are the same on all days; nothing if
// nobody has.
func (s Plans) ownBreaks(x *study.PlansPlan) string {
	names := map[string][]string{} // by their hours
	var order []string
	for n := range x.People {
		var own []string
		for _, shift := range x.People[n].Shifts {
			for _, b := range shift.Own {
				if hours := s.clock(b.From) + " to " + s.clock(b.To); !slices.Contains(own, hours) {
					own = append(own, hours)
				}
			}
		}
		if own == nil {
			continue
		}
		hours := say.List(own)
		if names[hours] == nil {
			order = append(order, hours)
		}
		names[hours] = append(names[hours], x.People[n].Name)
	}
	if len(order) == 0 {
		return ""
	}
	for i, hours := range order {
		order[i] = say.List(names[hours]) + ", " + hours
	}
	return "On a break while the others work: " + strings.Join(order, "; ")
}

// besides says "more" of people who come to shifts in which others are.
func (s Plans) besides(x *study.PlansPlan, r *roster) string {
	if r.shifts[0].Extra || x.Made.Plan.Crew.People != nil {
		return ""
	}
	return " more"
}

// rosters returns the exceptions of a plan, item by item, and its usual shifts: with those who are absent.
func rosters(x *study.PlansPlan) (exceptions, usual []roster) {
	type reason struct {
		presence study.PlansPresence
		by       string
	}
	byShift := map[study.PlansMoment]map[reason][]int{}
	shifts := map[study.PlansMoment]study.PlansShift{}
	var begins []study.PlansMoment
	for n := range x.People {
		for _, shift := range x.People[n].Shifts {
			if byShift[shift.From] == nil {
				byShift[shift.From], shifts[shift.From] = map[reason][]int{}, shift
				begins = append(begins, shift.From)
			}
			of := reason{shift.Presence, shift.By}
			if of.presence == study.PlansOfCrew {
				of.by = ""
			}
			byShift[shift.From][of] = append(byShift[shift.From][of], n)
		}
	}
	slices.SortFunc(begins, func(a, b study.PlansMoment) int { return int(a.At - b.At) })
	for _, from := range begins {
		var regular []int
		for _, of := range []study.PlansPresence{study.PlansAbsent, study.PlansChosen, study.PlansAdded, study.PlansOfCrew} {
			for n := range x.People { // in the order of the crew
				for why, who := range byShift[from] {
					if why.presence != of || who[0] != n {
						continue
					}
					if of != study.PlansOfCrew {
						exceptions = together(exceptions, roster{of, why.by, who, []study.PlansShift{shifts[from]}})
					}
					if of == study.PlansOfCrew || of == study.PlansAbsent {
						regular = append(regular, who...)
					}
				}
			}
		}
		if slices.Sort(regular); regular != nil {
			usual = together(usual, roster{who: regular, shifts: []study.PlansShift{shifts[from]}})
		}
	}
	return exceptions, usual
}

// together adds shifts of some people to theirs, if they have some for the same reason.
func together(all []roster, r roster) []roster {
	for i := range all {
		if a := &all[i]; a.presence == r.presence && a.by == r.by && slices.Equal(a.who, r.who) {
			a.shifts = append(a.shifts, r.shifts...)
			return all
		}
	}
	return append(all, r)
}

// plansNames returns people by name, or their number where the file names nobody.
func plansNames(x *study.PlansPlan, who []int) string {
	if x.Made.Plan.Crew.People == nil {
		return say.Plural(len(who), "operator")
	}
	var names []string
	for _, n := range who {
		names = append(names, x.People[n].Name)
	}
	return say.List(names)
}

// when returns shifts by their hours and days: "Mon to Fri, 06:00 to 14:00 and 14:00 to 22:00". Days in a row are those
// between which the plan has no other; those on which nobody works are named.
func (s Plans) when(x *study.PlansPlan, shifts []study.PlansShift) string {
	days := plansDays(x)
	type group struct{ hours, days string }
	var groups []group
	of := map[string][]int{} // places in the days, by hours
	var order []string
	for _, shift := range shifts {
		hours := s.clock(shift.From) + " to " + s.clock(shift.To)
		if of[hours] == nil {
			order = append(order, hours)
		}
		of[hours] = append(of[hours], slices.Index(days, dayNumber(shift.From)))
	}
	for _, hours := range order {
		text := s.stretches(days, of[hours])
		if k := slices.IndexFunc(groups, func(g group) bool { return g.days == text }); k >= 0 {
			groups[k].hours += " and " + hours
			continue
		}
		groups = append(groups, group{hours, text})
	}
	var parts []string
	for _, g := range groups {
		parts = append(parts, g.days+", "+g.hours)
	}
	return strings.Join(parts, " and ")
}

// stretches returns days by their places, those in a row as one stretch.
func (s Plans) stretches(days, places []int) string {
	var parts []string
	for i := 0; i < len(places); {
		k := i
		for k+1 < len(places) && places[k+1] == places[k]+1 {
			k++
		}
		text := s.day(days[places[i]])
		if k > i {
			text += " to " + s.day(days[places[k]]) + s.butFor(days, days[places[i]], days[places[k]])
		}
		parts = append(parts, text)
		i = k + 1
	}
	return say.List(parts)
}

// butFor names the days from a first to a last one on which nobody works: a weekday that is so in all weeks by its name.
func (s Plans) butFor(days []int, first, last int) string {
	idle := func(n int) bool { return !slices.Contains(days, n) }
	var parts []string
	for n := first; n <= last; n++ {
		weekly, times := true, 0 // of the days of this weekday
		for m := first + (n-first)%7; m <= last; m += 7 {
			weekly, times = weekly && idle(m), times+1
		}
		switch {
		case !idle(n) || weekly && times > 1 && n >= first+7:
		case weekly && times > 1 && s.Starts.IsZero():
			parts = append(parts, fmt.Sprintf("day %d of a week", n%7+1))
		case weekly && times > 1:
			parts = append(parts, s.Starts.AddDate(0, 0, n).Weekday().String()+"s")
		default:
			parts = append(parts, s.day(n))
		}
	}
	if parts == nil {
		return ""
	}
	return " (not " + say.List(parts) + ")"
}

// plansDays returns the days on which a plan has shifts, from 0, in order.
func plansDays(x *study.PlansPlan) (all []int) {
	for i := range x.People {
		for _, shift := range x.People[i].Shifts {
			all = append(all, dayNumber(shift.From))
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

func dayNumber(m study.PlansMoment) int { return int(m.At / (24 * 3600)) }

// day returns a day by its number: "Tue" in a plan of one week, else "Tue 24 Mar", or "day 2" where dates are not known.
func (s Plans) day(n int) string {
	if !s.Starts.IsZero() && s.oneWeek() {
		return s.Starts.AddDate(0, 0, n).Format("Mon")
	}
	if s.Starts.IsZero() && n >= 7 {
		return fmt.Sprintf("week %d day %d", n/7+1, n%7+1)
	}
	if s.Starts.IsZero() {
		return fmt.Sprintf("day %d", n+1)
	}
	return s.Starts.AddDate(0, 0, n).Format("Mon 2 Jan")
}

// clock returns the time of day of a moment.
func (s Plans) clock(m study.PlansMoment) string {
	minutes := int(m.At/60+0.5) % (24 * 60)
	return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60)
}
