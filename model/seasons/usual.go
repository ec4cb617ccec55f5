package seasons

import "slices"

// Usually reports whether an operator is usually there in a shift of the day, by his number, the shift from 1: on at
// least half of the days of a week on which anybody is there in it, by the crew and by what is said of all weeks. What is
// said of some weeks, and what is optional, chosen or not, is an exception.
func (p *Plan) Usually(number, shift int) bool {
	rota := *p
	rota.Staffed = slices.DeleteFunc(slices.Clone(p.Staffed), func(s Staffed) bool { return s.Weeks != nil || s.Optional || s.Chosen })
	days, there := 0, 0
	for day := 1; day <= p.Calendar.Days; day++ {
		if a := rota.attendance(shiftOf{Week: 1, Day: day, Shift: shift}); a.Present() > 0 {
			days++
			if a.Has(number) {
				there++
			}
		}
	}
	return days > 0 && 2*there >= days
}
