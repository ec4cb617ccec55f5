package model

import (
	"slices"

	"netrate/sim"
)

// maxLanes is how many stations may carry a stream: the engine keeps a number for each of
// them with every odd set.
const maxLanes = 8

// Stream is what a station carries whose pieces are personalised. The zero Stream is that
// of a station whose pieces are all alike.
type Stream struct {
	Name    string       // "" for pieces that are all alike
	Half    bool         // one of the two halves of the stream; another station carries the other
	Tries   int          // noticed misfeeds of catch-up sets in one recovery that stop the line; at least 1
	Realign sim.Duration // an operator's work at a stop for a misfeed or double here, or to put the stream in step; nil for the usual time to clear a fault
}

// carrier is a station that can carry a stream: what its lane asks besides.
type carrier interface {
	Station
	// realigning returns the operator's work to put the stream in step.
	realigning() sim.Duration
	// notices returns the probabilities at each set that the station notices a misfeed, notices a
	// double, or takes a good feed for one.
	notices(l *Line) (misfeed, double, falseCall float64)
	// leaks returns its leaks, but for those of lanes that are realigned wrongly.
	leaks(l *Line) []Leak
	// calm has nothing go wrong at the station by itself; if it is the one that is looked at, it
	// notices so large a share of its own faults, 0 or 1.
	calm(l *Line, looked bool, notice float64)
}

// carrying returns station i, which carries a stream.
func (l *Line) carrying(i int) carrier { return l.Stations[i].(carrier) }

// StreamOf returns the stream that a station carries.
func StreamOf(s Station) Stream {
	if own := s.Carries(); own != nil {
		return *own
	}
	return Stream{}
}

// Lanes returns the stations that carry a stream, in order.
func (l *Line) Lanes() []int {
	var lanes []int
	for i, s := range l.Stations {
		if StreamOf(s).Name != "" {
			lanes = append(lanes, i)
		}
	}
	return lanes
}

// LanesOf returns the stations that carry the stream of the given name: one or, of halves,
// two.
func (l *Line) LanesOf(stream string) []int {
	return slices.DeleteFunc(l.Lanes(), func(i int) bool { return StreamOf(l.Stations[i]).Name != stream })
}

// Personalised reports whether the line carries a stream, so that sets which are not
// delivered good must be made again.
func (l *Line) Personalised() bool { return len(l.Lanes()) > 0 }

// Streams returns the names of the streams, in order along the track.
func (l *Line) Streams() []string {
	var names []string
	for _, i := range l.Lanes() {
		if name := StreamOf(l.Stations[i]).Name; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// Matched reports whether a lane can come out of step: only what is matched to something
// can. The sheets of a document are matched to each other.
func (l *Line) Matched(i int) bool {
	return StreamOf(l.Stations[i]).Name != "" && (l.is(i, Gathers) || len(l.Lanes()) > 1)
}

// envelopeFeeder returns the station that feeds personalised envelopes, or -1.
func (l *Line) envelopeFeeder() int { return l.First(Envelopes) }

// checkStream notes what is wrong with the stream of the station being looked at.
func (l *Line) checkStream(c *Checks, s Stream) {
	if s.Name == "" {
		c.Require(!s.Half, "stream.half", "a half of a stream needs the stream's name")
		return
	}
	c.Require(s.Tries >= 1, "stream.tries", "tries is %d, want at least 1", s.Tries)
	lanes := l.LanesOf(s.Name)
	halves := 0
	for _, i := range lanes {
		if StreamOf(l.Stations[i]).Half {
			halves++
		}
	}
	switch {
	case s.Half && len(lanes) != 2:
		c.Require(false, "stream.half", "this is a half of the stream %s: want two stations to carry it, found %d", s.Name, len(lanes))
	case s.Half && l.onlyFor(l.Stations[lanes[0]]) != l.onlyFor(l.Stations[lanes[1]]):
		c.Require(false, "only", "%s and %s carry the halves of the stream %s: want both to be for the same sets", l.Stations[lanes[0]].Where().Name, l.Stations[lanes[1]].Where().Name, s.Name)
	case len(lanes) > 1 && halves < len(lanes):
		c.Require(false, "stream", "%d stations carry the stream %s: where two carry its halves both must say so", len(lanes), s.Name)
	}
}

// checkLanes notes what is wrong with the lanes as a whole.
func (l *Line) checkLanes(c *Checks) {
	lanes := l.Lanes()
	c.Require(len(lanes) <= maxLanes, "line.stations", "%d stations carry streams, want at most %d", len(lanes), maxLanes)
	gate := l.First(Diverts)
	forAll := slices.ContainsFunc(lanes, func(i int) bool { return l.onlyFor(l.Stations[i]) == "" })
	envelopes := 0
	for _, i := range lanes {
		c.station = i
		name := l.Stations[i].Where().Name
		c.Require(forAll || i != lanes[0], "only", "%s carries a stream that only some sets have: want one besides that all sets have, for the addresses", name)
		switch _, can := l.Stations[i].(carrier); {
		case !can:
			c.Require(false, "stream", "%s is a %s, which is not built to carry a stream", name, l.Stations[i].Kind().Name)
		case l.is(i, Envelopes):
			envelopes++
			c.Require(envelopes == 1, "kind", "%s is a second station that feeds personalised envelopes: a line has one", name)
		case !l.is(i, Gathers):
			c.Require(gate < 0 || i < gate, "at", "%s stands after a track gate and carries a stream: sets that left there would leave their pieces behind", name)
		}
	}
	c.station = -1
}
