package present

import (
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
	"netrate/plots"
)

const (
	mostPeopleOnSheet = 8   // more have no room there
	mostRowsOnSheet   = 22  // of people, jobs and, with more room, lines: with more, people have none
	mostShiftsDrawn   = 130 // of a person, six weeks of three shifts a day: of more none could be seen
)

// peopleNote says what the lanes of people are and are not.
func peopleNote(x *study.PlansPlan) string {
	text := "The lanes of people are places in the crew, not names; beside them"
	if x.Made.Plan.Crew.People != nil {
		text = "Beside people"
	}
	return text + " stand the hours of the shifts that begin before the last job ends, 9 times in 10, not how busy anybody is"
}

var presences = map[study.PlansPresence]plots.Presence{
	study.PlansOfCrew: plots.OfCrew, study.PlansAdded: plots.BeyondCrew, study.PlansChosen: plots.Chosen, study.PlansAbsent: plots.Absent,
}

// drawsPeople reports whether a chart can have lanes of who is there.
func drawsPeople(x *study.PlansPlan) bool {
	most := 0
	for i := range x.People {
		most = max(most, len(x.People[i].Shifts))
	}
	return most > 0 && most <= mostShiftsDrawn
}

// peopleOnSheet reports whether those lanes stand on the sheet of paper, or in the appendix alone.
func peopleOnSheet(x *study.PlansPlan) bool {
	rows := len(x.People) + len(x.Jobs()) + len(x.Lines)*3/2
	return drawsPeople(x) && len(x.People) <= mostPeopleOnSheet && rows <= mostRowsOnSheet
}

// attended returns the people of a plan as lanes of so many hours of working time.
func attended(x *study.PlansPlan, worked func(study.PlansMoment) float64, length float64) (lanes []plots.Attendance) {
	for i := range x.People {
		p := &x.People[i]
		lane := plots.Attendance{Name: p.Name, Note: plansAttendance(p)}
		for _, s := range p.Shifts {
			from, to := worked(s.From), min(worked(s.To), length)
			if from >= to {
				continue
			}
			lane.Shifts = append(lane.Shifts, plots.Attended{From: from, To: to, Presence: presences[s.Presence], By: s.By, Extra: s.Extra})
			for _, b := range s.Breaks {
				if at := worked(b.From); s.Presence != study.PlansAbsent && at < length {
					lane.Breaks = append(lane.Breaks, at)
				}
			}
			for _, b := range s.Own {
				if begin, end := worked(b.From), min(worked(b.To), length); begin < end {
					lane.Own = append(lane.Own, plots.Span{From: begin, To: end})
				}
			}
		}
		lanes = append(lanes, lane)
	}
	return lanes
}

// plansAttendance says how long a person is there, and how long not, to a tenth of an hour, so that the hours of all
// add up.
func plansAttendance(p *study.PlansPerson) string {
	there, absent := say.Decimals(float64(p.There), 1)+" h", "absent "+say.Decimals(float64(p.Absent), 1)+" h"
	switch {
	case p.Absent == 0:
		return there
	case p.There == 0:
		return absent
	}
	return there + ", " + absent
}
