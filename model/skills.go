package model

import (
	"slices"

	"netrate/sim"
)

// Person is an operator, or some who may do the same.
type Person struct {
	Name      string
	Operators int      // how many such
	Only      Doing    // the work they may do
	Stations  []string // at which they may; nil for all
	Stays     string   // the station at which they stay; "" for none
	Elsewhere bool     // those who stay also go to tasks elsewhere
}

// Doing is a sort of work.
type Doing int

// The sorts.
const (
	Anything Doing = iota
	Clearing       // faults
	Filling        // hoppers, and emptying bins and belts
)

var doingNames = [...]string{"anything", "clearing", "filling"}

// DoingNames returns the names of the sorts of work, in order of their values.
func DoingNames() []string { return doingNames[:] }

func (d Doing) String() string { return doingNames[d] }

// doing returns the sort of a work.
func (w Work) doing() Doing {
	if w == FillStock {
		return Filling
	}
	return Clearing
}

// may reports whether they may do a work at a station.
func (p *Person) may(station string, d Doing) bool {
	return (p.Only == Anything || p.Only == d) && (p.Stations == nil || slices.Contains(p.Stations, station)) &&
		(p.Stays == "" || p.Stays == station || p.Elsewhere)
}

// able returns the operators who may do a work at a station, by their numbers in the order in which
// they are preferred, and how many of these, the first, stay there.
func (c *Crew) able(station string, d Doing) (numbers []int, home int) {
	var free, elsewhere []int
	n := 0
	for i := range c.People {
		p := &c.People[i]
		for range p.Operators {
			switch {
			case !p.may(station, d):
			case p.Stays == station:
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

// checkPeople notes what is wrong with who may do what.
func (l *Line) checkPeople(c *Checks) {
	x := &l.Crew
	c.Require(x.Help == 0 || x.Help >= 1 && x.Help <= mostHelp, "crew.help", "two at one fault are %v times as fast as one, want from 1 to %d", x.Help, mostHelp)
	if x.People == nil {
		return
	}
	stated := 0
	for i := range x.People {
		p := &x.People[i]
		stated += p.Operators
		c.Require(p.Operators >= 1 && p.Operators <= maxServers, "crew.people", "%s is %d operators, want from 1 to %d", p.Name, p.Operators, maxServers)
		c.Require(known(p.Only, doingNames[:]), "crew.people", "%s does a work of sort %d, which there is not", p.Name, int(p.Only))
		for _, name := range append(slices.Clone(p.Stations), p.Stays) {
			c.Require(name == "" || l.named(name) >= 0, "crew.people", "%s has a station %q, and the line has none of that name", p.Name, name)
		}
		c.Require(p.Stays != "" || !p.Elsewhere, "crew.people", "%s goes elsewhere and stays at no station", p.Name)
	}
	c.Require(x.Most() == stated, "crew.people", "people are %d operators, and the crew has %d at the most: want as many", stated, x.Most())
	if x.Most() != stated || stated > maxServers {
		return
	}
	for _, s := range l.Stations {
		name, own := s.Where().Name, s.Stocked()
		clears, _ := x.able(name, Clearing)
		fills, _ := x.able(name, Filling)
		c.Require(len(clears) > 0 || len(s.Counts()) == 0, "crew.people", "nobody may clear a fault of %s", name)
		c.Require(len(fills) > 0 || own.Stock == nil || own.Capacity == 0, "crew.people", "nobody may fill or empty %s", name)
	}
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
		s.crew.Staff(s.line.Crew.Most())
	}
}

// skilled says who may take a task of the crew, and who may help with it.
func (s *Sim) skilled(t *sim.Task, station string, w Work) {
	c := &s.line.Crew
	if c.People != nil {
		t.For(c.able(station, w.doing()))
	}
	if c.Help > 0 && w.doing() == Clearing {
		walks := s.stream(station, w.String()+" help")
		t.HelpedBy(func() sim.Seconds { return c.Walk.Draw(walks) }, c.Help)
	}
}
