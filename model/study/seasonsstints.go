package study

import (
	"cmp"
	"slices"

	"netrate/model/seasons"
)

// SeasonsStint is a stretch of a week in which the line does one thing, in hours on the clock on
// the wall from the start of the week.
type SeasonsStint struct {
	From, To float64
	Activity SeasonsActivity
	Job      string // "" if it is none
}

// SeasonsActivity is what a line does for a while.
type SeasonsActivity int

// The activities.
const (
	SeasonsProducing SeasonsActivity = iota
	SeasonsChanging
	SeasonsRemaking // it stands while remakes are made by hand
	SeasonsAwaiting // somebody who may change it over
	SeasonsIdling   // it has nothing to do
	SeasonsPausing  // within a shift, but not in its working time
)

// Stints returns what the line does in a week of one replication, both from 0, in order.
func (x *SeasonsLine) Stints(week, replication int) []SeasonsStint {
	calendar, hours := x.Study.Season.Calendar, x.Study.Hours
	from := float64(float64(week) * hours)
	var stints []SeasonsStint
	add := func(begin, end float64, activity SeasonsActivity, job string) {
		for _, s := range onTheWall(calendar.Windows(), begin-from, end-from) {
			s.Activity, s.Job = activity, job
			stints = append(stints, s)
		}
	}
	at := from // up to where the line has something to do
	for n, j := range x.Study.Jobs {
		begun, finished := j.Begun[replication], j.LineFree()[replication]
		called := begun
		if j.Waits != nil {
			called -= j.Waits[replication]
		}
		if finished <= from || called >= from+hours {
			continue
		}
		name := x.Jobs[n].Name
		add(at, called, SeasonsIdling, "")
		add(called, begun, SeasonsAwaiting, name)
		add(begun, begun+j.Change[replication], SeasonsChanging, name)
		stands := finished
		if j.Stood != nil {
			stands -= j.Stood[replication]
		}
		add(begun+j.Change[replication], stands, SeasonsProducing, name)
		add(stands, finished, SeasonsRemaking, name)
		at = finished
	}
	add(max(at, from), from+hours, SeasonsIdling, "")
	stints = append(stints, seasonsPauses(calendar)...)
	slices.SortStableFunc(stints, func(a, b SeasonsStint) int { return cmp.Compare(a.From, b.From) })
	return stints
}

// onTheWall returns when a stretch of the working time of a week is. What lies before or after
// the working time is left out.
func onTheWall(windows []seasons.Window, from, to float64) []SeasonsStint {
	var spans []SeasonsStint
	before := 0.0 // working time
	for _, w := range windows {
		begin, length := float64(w.From)/3600, float64(w.To-w.From)/3600
		a, b := max(from-before, 0), min(to-before, length)
		if a < b {
			spans = append(spans, SeasonsStint{From: begin + a, To: begin + b})
		}
		before += length
	}
	return spans
}

// seasonsPauses returns the time within shifts that is not working time.
func seasonsPauses(c *seasons.Calendar) []SeasonsStint {
	var stints []SeasonsStint
	manned := seasons.Calendar{Days: c.Days, Shifts: c.Shifts}
	for _, shift := range manned.Windows() {
		at := shift.From
		for _, w := range append(c.Windows(), seasons.Window{From: shift.To, To: shift.To}) {
			if w.To < shift.From || w.From > shift.To {
				continue
			}
			if w.From > at {
				stints = append(stints, SeasonsStint{From: float64(at) / 3600, To: float64(w.From) / 3600, Activity: SeasonsPausing})
			}
			at = max(at, w.To)
		}
	}
	return stints
}
