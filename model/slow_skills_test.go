package model

import (
	"slices"

	"netrate/sim"
)

// firstOnes has the first so many of the operators that are stated be there, less those who are absent, and
// the others go if they are free.
func (m *slowModel) firstOnes(want int) {
	absent := func(number int) bool { return slices.Contains(m.people.absent, number) }
	for number := range want {
		if !absent(number) && !slices.ContainsFunc(m.crew.operators, func(o slowOperator) bool { return o.number == number }) {
			m.crew.operators = append(m.crew.operators, slowOperator{number: number})
		}
	}
	m.crew.operators = slices.DeleteFunc(m.crew.operators, func(o slowOperator) bool { return (o.number >= want || absent(o.number)) && o.task == nil })
}

// person returns who an operator is.
func (m *slowModel) person(o *slowOperator) *Person {
	number := o.number
	for i := range m.line.Crew.People {
		p := &m.line.Crew.People[i]
		if number < p.Operators {
			return p
		}
		number -= p.Operators
	}
	panic("slow model: an operator who is not stated")
}

// place returns at which line a task is, by the name that people know it by, and at which station; "" for one
// that is of the line as a whole.
func (t *slowTask) place() (line, station string) {
	switch {
	case t.changed != nil:
		return t.known, t.piece
	case t.of.known != "":
		line = t.of.known
	default:
		line = t.of.line.Name
	}
	return line, t.of.line.Stations[t.station].Where().Name
}

// sort returns of which sort the work of a task is.
func (t *slowTask) sort() Doing {
	switch {
	case t.changed != nil:
		return Changing
	case t.fills:
		return Filling
	}
	return Clearing
}

// may reports whether an operator may do a task.
func (m *slowModel) may(o *slowOperator, t *slowTask) bool {
	p := m.person(o)
	line, station := t.place()
	switch {
	case p.Only != Anything && p.Only&t.sort() == 0:
		return false
	case len(p.Stations) > 0 && !slices.Contains(p.Stations, station):
		return false
	case p.Lines != nil && !slices.Contains(p.Lines, line):
		return false
	}
	return p.Stays == "" || p.slowHome(t) || p.Elsewhere
}

// slowHome reports whether a task is at the station at which they stay.
func (p *Person) slowHome(t *slowTask) bool {
	line, station := t.place()
	return station != "" && p.Stays == station && (p.Lines == nil || p.Lines[0] == line)
}

// chosen returns who of the free operators takes a task; nil for nobody.
func (m *slowModel) chosen(t *slowTask) *slowOperator {
	var best *slowOperator
	order := func(o *slowOperator) int {
		switch p := m.person(o); {
		case p.slowHome(t):
			return o.number
		case p.Stays == "":
			return maxServers + o.number
		}
		return 2*maxServers + o.number
	}
	for i := range m.crew.operators {
		o := &m.crew.operators[i]
		if o.task == nil && m.may(o, t) && (best == nil || order(o) < order(best)) {
			best = o
		}
	}
	return best
}

// theyChoose sends operators who are stated one by one to tasks that they may do.
func (m *slowModel) theyChoose() {
	for {
		best := -1
		for i, t := range m.crew.waiting {
			if m.chosen(t) != nil && (best < 0 || t.before(m.crew.waiting[best])) {
				best = i
			}
		}
		if best < 0 {
			return
		}
		t := m.crew.waiting[best]
		o := m.chosen(t)
		m.crew.waiting = slices.Delete(m.crew.waiting, best, best+1)
		o.task, t.state = t, slowWalking
		o.arrives = t.of.arrives(t, m.walk(o, t))
		o.free = o.arrives + t.work.Draw(m.times)
	}
}

// walk returns how long an operator walks to a task.
func (m *slowModel) walk(o *slowOperator, t *slowTask) sim.Seconds {
	if m.line.Crew.People == nil {
		return m.line.Crew.Walk.Draw(m.times)
	}
	home := m.person(o).slowHome(t)
	there := home && !o.away
	o.away = !home
	if there || t.changed != nil { // nobody walks for a changeover
		return 0
	}
	return m.line.Crew.Walk.Draw(m.times)
}

// helpersChoose sends those who are still free to help at faults.
func (m *slowModel) helpersChoose() {
	for m.line.Crew.Help > 0 {
		var at *slowTask
		var who *slowOperator
		for i := range m.crew.operators {
			t := m.crew.operators[i].task
			if t == nil || t.fills || t.changed != nil || m.crew.operators[i].helps || m.helped(t) || at != nil && at.stop.order < t.stop.order {
				continue
			}
			if o := m.helper(t); o != nil {
				at, who = t, o
			}
		}
		if at == nil {
			return
		}
		who.task, who.helps, who.joined = at, true, false
		who.arrives = m.now + m.walk(who, at)
	}
}

// helped reports whether somebody has set off to help with a task.
func (m *slowModel) helped(t *slowTask) bool {
	return slices.ContainsFunc(m.crew.operators, func(o slowOperator) bool { return o.task == t && o.helps })
}

// helper returns a free operator who may help with a task.
func (m *slowModel) helper(t *slowTask) *slowOperator {
	if m.line.Crew.People != nil {
		return m.chosen(t)
	}
	for i := range m.crew.operators {
		if o := &m.crew.operators[i]; o.task == nil {
			return o
		}
	}
	return nil
}

// joins lets one who helps and whose time has come arrive: what is left takes less from when both
// are there.
func (m *slowModel) joins(o *slowOperator) {
	if o.joined || m.now < o.arrives {
		return
	}
	o.joined = true
	for i := range m.crew.operators {
		if p := &m.crew.operators[i]; p.task == o.task && !p.helps {
			both := max(m.now, p.arrives)
			p.free = both + (p.free-both)/sim.Seconds(m.line.Crew.Help)
		}
	}
}

// helpEnds frees who helps with a task that is done.
func (m *slowModel) helpEnds(t *slowTask) {
	for i := range m.crew.operators {
		if o := &m.crew.operators[i]; o.task == t && o.helps {
			o.task, o.helps = nil, false
		}
	}
}
