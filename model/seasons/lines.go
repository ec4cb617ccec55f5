package seasons

import (
	"math"

	"netrate/model"
	"netrate/sim"
)

// Planned returns the season as a plan of several lines that share a crew: each product of each week is a
// job that may begin when its week does, and is due when the last shift of the week ends. Which line does
// it, and when, is found; the line, its crew and the order of the season do not count. The calendar must
// pass its Check.
func (s *Season) Planned(lines []*model.Line, crew model.Crew) *Plan {
	p := &Plan{
		Lines: lines, Crew: crew, Calendar: s.Calendar, Products: s.Products, Change: s.Change,
		Closing: s.Closing, Begins: s.Begins, Staffed: s.Staff,
	}
	end := sim.Seconds(math.Inf(1))
	if windows := s.Calendar.Windows(); len(windows) > 0 {
		end = windows[len(windows)-1].To
	}
	for w, of := range s.Weeks {
		p.Weeks = append(p.Weeks, of.Name)
		start := sim.Seconds(sim.Seconds(w) * week)
		for i, sets := range of.Sets {
			if sets > 0 {
				p.Jobs = append(p.Jobs, PlanJob{
					Name: of.Name + ": " + s.Products[i].Name, Product: i, Sets: sets, NotBefore: start, Due: start + end, Priority: 1, InHand: -1, Week: w + 1,
				})
			}
		}
	}
	return p
}
