package seasons

import "netrate/sim"

// Attendance is who is there in one shift of a plan, in which somebody works.
type Attendance struct {
	Windows []Window // its working time, in order, at least one; between two of them is a break
	Crew    int      // operators as the crew has them, whatever is said of the shift
	Planned int      // operators without what is optional
	There   int      // operators with all that is in force

	PlannedBy, By string // the items of staff that say so; "" for none: it is the crew
}

// Attendance returns the shifts of the plan that begin before a time, in order, with who is there in
// each. Shifts in which nobody works are left out, as in [Plan.Horizon].
func (p *Plan) Attendance(until sim.Seconds) (all []Attendance) {
	windows := p.Calendar.shiftWindows()
	for w := 0; w < MostWeeks && sim.Seconds(sim.Seconds(w)*week) < until; w++ {
		last := [2]int{-1, -1}
		for _, x := range windows {
			start := sim.Seconds(sim.Seconds(w) * week)
			own := Window{max(p.From, start+x.From), start + x.To}
			a := p.attendance(w+1, x.day+1, x.shift+1)
			if a.There == 0 || own.From >= own.To || own.From >= until {
				continue
			}
			if this := [2]int{x.day, x.shift}; this != last {
				all, last = append(all, a), this
			}
			of := &all[len(all)-1]
			of.Windows = append(of.Windows, own)
		}
	}
	return all
}

// attendance returns who is there in a shift: by the last item in force that speaks of it.
func (p *Plan) attendance(week, day, shift int) Attendance {
	a := Attendance{Crew: p.Crew.Operators, Planned: p.Crew.Operators, There: p.Crew.Operators}
	for i := range p.Staffed {
		s := &p.Staffed[i]
		if s.Optional || !s.covers(week, day, shift) {
			continue
		}
		a.There, a.By = s.Operators, s.Name
		if !s.Chosen {
			a.Planned, a.PlannedBy = s.Operators, s.Name
		}
	}
	return a
}
