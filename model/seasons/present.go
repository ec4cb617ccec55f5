package seasons

import (
	"slices"

	"netrate/model"
	"netrate/sim"
)

// presence is who is there in a shift.
type presence struct {
	operators int   // of those who are stated one by one, the first so many
	absent    []int // and of these those who are not there, by number, rising
}

// there returns how many that are.
func (x *presence) there() int { return x.operators - len(x.absent) }

// has reports whether an operator who is stated is there.
func (x *presence) has(number int) bool {
	return number < x.operators && !slices.Contains(x.absent, number)
}

// is reports whether the same are there.
func (x *presence) is(y *presence) bool {
	return x.operators == y.operators && slices.Equal(x.absent, y.absent)
}

// present returns who is there in a shift: as many as the last item says that says it, and of these who is not
// absent by any.
func present(crew *model.Crew, staffed []Staffed, week, day, shift int) presence {
	x := presence{operators: crew.Operators}
	out := map[int]bool{}
	for i := range staffed {
		s := &staffed[i]
		if s.Optional || !s.covers(week, day, shift) {
			continue
		}
		if s.Operators != AsElse {
			x.operators = s.Operators
		}
		for _, name := range s.Absent {
			for _, n := range numbers(crew, name) {
				out[n] = true
			}
		}
	}
	for n := range x.operators {
		if out[n] {
			x.absent = append(x.absent, n)
		}
	}
	return x
}

// numbers returns the operators of a name.
func numbers(crew *model.Crew, name string) (all []int) {
	n := 0
	for i := range crew.People {
		p := &crew.People[i]
		for range p.Operators {
			if p.Name == name {
				all = append(all, n)
			}
			n++
		}
	}
	return all
}

// stated returns how many operators are stated one by one or in groups.
func stated(crew *model.Crew) (n int) {
	for i := range crew.People {
		n += crew.People[i].Operators
	}
	return n
}

// staffing returns who is there by working time. After all of it everybody is, where it is stated who they are:
// nothing is looked at any more that is done then.
func (h *Horizon) staffing() []model.Staffing {
	var all []model.Staffing
	for i := range h.people {
		if x := &h.people[i]; i == 0 || !x.is(&h.people[i-1]) {
			all = append(all, model.Staffing{From: h.before[i], Operators: x.operators, Absent: x.absent})
		}
	}
	if h.stated > 0 {
		all = append(all, model.Staffing{From: h.Length(), Operators: h.stated})
	}
	return all
}

// shiftOf is a shift of a week, all from 1.
type shiftOf struct{ Week, Day, Shift int }

// eachShift calls for each shift of some weeks with its stretches of working time, in seconds from the start
// of the first.
func (c *Calendar) eachShift(weeks int, call func(of shiftOf, windows []Window)) {
	of := c.shiftWindows()
	for w := range weeks {
		start := sim.Seconds(sim.Seconds(w) * week)
		for i := 0; i < len(of); {
			var own []Window
			k := i
			for ; k < len(of) && of[k].day == of[i].day && of[k].shift == of[i].shift; k++ {
				own = append(own, Window{start + of[k].From, start + of[k].To})
			}
			call(shiftOf{w + 1, of[i].day + 1, of[i].shift + 1}, own)
			i = k
		}
	}
}
