package model

import (
	"fmt"
	"slices"

	"netrate/sim"
)

// Line is the specification of an inserting line, its crew and its shift. It is not
// changed by a run.
type Line struct {
	Name            string
	Speed           float64      // asked for, cycles an hour; 0 for as fast as the stations allow
	Shift           sim.Seconds  // length of one replication, if it is a shift
	Job             Job          // what one replication is instead, if it is a job
	Slow            Slow         // when it runs slower than its speed
	Begins          Begins       // what is there when a replication begins
	Restart         sim.Duration // from the end of the last open stop to the first cycle
	Stations        []Station    // in order along the track
	Attributes      []Attribute  // what some of its sets have and others do not
	Crew            Crew
	Days            Days             // good and bad ones, and drift within them
	UncertainInputs []UncertainInput // what of all this is not known for certain
	Random          string           // names its random streams, beside its stations: lines with another name draw other numbers; may be ""
}

// Job is work to completion: a number of sets, and the remakes among them.
type Job struct {
	Sets    int64        // 0 if the line works for a shift instead
	Closing Closing      // how remakes are closed
	Setup   sim.Duration // before each further pass
	PerHour float64      // remakes closed by hand, or beside the line
}

// Closing is how the remakes of a job are closed.
type Closing int

// The ways to close remakes.
const (
	Open       Closing = iota // they are not: the job ends with its last set
	SecondPass                // they are printed again and run on the line, until none is left
	ByHand                    // they are made by hand once the line is done
	Beside                    // they are made by hand while it runs, by somebody who is not of the crew
)

var closingNames = [...]string{"open", "second pass", "by hand", "beside the line"}

func (c Closing) String() string { return closingNames[c] }

// Manual reports whether remakes are made by hand, after the line is done or beside it.
func (c Closing) Manual() bool { return c == ByHand || c == Beside }

// Crew is the people who attend to the line.
type Crew struct {
	Operators int
	Walk      sim.Duration // from where an operator is to where he is called
	Order     Order        // which stock an operator sees to first
	Exhausted Exhausted    // where a stock that is used up waits for an operator

	Part         float64     // share of the time for which there is one operator more, from 0 to below 1
	Block        sim.Seconds // in blocks of this length
	Later        []Presence  // how many there are later in the shift, in order of time
	Breaks       []Break     // of the shift, without relief, in order of time
	People       []Person    // what each of them may do; nil for operators who may do all
	Reserve      int         // how many more of them are stated than there are in a shift: they come in those of a season or a plan that have more
	Help         float64     // two at one fault work so many times as fast as one; 0 where nobody helps
	Technicians  int         // who come for breakdowns; 0 for as many as are needed
	WrongRepair  float64     // probability that a set is left as it was that was to be put right
	WrongRealign float64     // probability that a lane out of step is realigned one short
}

// Order is how a crew chooses among stocks that need it. Stops always come first.
type Order int

// The orders.
const (
	MostUrgent    Order = iota // what would stop the line soonest
	AlongTheTrack              // as the stations stand
	FirstCome                  // as they called
)

var orderNames = [...]string{"most urgent", "along the track", "first come"}

// Orders returns the names of the orders, in order of their values.
func Orders() []string { return orderNames[:] }

func (o Order) String() string { return orderNames[o] }

// OrderOf returns the order with the given name.
func OrderOf(name string) (Order, error) {
	for i, n := range orderNames {
		if n == name {
			return Order(i), nil
		}
	}
	return 0, fmt.Errorf("order is %q, want most urgent, along the track or first come", name)
}

// Exhausted is where a stock that is used up stands among the tasks of a crew, while nobody
// has set off for it.
type Exhausted int

// The places.
const (
	WithTheStops Exhausted = iota // the line stands for it: it joins the stops
	InTurn                        // it keeps its place among the stocks
)

var exhaustedNames = [...]string{"with the stops", "in turn"}

// ExhaustedNames returns the names of the places, in order of their values.
func ExhaustedNames() []string { return exhaustedNames[:] }

func (e Exhausted) String() string { return exhaustedNames[e] }

// Place is what every station has: a name and a place on the track.
type Place struct {
	Name  string
	At    int     // pitch on the track
	Rated float64 // rated speed, cycles an hour; 0 for no limit of its own

	Breakdowns Breakdowns // that are for a technician
}

// Where returns the place itself: it makes every station that embeds a Place have one.
func (p *Place) Where() *Place { return p }

// Stock is what a station uses up and an operator makes good: the pieces in a hopper,
// the places in a bin, the room on a belt.
type Stock struct {
	Capacity int64        // pieces or places; 0 for a bin or belt that never fills up
	Warn     int64        // an operator is called when this much is left, or less
	Work     sim.Duration // refilling, emptying or sweeping, after the walk
}

// Clone returns a copy of the line and of its stations.
func (l *Line) Clone() *Line {
	c := *l
	c.Stations = make([]Station, len(l.Stations))
	for i, s := range l.Stations {
		c.Stations[i] = s.Clone()
	}
	c.Attributes = slices.Clone(l.Attributes)
	c.Days = l.Days.Clone()
	return &c
}

// AttendedBy returns the line with another crew; all else it shares with this one.
func (l *Line) AttendedBy(c Crew) *Line {
	own := *l
	own.Crew = c
	return &own
}

// RunSpeed returns the speed the line runs at, in cycles an hour: the lowest of the
// speed asked for and the rated speeds of its stations. It returns 0 if nothing limits
// it, which Check refuses.
func (l *Line) RunSpeed() float64 {
	speed := l.Speed
	for _, s := range l.Stations {
		if rated := s.Where().Rated; rated > 0 && (speed == 0 || rated < speed) {
			speed = rated
		}
	}
	return speed
}
