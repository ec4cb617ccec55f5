package present

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

// mostRoll is how many rows of who is there the sheet has room for beside its chart and its jobs.
const mostRoll = 9

// roll is shifts in which the same people are there at the same hours.
type roll struct {
	hours, who, breaks, note string
	shifts                   []study.PlansShift
}

// there returns who is there in all shifts that begin before the last job is finished, each to its end: a row for days on
// which the same are there at the same hours, with who is not there, and why, and who comes by choice.
func (s Plans) there(x *study.PlansPlan) plots.Table {
	t := plots.Table{
		Name: "There", Caption: "Who is there, in shifts that begin before the last job is finished 9 times in 10; in a break of all the lines stand",
		Columns: []plots.Column{{Title: "Days"}, {Title: "Hours"}, {Title: "There"}, {Title: "Breaks"}, {Title: "Other than usual"}},
	}
	days, noted := plansDays(x), false
	for i, r := range s.rolls(x) {
		if noted = noted || r.note != ""; i < mostRoll {
			t.Rows = append(t.Rows, []plots.Entry{page.Words(s.stretches(days, placesOf(days, r.shifts))), page.Words(r.hours), page.Words(r.who), page.Words(r.breaks), page.Words(r.note)})
			continue
		}
		t.Caption += "; more shifts are in the appendix"
		break
	}
	t.Columns[4].Data = !noted
	return t
}

// rolls returns the shifts of a plan, those together that are alike, in the order in which they first come.
func (s Plans) rolls(x *study.PlansPlan) (all []roll) {
	shifts, begins := byBegin(x)
	for _, from := range begins {
		r := s.roll(x, from, shifts[from])
		k := slices.IndexFunc(all, func(other roll) bool {
			return other.hours == r.hours && other.who == r.who && other.breaks == r.breaks && other.note == r.note
		})
		if k < 0 {
			all = append(all, r)
			continue
		}
		all[k].shifts = append(all[k].shifts, r.shifts...)
	}
	return all
}

// byBegin returns the shifts of all people by when they begin, each by the number of its person, and those times in order.
func byBegin(x *study.PlansPlan) (shifts map[study.PlansMoment]map[int]study.PlansShift, begins []study.PlansMoment) {
	shifts = map[study.PlansMoment]map[int]study.PlansShift{}
	for n := range x.People {
		for _, shift := range x.People[n].Shifts {
			if shifts[shift.From] == nil {
				shifts[shift.From] = map[int]study.PlansShift{}
				begins = append(begins, shift.From)
			}
			shifts[shift.From][n] = shift
		}
	}
	slices.SortFunc(begins, func(a, b study.PlansMoment) int { return cmp.Compare(a.At, b.At) })
	return shifts, begins
}

// roll returns one shift.
func (s Plans) roll(x *study.PlansPlan, from study.PlansMoment, of map[int]study.PlansShift) (r roll) {
	var there []int
	why := map[string][]int{}
	var order []string
	for _, n := range slices.Sorted(maps.Keys(of)) {
		shift := of[n]
		r.hours, r.shifts = s.clock(from)+" to "+s.clock(shift.To), []study.PlansShift{shift}
		if shift.Presence != study.PlansAbsent {
			there = append(there, n)
		}
		if shift.Presence == study.PlansOfCrew {
			continue
		}
		key := string(shift.Presence) + " " + shift.By
		if why[key] == nil {
			order = append(order, key)
		}
		why[key] = append(why[key], n)
	}
	r.breaks, r.who = s.breaks(x, of), "nobody"
	if there != nil {
		r.who = plansNames(x, there)
	}
	var notes []string
	for _, key := range order {
		presence, by, _ := strings.Cut(key, " ")
		switch who := plansNames(x, why[key]); study.PlansPresence(presence) {
		case study.PlansAbsent:
			notes = append(notes, "without "+who+": "+by)
		case study.PlansChosen:
			notes = append(notes, by+", chosen"+ofAll(who, r.who))
		default:
			notes = append(notes, by+ofAll(who, r.who))
		}
	}
	r.note = strings.Join(notes, "; ")
	return r
}

// ofAll says who comes for a reason, if that is not all who are there.
func ofAll(who, all string) string {
	if who == all {
		return ""
	}
	return ": " + who
}

// placesOf returns the places of the days of some shifts among all days.
func placesOf(days []int, shifts []study.PlansShift) (places []int) {
	for _, shift := range shifts {
		places = append(places, slices.Index(days, dayNumber(shift.From)))
	}
	return places
}

// breaks says who of a shift has a break at which hours: all, so that the lines stand, or some, while the others work on.
func (s Plans) breaks(x *study.PlansPlan, of map[int]study.PlansShift) string {
	who := map[string][]int{}
	for n, shift := range of {
		if shift.Presence == study.PlansAbsent {
			continue
		}
		for _, b := range shift.Breaks { // of everybody alike
			who[s.clock(b.From)+" to "+s.clock(b.To)] = nil
		}
		for _, b := range shift.Own {
			hours := s.clock(b.From) + " to " + s.clock(b.To)
			who[hours] = append(who[hours], n)
		}
	}
	var parts []string
	for _, hours := range slices.Sorted(maps.Keys(who)) {
		names := "all"
		if slices.Sort(who[hours]); who[hours] != nil {
			names = plansNames(x, who[hours])
		}
		parts = append(parts, hours+" "+names)
	}
	return strings.Join(parts, "; ")
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
