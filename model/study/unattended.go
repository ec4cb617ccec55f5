package study

import (
	"netrate/model/seasons"
	"netrate/sim"
)

// PlansUnattended is work that nobody may do who is there in a shift: it waits for the next in which somebody is.
type PlansUnattended struct {
	From PlansMoment `json:"from"`
	To   PlansMoment `json:"to"`
	SeasonsUnattended
}

// SeasonsUnattended is the same of a season.
type SeasonsUnattended struct {
	Week     int      `json:"week"` // from 1, as day and shift
	Day      int      `json:"day"`
	Shift    int      `json:"shift"`
	Line     string   `json:"line,omitempty"`
	Does     string   `json:"does"`               // what they may not: clearing, filling, changing over
	Stations []string `json:"stations,omitempty"` // at which; none for all that call for it, and for changing over the line as a whole
	Text     string   `json:"text"`               // the same as what somebody does
}

func plansUnattended(m *seasons.Made, until sim.Seconds) (all []PlansUnattended) {
	for _, u := range m.Unattended(until) {
		all = append(all, PlansUnattended{PlansMoment{u.From}, PlansMoment{u.To}, unattended(&u)})
	}
	return all
}

// seasonsUnattended returns what nobody may do in a season that was run.
func seasonsUnattended(s *seasons.Season) (all []SeasonsUnattended) {
	found, _ := s.Unattended() // it could be run
	for _, u := range found {
		all = append(all, unattended(&u))
	}
	return all
}

func unattended(u *seasons.Unattended) SeasonsUnattended {
	return SeasonsUnattended{u.Week, u.Day, u.Shift, u.Line, u.Does.String(), u.Stations, u.String()}
}
