package model

import (
	"fmt"

	"netrate/sim"
)

// Incident is what one fault in a stream leads to, cycle by cycle, on a line on which
// nothing else goes wrong.
type Incident struct {
	Stations []string // in order along the track
	Rows     []IncidentRow
	Lost     int64 // sets that are not delivered good
	Bad      int64 // those of them that are delivered all the same
	Stops    int64
	Ended    bool // everything is in order again; false if no station found it
}

// IncidentRow is how the track stands when a cycle is completed.
type IncidentRow struct {
	Cycle  int64 // counted from the one with the fault, which is 0
	Cells  []IncidentCell
	Events []IncidentEvent // what happened in it
}

// IncidentCell is the pocket that a station has handled.
type IncidentCell struct {
	Set   int64 // its number, the faulty one being 1; it may be less
	State PocketState
	Holds []IncidentHolding // what is unusual in it
}

// IncidentHolding is what a set holds of a stream that is not as it should be.
type IncidentHolding struct {
	Stream string
	Sheets bool  // sheets of another set: what follows says nothing of them
	Pieces int   // how many; 0 for none
	First  int64 // the set that the first of them is for, the faulty one being 1; the others are for those after it
}

// PocketState is how the set in a pocket is.
type PocketState int

// The states.
const (
	InOrder   PocketState = iota
	Wrong                 // something is wrong with it, and nobody has acted on it
	Condemned             // it is on its way to a gate
	Empty                 // it has left, or was taken off
)

// incidentRows is how many cycles after the fault are looked at: what is not over then has
// not been found.
const incidentRows = 40

// Incident returns what a misfeed or a double of a lane leads to, seen by the station
// itself or not. The line must have passed Check, and station must carry a stream.
func (l *Line) Incident(station int, f Fault, seen bool) (*Incident, error) {
	if StreamOf(l.Stations[station]).Name == "" || f != Misfeed && f != Double {
		return nil, fmt.Errorf("%s has no stream to come out of step by a %s", l.Stations[station].Where().Name, f)
	}
	calm := l.calm(station, seen)
	s, err := New(calm)
	if err != nil {
		return nil, err
	}
	in := incident{s: s, station: station, fault: f, set: s.track.end + 2}
	return in.run()
}

// calm returns a copy of the line on which nothing goes wrong by itself, with stocks that
// do not run low, and where the given station notices every fault of its own, or none.
func (l *Line) calm(station int, seen bool) *Line {
	calm := l.Clone()
	calm.Shift, calm.Job = 24*3600, Job{}
	calm.UncertainInputs = nil // the stocks they may be about are none
	for i := range calm.Attributes {
		calm.Attributes[i].Share = 1 // the sets looked at all have what some have
	}
	for _, v := range calm.Parameters() {
		if v.rate != nil {
			*v.rate = 0
		}
	}
	notice := 0.0
	if seen {
		notice = 1
	}
	for i, s := range calm.Stations {
		switch own := s.Stocked(); {
		case own.Stock == nil:
		case own.Pieces && own.Capacity > 0:
			own.Capacity, own.Warn = 1e9, 0
		default:
			*own.Stock = Stock{}
		}
		if lane, ok := s.(carrier); ok {
			lane.calm(l, i == station, notice)
		}
	}
	return calm
}

// incident is an incident under way.
type incident struct {
	s       *Sim
	station int
	fault   Fault
	set     sim.Cycles // the one with the fault
	out     Outcome
	in      Incident
	gone    map[sim.Cycles]bool // sets that it has been said of that they have left
	stopped [][Causes]int64     // stops that have been told of
	alarms  []int64             // alarms of the readers that have been told of
}

func (n *incident) run() (*Incident, error) {
	s := n.s
	s.begin(1, 0, &n.out)
	for _, st := range s.line.Stations {
		n.in.Stations = append(n.in.Stations, st.Where().Name)
	}
	n.gone = map[sim.Cycles]bool{}
	n.stopped, n.alarms = make([][Causes]int64, len(s.units)), make([]int64, len(s.readers))
	s.start()
	first := n.set + s.track.at[n.station]
	n.prepare(first)
	for cycle := first - 1; cycle < first+incidentRows && !n.in.Ended; cycle++ {
		n.advance(cycle)
		if cycle == first {
			n.calmAgain()
		}
		n.row(cycle, first)
		n.in.Ended = cycle > first && n.quiet(cycle)
	}
	s.end()
	n.in.Lost = n.out.Sets.Defective + n.out.Sets.Diverted + n.out.Sets.Outsorted + n.out.Sets.Spoiled
	n.in.Bad = n.out.Sets.Defective
	n.in.Stops = n.out.Stopped().Count
	return &n.in, n.out.Balance()
}

// prepare has the station fail in the given cycle.
func (n *incident) prepare(first sim.Cycles) {
	kind := fedNothing
	if n.fault == Double {
		kind = fedTwo
	}
	n.lane().fail(kind, n.set, first)
}

// calmAgain lets nothing go wrong after that.
func (n *incident) calmAgain() { n.lane().calmAgain() }

// failer is a unit that carries a stream and can be made to fail once.
type failer interface {
	// fail has it fail with a set, which it handles in the given cycle.
	fail(kind feeding, set, cycle sim.Cycles)
	// calmAgain lets nothing go wrong after that.
	calmAgain()
}

func (n *incident) lane() failer { return n.s.units[n.station].(failer) }

func (f *feeder) fail(kind feeding, _, cycle sim.Cycles) {
	for k := kind; k <= calledFalsely; k++ {
		f.odds[0][k] = 1
	}
	f.next.Set(cycle)
}

func (f *feeder) calmAgain() {
	f.odds[0] = feedingOdds{}
	f.await(f.s.clocks.Track.Now())
}

func (h *channel) fail(kind feeding, set, _ sim.Cycles) {
	h.faulty = append(h.faulty, document{number: set, sheet: kind, known: h.Noticed == 1})
	h.await()
}

func (h *channel) calmAgain() {}

// advance runs the line to the end of a cycle, over whatever stops it meanwhile.
func (n *incident) advance(cycle sim.Cycles) {
	c := &n.s.clocks
	for c.Cycle() < cycle {
		to := c.Ends(c.Cycle() + 1)
		if at, ok := c.Shop.Next(); !c.Running() && ok {
			to = at
		}
		c.Run(max(to, c.Shop.Now()))
	}
}

// quiet reports whether all sets from the faulty one on are in order, or gone.
func (n *incident) quiet(cycle sim.Cycles) bool {
	for _, l := range n.s.lanes {
		if l.d != 0 {
			return false
		}
	}
	t := &n.s.track
	for k := range t.odds {
		if o := &t.odds[k]; !t.left(o, cycle) {
			return false
		}
	}
	return true
}
