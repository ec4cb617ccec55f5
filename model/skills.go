package model

import (
	"cmp"
	"slices"
	"strings"

	"netrate/sim"
)

// Person is an operator, or some who may do the same.
type Person struct {
	Name      string
	Operators int      // how many such
	Only      Doing    // the work they may do
	Lines     []string // of those that share the crew, on which they may; nil for all
	Stations  []string // at which they may; nil for all
	Stays     string   // the station at which they stay, on the first of their lines; "" for none
	Elsewhere bool     // those who stay also go to tasks elsewhere

	nowhere bool // they have nothing to do here: they stay at another line
}

// Doing is a sort of work, or several of them.
type Doing int

// The sorts.
const (
	Anything Doing = 0
	Clearing Doing = 1 << (iota - 1) // faults
	Filling                          // hoppers, and emptying bins and belts
	Changing                         // lines over, for their jobs
)

var doings = []struct {
	Doing
	name string
}{{Anything, "anything"}, {Clearing, "clearing"}, {Filling, "filling"}, {Changing, "changing over"}}

// DoingNames returns the names of the sorts of work, first that of all of them.
func DoingNames() (names []string) {
	for _, d := range doings {
		names = append(names, d.name)
	}
	return names
}

// DoingOf returns the sort with a name.
func DoingOf(name string) (d Doing, found bool) {
	for _, d := range doings {
		if d.name == name {
			return d.Doing, true
		}
	}
	return 0, false
}

func (d Doing) String() string {
	var names []string
	for _, one := range doings {
		if d == one.Doing || d&one.Doing != 0 {
			names = append(names, one.name)
		}
	}
	return strings.Join(names, " and ")
}

// has reports whether a sort is among them.
func (d Doing) has(one Doing) bool { return d == Anything || d&one != 0 }

// doing returns the sort of a work.
func (w Work) doing() Doing {
	if w == FillStock {
		return Filling
	}
	return Clearing
}

// may reports whether they may do a work at a station of a line; at "" for one that is of the line as a whole.
func (p *Person) may(line, station string, d Doing) bool {
	return !p.nowhere && p.Only.has(d) && p.attends(line) && (p.Stations == nil || slices.Contains(p.Stations, station)) &&
		(p.Stays == "" || p.staysAt(line, station) || p.Elsewhere)
}

// attends reports whether they may do anything on a line.
func (p *Person) attends(line string) bool { return p.Lines == nil || slices.Contains(p.Lines, line) }

// staysAt reports whether a station of a line that they attend to is the one at which they stay.
func (p *Person) staysAt(line, station string) bool {
	return p.Stays != "" && p.Stays == station && (p.Lines == nil || p.Lines[0] == line)
}

// able returns the operators who may do a work at a station of a line, by their numbers in the order in
// which they are preferred, and how many of these, the first, stay there.
func (c *Crew) able(line, station string, d Doing) (numbers []int, home int) {
	var free, elsewhere []int
	n := 0
	for i := range c.People {
		p := &c.People[i]
		for range p.Operators {
			switch {
			case !p.may(line, station, d):
			case p.staysAt(line, station):
				numbers = append(numbers, n)
			case p.Stays == "":
				free = append(free, n)
			default:
				elsewhere = append(elsewhere, n)
			}
			n++
		}
	}
	return slices.Concat(numbers, free, elsewhere), len(numbers)
}

// stated returns how many operators are stated one by one or in groups.
func (c *Crew) stated() (n int) {
	for i := range c.People {
		n += c.People[i].Operators
	}
	return n
}

// Named returns the name of an operator by his number; "" where they have none.
func (c *Crew) Named(number int) string {
	for i := range c.People {
		if number < c.People[i].Operators {
			return c.People[i].Name
		}
		number -= c.People[i].Operators
	}
	return ""
}

// At returns those who may do something on one of several lines as they are there by themselves, so that
// the others are nobody there. The line may be set up for a job: who is to be at stations that this does not
// use is nobody there too.
func (c Crew) At(l *Line) Crew { return c.at(l.Name, l) }

// at is At of a line that people know by another name.
func (c Crew) at(name string, l *Line) Crew {
	people := slices.Clone(c.People)
	for i := range people {
		p := &people[i]
		home := p.staysAt(name, p.Stays) && l.named(p.Stays) >= 0
		if !p.attends(name) || p.Stays != "" && !home && !p.Elsewhere {
			*p = Person{Name: p.Name, Operators: p.Operators, nowhere: true}
			continue
		}
		if p.Lines = nil; !home {
			p.Stays, p.Elsewhere = "", false
		}
		if p.Stations != nil {
			p.Stations = slices.DeleteFunc(slices.Clone(p.Stations), func(name string) bool { return l.named(name) < 0 })
			if len(p.Stations) == 0 {
				*p = Person{Name: p.Name, Operators: p.Operators, nowhere: true}
			}
		}
	}
	c.People = people
	return c
}

// checkPeople notes what is wrong with who may do what, on a line that may share them with others.
func (l *Line) checkPeople(c *Checks, all []*Line) {
	x := &l.Crew
	c.Require(x.Help == 0 || x.Help >= 1 && x.Help <= mostHelp, "crew.help", "two at one fault are %v times as fast as one, want from 1 to %d", x.Help, mostHelp)
	if x.People == nil {
		return
	}
	stated := x.stated()
	for i := range x.People {
		p := &x.People[i]
		c.Require(p.Operators >= 1 && p.Operators <= maxServers, "crew.people", "%s is %d operators, want from 1 to %d", p.Name, p.Operators, maxServers)
		c.Require(p.Only >= 0 && p.Only <= Clearing|Filling|Changing, "crew.people", "%s does a work of sort %d, which there is not", p.Name, int(p.Only))
		l.checkWhere(c, p, all)
		c.Require(p.Stays != "" || !p.Elsewhere, "crew.people", "%s goes elsewhere and stays at no station", p.Name)
	}
	most := x.Most() + x.Reserve
	c.Require(most == stated, "crew.people", "people are %d operators, and the crew has %d at the most: want as many; change operators, or who is named; of a plan or season an item of staff may have more, or fewer", stated, most)
	if most != stated || stated > maxServers {
		return
	}
	for _, n := range l.Needs() {
		able := slices.ContainsFunc(x.Able(l.Name, n), func(number int) bool { return number < x.Most() })
		c.Require(able, "crew.people", "nobody may %v", n)
	}
}

// Need is work that calls for somebody who may do it.
type Need struct {
	Does    Doing
	Station string // "" for the line as a whole
}

// String returns it as what somebody does.
func (n Need) String() string {
	switch {
	case n.Does == Clearing:
		return "clear a fault of " + n.Station
	case n.Does == Filling:
		return "fill or empty " + n.Station
	case n.Station == "":
		return "change over the line"
	}
	return "change over " + n.Station
}

// Needs returns what a line calls the crew for while it runs, along the track.
func (l *Line) Needs() (all []Need) {
	for _, s := range l.Stations {
		name, own := s.Where().Name, s.Stocked()
		if len(s.Counts()) > 0 {
			all = append(all, Need{Clearing, name})
		}
		if own.Stock != nil && own.Capacity > 0 {
			all = append(all, Need{Filling, name})
		}
	}
	return all
}

// Able returns who of the crew may do some work on a line, by their numbers.
func (c *Crew) Able(line string, n Need) []int {
	able, _ := c.able(line, n.Station, n.Does)
	return able
}

// checkWhere notes what is wrong with where a person is to be, of all lines that share the crew.
func (l *Line) checkWhere(c *Checks, p *Person, all []*Line) {
	c.Require(p.Lines == nil || len(all) > 1, "crew.people", "%s works on some lines only, and there is one", p.Name)
	c.Require(p.Lines == nil || len(p.Lines) > 0, "crew.people", "%s works on no line", p.Name)
	c.Require(p.Stations == nil || len(p.Stations) > 0, "crew.people", "%s works at no station", p.Name)
	for _, name := range p.Lines {
		c.Require(slices.ContainsFunc(all, func(l *Line) bool { return l.Name == name }), "crew.people", "%s works on a line %q, and there is none of that name", p.Name, name)
	}
	with := func(station string) (names []string) {
		for _, l := range all {
			if p.attends(l.Name) && l.named(station) >= 0 {
				names = append(names, l.Name)
			}
		}
		return names
	}
	for _, name := range append(slices.Clone(p.Stations), p.Stays) {
		c.Require(name == "" || len(with(name)) > 0, "crew.people", "%s has a station %q, and %s of that name", p.Name, name, noneOf(p, all))
	}
	switch at := with(p.Stays); {
	case p.Stays == "" || len(at) == 0: // said
	case p.Lines == nil:
		c.Require(len(at) == 1, "crew.people", "%s stays at %s, and %s have a station of that name: say at which line first", p.Name, p.Stays, strings.Join(at, " and "))
	default:
		c.Require(slices.Contains(at, p.Lines[0]), "crew.people", "%s stays at %s, and the first of their lines, %s, has no station of that name", p.Name, p.Stays, p.Lines[0])
	}
}

// noneOf returns that no line has a station: the only one, any, or one of those of a person.
func noneOf(p *Person, all []*Line) string {
	switch {
	case len(all) == 1:
		return "the line has none"
	case p.Lines == nil:
		return "no line has one"
	}
	return "none of their lines has one"
}

// The limits of people.
const (
	mostHelp   = 10
	maxServers = 1000
)

// named returns the place of a station; -1 for none of that name.
func (l *Line) named(name string) int {
	return slices.IndexFunc(l.Stations, func(s Station) bool { return s.Where().Name == name })
}

// staff makes the operators persons, if what each may do is stated.
func (s *Sim) staff() {
	if s.line.Crew.People != nil {
		s.crew.Staff(s.line.Crew.stated())
	}
}

// skilled says who may take a task of the crew, and who may help with it.
func (s *Sim) skilled(t *sim.Task, station string, w Work) {
	c := &s.line.Crew
	if c.People != nil {
		t.For(c.able(cmp.Or(s.known, s.line.Name), station, w.doing()))
	}
	if c.Help > 0 && w.doing() == Clearing {
		walks := s.stream(station, w.String()+" help")
		t.HelpedBy(func() sim.Seconds { return c.Walk.Draw(walks) }, c.Help)
	}
}
