package trace

import (
	"netrate/model"
	"netrate/sim"
)

// Set is a set with which something happened.
type Set struct {
	Number   sim.Cycles
	Good     bool        // it was put right, or nothing was wrong with it
	Fate     model.Fate  // if it is not good
	Station  int         // where it left, or was last
	Cycle    sim.Cycles  // in which it left; the last one of a set on the line
	Blamed   int         // the station it was lost to; -1 for none
	Fault    model.Fault // there
	Remakes  int64
	Happened []Happening // in order
	Pieces   []Piece     // what it held when it left, in order of the stations; nil of good sets
}

// Happening is one thing that happened with a set.
type Happening struct {
	What    What
	Station int
	Cycle   sim.Cycles
	Fault   model.Fault // of Faulty and CalledFalsely; of Condemned, what it is lost to
	Seen    bool        // of Faulty: by the station
	Gate    int         // of Condemned: where it is to leave
}

// What can happen with a set.
type What int

// The things that can happen.
const (
	Faulty        What = iota // the station failed
	CalledFalsely             // the station took a good feed for a double
	Condemned                 // for what was found at the station
	TakenOut                  // the station took out its piece for the set, which had left
)

func (w What) String() string { return [...]string{"fault", "false call", "condemned", "taken out"}[w] }

// Piece is what a set holds of a station.
type Piece struct {
	Station int
	N       int64 // pieces
	First   int64 // of a stream: the number of the first of them, those of the sets being their own; 0 where pieces are all alike
	Mixed   bool  // a document with sheets of another; nothing more is known of it

	documents bool
}

// set returns the record of a set.
func (h *hearing) set(number sim.Cycles) *Set {
	x := h.sets[number]
	if x == nil {
		x = &Set{Number: number, Good: true, Blamed: -1}
		h.sets[number] = x
	}
	return x
}

func (x *Set) happens(what Happening) { x.Happened = append(x.Happened, what) }

// leaves says how a set ended.
func (h *hearing) leaves(e model.Event) {
	x := h.set(e.Set)
	h.left = x
	x.Good, x.Fate, x.Station, x.Cycle = false, e.Fate, e.Station, e.Cycle
	x.Blamed, x.Fault, x.Remakes = e.Blamed, e.Fault, x.Remakes+e.N
	for i, station := range h.shift.Line.Stations {
		if e.Holds>>i&1 == 0 {
			continue
		}
		p := Piece{Station: i, N: 1, documents: station.Kind().Role == model.Gathers}
		if model.StreamOf(station).Name != "" {
			p.First = int64(e.Set)
		}
		x.Pieces = append(x.Pieces, p)
	}
}

// holds says what is unusual in a piece.
func (x *Set) holds(e model.Event) {
	for i := range x.Pieces {
		p := &x.Pieces[i]
		if p.Station != e.Station {
			continue
		}
		switch p.N = e.N; {
		case p.documents:
			p.Mixed = true
		case p.First > 0:
			p.First += e.Ahead
		}
	}
}

// FoundBy returns the station at which it was found that the set is not as it should be, or -1:
// where it was condemned or, if it never was, where a fault was seen.
func (x *Set) FoundBy() int {
	seen := -1
	for _, w := range x.Happened {
		switch {
		case w.What == Condemned:
			return w.Station
		case seen < 0 && (w.What == CalledFalsely || w.What == Faulty && w.Seen):
			seen = w.Station
		}
	}
	return seen
}

// Flawed returns the cycle from which a set that is not good is not as it should be: that of the
// first fault that happened with it or, where none did, of what it is lost to.
func (s *Shift) Flawed(x *Set) sim.Cycles {
	for _, w := range x.Happened {
		if w.What == Faulty || w.What == Condemned {
			return w.Cycle
		}
	}
	if x.Blamed < 0 {
		return x.Cycle
	}
	return min(x.Cycle, x.Number+s.pitch(x.Blamed))
}
