package seasons

import (
	"math"
	"slices"

	"netrate/model"
	"netrate/sim"
)

// LeastRest is the rest that Directive 2003/88/EC of the European Union wants for everybody in each 24 hours
// (article 3: a minimum daily rest period of 11 consecutive hours per 24-hour period). Other rules hold elsewhere.
const LeastRest sim.Seconds = 11 * 3600

// ShortRest is somebody who is named, and has less than LeastRest at a stretch in some 24 hours.
type ShortRest struct {
	Name string
	From sim.Seconds // when the first such 24 hours begin, with a shift
	Work sim.Seconds // how much of them is in shifts, breaks too
	Rest sim.Seconds // the longest stretch of them that is in none
}

// ShortRests returns who has too little rest in a plan with what is in force, each once, in the weeks up to its last
// date, or in two if it has none: what is said of a rota may say nothing of later ones. Where nobody is named nobody
// knows.
func (p *Plan) ShortRests() []ShortRest {
	weeks := 0
	for i := range p.Jobs {
		if due := float64(p.Jobs[i].Due); !math.IsInf(due, 1) {
			weeks = max(weeks, int(min(math.Ceil(due/float64(week)), MostWeeks)))
		}
	}
	if weeks == 0 {
		weeks = 2
	}
	return shortRests(p.Calendar, &p.Crew, p.Staffed, p.From, weeks)
}

// ShortRests returns the same of a season, in all its weeks.
func (s *Season) ShortRests() []ShortRest {
	return shortRests(s.Calendar, &s.Line.Crew, s.Staff, 0, min(len(s.Weeks), MostWeeks))
}

func shortRests(c *Calendar, crew *model.Crew, staffed []Staffed, from sim.Seconds, weeks int) (all []ShortRest) {
	shifts := map[string][]Window{}
	c.eachShift(weeks, func(of shiftOf, windows []Window) {
		there := present(crew, staffed, of.Week, of.Day, of.Shift)
		if windows = after(windows, from); len(windows) == 0 {
			return
		}
		for i := range crew.People {
			who := &crew.People[i]
			if who.Operators == 1 && slices.ContainsFunc(numbers(crew, who.Name), there.has) {
				shifts[who.Name] = append(shifts[who.Name], Window{windows[0].From, windows[len(windows)-1].To})
			}
		}
	})
	for i := range crew.People {
		if x, is := shortRest(shifts[crew.People[i].Name]); is {
			x.Name = crew.People[i].Name
			all = append(all, x)
		}
	}
	return all
}

// shortRest returns the first 24 hours, from the start of a shift on, in which there is too little rest.
func shortRest(shifts []Window) (ShortRest, bool) {
	for i, first := range shifts {
		x := ShortRest{From: first.From}
		end, since := first.From+day, first.From
		for _, s := range shifts[i:] {
			if s.From >= end {
				break
			}
			x.Rest = max(x.Rest, s.From-since)
			x.Work += min(s.To, end) - s.From
			since = s.To
		}
		if x.Rest = max(x.Rest, end-since); x.Rest < LeastRest {
			return x, true
		}
	}
	return ShortRest{}, false
}
