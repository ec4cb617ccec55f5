package study

import (
	"fmt"

	"netrate/model/seasons"
	"netrate/sim"
)

// PlansPerson is one place in the crew, and when it is filled. A file names nobody: which operator is in
// which place is not known, and of some who are there fewer the last are absent.
type PlansPerson struct {
	Name   string       `json:"name"`     // operator 1 and so on
	There  Number       `json:"there_h"`  // breaks left out
	Absent Number       `json:"absent_h"` // so too
	Shifts []PlansShift `json:"shifts"`   // in which the place is filled, or would be by the crew, in order
}

// PlansShift is a shift of a person.
type PlansShift struct {
	From     PlansMoment   `json:"from"`
	To       PlansMoment   `json:"to"`
	Presence PlansPresence `json:"presence"`
	By       string        `json:"by,omitempty"`          // the item of staff that says so; "" for the crew as it is
	Extra    bool          `json:"extra_shift,omitempty"` // nobody would be there if it were not chosen
	Breaks   []PlansBreak  `json:"breaks,omitempty"`      // in which no line runs, those of maintenance too
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
	PlansAbsent PlansPresence = "absent" // of the crew, and not there
)

// plansPeople returns the people of some shifts: as many as the crew has, or as are ever there.
func plansPeople(shifts []seasons.Attendance) []PlansPerson {
	people := []PlansPerson{}
	for i := range shifts {
		a := &shifts[i]
		for len(people) < max(a.Crew, a.There) {
			people = append(people, PlansPerson{Name: fmt.Sprintf("operator %d", len(people)+1), Shifts: []PlansShift{}})
		}
		wanted := max(a.Crew, a.There)
		if a.Planned == 0 { // nobody is absent where nobody would be there
			wanted = a.There
		}
		for k := range wanted {
			people[k].add(a, k+1)
		}
	}
	return people
}

// add adds a shift to what the n-th person does.
func (x *PlansPerson) add(a *seasons.Attendance, n int) {
	last := len(a.Windows) - 1
	s := PlansShift{
		From: PlansMoment{a.Windows[0].From}, To: PlansMoment{a.Windows[last].To},
		Presence: PlansOfCrew, Extra: a.Planned == 0,
	}
	switch {
	case n > a.There:
		s.Presence, s.By = PlansAbsent, a.By
	case n > a.Planned:
		s.Presence, s.By = PlansChosen, a.By
	case n > a.Crew:
		s.Presence, s.By = PlansAdded, a.PlannedBy
	}
	hours := sim.Seconds(0)
	for i, w := range a.Windows {
		hours += w.To - w.From
		if i > 0 {
			s.Breaks = append(s.Breaks, PlansBreak{PlansMoment{a.Windows[i-1].To}, PlansMoment{w.From}})
		}
	}
	if s.Presence == PlansAbsent {
		x.Absent += Number(hours / 3600)
	} else {
		x.There += Number(hours / 3600)
	}
	x.Shifts = append(x.Shifts, s)
}
