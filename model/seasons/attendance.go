package seasons

import (
	"math"
	"slices"

	"netrate/sim"
)

// Attendance is who is there in one shift of a plan, in which somebody works.
type Attendance struct {
	Windows []Window // its working time, in order, at least one; between two of them is a break
	Shift   int      // of its day, from 1
	Crew    int      // operators as the crew has them, whatever is said of the shift
	Planned int      // operators without what is optional
	There   int      // operators with all that is in force, those who are absent by name too

	PlannedBy, By string // the items of staff that say so; "" for none: it is the crew

	Absent []Absence // of those who are stated one by one
	Rests  []Rest    // breaks that one of those who are there has while others work on, as far as they are working time
}

// Absence is somebody who is not there, by his number, and the item of staff that says so.
type Absence struct {
	Number int
	By     string
}

// Has reports whether an operator is there, by his number.
func (a *Attendance) Has(number int) bool { return number < a.There && a.Away(number) == nil }

// Away returns why an operator is absent who is stated by name; nil if he is not.
func (a *Attendance) Away(number int) *Absence {
	i := slices.IndexFunc(a.Absent, func(x Absence) bool { return x.Number == number })
	if i < 0 {
		return nil
	}
	return &a.Absent[i]
}

// Present returns how many operators are there.
func (a *Attendance) Present() int { return a.There - len(a.Absent) }

// Hours returns the working time of the shift, in hours.
func (a *Attendance) Hours() float64 {
	sum := sim.Seconds(0)
	for _, w := range a.Windows {
		sum += w.To - w.From
	}
	return float64(sum) / 3600
}

// Rested returns for how long some operators have breaks of their own, by their numbers, from one to below another, in
// hours.
func (a *Attendance) Rested(from, to int) float64 {
	sum := sim.Seconds(0)
	for _, r := range a.Rests {
		if from <= r.Number && r.Number < to {
			sum += r.To - r.From
		}
	}
	return float64(sum) / 3600
}

// Attendance returns the shifts of the plan that begin before a time, each to its end, in order, with who is there in
// each. Shifts in which nobody works are left out, as in [Plan.Horizon], and what is over when the plan begins.
func (p *Plan) Attendance(until sim.Seconds) (all []Attendance) {
	p.Calendar.eachShift(MostWeeks, func(of shiftOf, windows []Window) {
		if windows = after(windows, p.From); len(windows) == 0 || windows[0].From >= until {
			return
		}
		a, rests := p.attendance(of), p.Calendar.rests(&p.Crew, of)
		if a.Windows = attended(a.presence().parts(windows, rests)); len(a.Windows) == 0 {
			return
		}
		a.Shift = of.Shift
		a.Rests = clipped(slices.DeleteFunc(rests, func(r Rest) bool { return !a.Has(r.Number) }), a.Windows)
		all = append(all, a)
	})
	return all
}

// presence returns the same by numbers alone.
func (a *Attendance) presence() presence {
	x := presence{operators: a.There}
	for _, away := range a.Absent {
		x.absent = append(x.absent, away.Number)
	}
	slices.Sort(x.absent)
	return x
}

// after returns what is left of some stretches from a time on.
func after(windows []Window, from sim.Seconds) (left []Window) {
	for _, w := range windows {
		if w.From = max(w.From, from); w.From < w.To {
			left = append(left, w)
		}
	}
	return left
}

// attendance returns who is there in a shift: see present.
func (p *Plan) attendance(of shiftOf) Attendance {
	a := Attendance{Crew: p.Crew.Operators, Planned: p.Crew.Operators, There: p.Crew.Operators}
	for i := range p.Staffed {
		s := &p.Staffed[i]
		if s.Optional || !s.covers(of.Week, of.Day, of.Shift) {
			continue
		}
		if s.Operators != AsElse {
			if a.There, a.By = s.Operators, s.Name; !s.Chosen {
				a.Planned, a.PlannedBy = s.Operators, s.Name
			}
		}
		for _, name := range s.Absent {
			for _, n := range numbers(&p.Crew, name) {
				if a.Away(n) == nil {
					a.Absent = append(a.Absent, Absence{n, s.Name})
				}
			}
		}
	}
	a.Absent = slices.DeleteFunc(a.Absent, func(x Absence) bool { return x.Number >= a.There })
	return a
}

// Paid is for how many hours operators are there.
type Paid struct {
	Usual float64
	Extra float64 // in shifts in which nobody would be there but for a choice, such as a Saturday or overtime
}

// PaidHours returns for how many hours operators are paid by the hour in the shifts that begin before a time, each to its
// end: those who would be there without any choice, and those whom some items of staff bring which are chosen. What is
// chosen at a cost of its own is in neither, and nor is what was chosen before: it is no item of these.
func (p *Plan) PaidHours(until sim.Seconds, items []string) (crew float64, chosen Paid) {
	for _, a := range p.Attendance(until) {
		hours, more := a.Hours(), 0 // of those who are there by choice
		for n := a.Planned; n < a.There; n++ {
			if a.Has(n) {
				more++
			}
		}
		first := a.There // of those who are there by choice, if there are any
		if more > 0 {
			first = a.Planned
		}
		crew += float64(float64(a.Present()-more)*hours) - a.Rested(0, first)
		if more == 0 || p.hasCost(a.By) || !slices.Contains(items, a.By) {
			continue
		}
		own := float64(float64(more)*hours) - a.Rested(a.Planned, a.There)
		if a.Planned == 0 {
			chosen.Extra += own
		} else {
			chosen.Usual += own
		}
	}
	return crew, chosen
}

// hasCost reports whether an item of staff has a cost of its own.
func (p *Plan) hasCost(name string) bool {
	return slices.ContainsFunc(p.Staffed, func(s Staffed) bool { return s.Name == name && s.Cost > 0 })
}

// LastDate returns until when people are there in any case: the end of the weeks of a season, the last date of a
// plan; 0 if it has none.
func (p *Plan) LastDate() (last sim.Seconds) {
	if p.Weeks != nil {
		return sim.Seconds(len(p.Weeks)) * week
	}
	for i := range p.Jobs {
		if due := p.Jobs[i].Due; !math.IsInf(float64(due), 1) {
			last = max(last, due)
		}
	}
	return last
}
