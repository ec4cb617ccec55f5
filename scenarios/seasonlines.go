package scenarios

import (
	"time"

	"netrate/model/seasons"
)

// planned returns the season of several lines as a plan of them, and notes what of it cannot be: nil if
// there is one line, or something is wrong already.
func (x *season) planned(r *reader, s *seasons.Season, n *node, group *Shop) *Plan {
	if s == nil || group.LineGroup == nil {
		return nil
	}
	if order := child(n, "order"); order != nil {
		r.note(order, "order is for one line: of several, which does which job when is found")
	}
	if r.spoilt(n) || s.Calendar == nil || len(s.Calendar.Check()) > 0 {
		return nil
	}
	p := s.Planned(group.lines(), group.Line.Crew)
	weeks := child(n, "weeks")
	switch {
	case len(s.Weeks) > seasons.MostWeeks:
		r.note(weeks, "the season has %d weeks, and of several lines at most %d are planned", len(s.Weeks), seasons.MostWeeks)
	case len(p.Jobs) > maxPlanJobs:
		r.note(weeks, "the season has %d jobs in all weeks, and of several lines at most %d are planned", len(p.Jobs), maxPlanJobs)
	}
	return &Plan{Plan: p, Starts: time.Time(or(x.Starts, date{}))}
}
