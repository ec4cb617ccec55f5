package study

import (
	"fmt"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/sim"
)

// PlansPerson is one place in the crew, and when it is filled. Where a file names nobody, which operator is in
// which place is not known, and of some who are there fewer the last are absent.
type PlansPerson struct {
	Name   string       `json:"name"`     // of who it is, with a number if several have it; or operator 1 and so on
	There  Number       `json:"there_h"`  // breaks left out, also his own
	Absent Number       `json:"absent_h"` // breaks of everybody left out
	Shifts []PlansShift `json:"shifts"`   // in which the place is filled, or is usually, in order
}

// PlansShift is a shift of a person.
type PlansShift struct {
	From     PlansMoment   `json:"from"`
	To       PlansMoment   `json:"to"`
	Presence PlansPresence `json:"presence"`
	By       string        `json:"by,omitempty"`          // the item of staff that says so; "" for the crew as it is
	Extra    bool          `json:"extra_shift,omitempty"` // nobody would be there if it were not chosen
	Breaks   []PlansBreak  `json:"breaks,omitempty"`      // in which no line runs, those of maintenance too
	Own      []PlansBreak  `json:"own_breaks,omitempty"`  // of this person, while others work on
}

// PlansBreak is a break within a shift.
type PlansBreak struct {
	From PlansMoment `json:"from"`
	To   PlansMoment `json:"to"`
}

// PlansPresence says whether a person is there, and why.
type PlansPresence string

// The presences.
const (
	PlansOfCrew PlansPresence = "crew"   // there, as the crew is
	PlansAdded  PlansPresence = "added"  // there, beyond the crew
	PlansChosen PlansPresence = "chosen" // there, since that is chosen of what is optional
	PlansAbsent PlansPresence = "absent" // usually there, and not now
)

// plansPeople returns the people of some shifts: as many as the crew has, or as are ever there.
func plansPeople(p *seasons.Plan, until sim.Seconds) []PlansPerson {
	shifts, days := p.Attendance(until), wholeDays(p, until)
	people := []PlansPerson{}
	for i := range shifts {
		a := &shifts[i]
		for len(people) < max(a.Crew, a.There) {
			people = append(people, PlansPerson{Name: plansName(&p.Crew, len(people)), Shifts: []PlansShift{}})
		}
		wanted := max(a.Crew, a.There)
		if a.Planned == 0 { // nobody is absent where nobody would be there
			wanted = a.There
		}
		for k := range wanted {
			if a.Has(k) || p.Usually(k, a.Shift) && !elsewhere(p, days, a, k) {
				people[k].add(a, k+1)
			}
		}
	}
	return people
}

// wholeDays returns the shifts of all days of a plan up to a time, also those of the first day before the plan begins and of
// the last one after the time: by these too it is seen who works when on a day.
func wholeDays(p *seasons.Plan, until sim.Seconds) []seasons.Attendance {
	whole := *p
	if whole.From = sim.Seconds(dayOf(p.From)) * 24 * 3600; !math.IsInf(float64(until), 1) {
		until = sim.Seconds(dayOf(until)+1) * 24 * 3600
	}
	return whole.Attendance(until)
}

// elsewhere reports whether somebody whose name is known is there in another shift of the day: he is off in this one. A
// shift in which nobody would be but for a choice, such as overtime, is none of his in the stead of another.
func elsewhere(p *seasons.Plan, shifts []seasons.Attendance, a *seasons.Attendance, number int) bool {
	day := dayOf(a.Windows[0].From)
	return p.Crew.People != nil && slices.ContainsFunc(shifts, func(x seasons.Attendance) bool {
		return dayOf(x.Windows[0].From) == day && x.Planned > 0 && x.Has(number)
	})
}

// dayOf returns the day of a time, from 0.
func dayOf(at sim.Seconds) int { return int(at / (24 * 3600)) }

// plansName returns what an operator is called, by his number.
func plansName(crew *model.Crew, number int) string {
	if crew.People == nil {
		return fmt.Sprintf("operator %d", number+1)
	}
	for i := range crew.People {
		p := &crew.People[i]
		switch {
		case number >= p.Operators:
			number -= p.Operators
		case p.Operators == 1:
			return p.Name
		default:
			return fmt.Sprintf("%s, %d of %d", p.Name, number+1, p.Operators)
		}
	}
	return "nobody"
}

// add adds a shift to what the n-th person does.
func (x *PlansPerson) add(a *seasons.Attendance, n int) {
	last := len(a.Windows) - 1
	s := PlansShift{
		From: PlansMoment{a.Windows[0].From}, To: PlansMoment{a.Windows[last].To},
		Presence: PlansOfCrew, Extra: a.Planned == 0,
	}
	away := a.Away(n - 1)
	switch {
	case away != nil:
		s.Presence, s.By = PlansAbsent, away.By
	case n > a.There:
		s.Presence, s.By = PlansAbsent, a.By
	case n > a.Planned:
		s.Presence, s.By = PlansChosen, a.By
	case n > a.Crew:
		s.Presence, s.By = PlansAdded, a.PlannedBy
	}
	for i, w := range a.Windows {
		if i > 0 {
			s.Breaks = append(s.Breaks, PlansBreak{PlansMoment{a.Windows[i-1].To}, PlansMoment{w.From}})
		}
	}
	for _, r := range a.Rests {
		if r.Number == n-1 {
			s.Own = append(s.Own, PlansBreak{PlansMoment{r.From}, PlansMoment{r.To}})
		}
	}
	if s.Presence == PlansAbsent {
		x.Absent += Number(a.Hours())
	} else {
		x.There += Number(a.Hours() - a.Rested(n-1, n))
	}
	x.Shifts = append(x.Shifts, s)
}
