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
	Realign sim.Duration // an operator's work at a stop for a misfeed or double here, or to put the stream in step; nil for the time to clear a fault
}

// streamOf returns the stream that a station carries.
func streamOf(s Station) Stream {
	switch s := s.(type) {
	case *Feeder:
		return s.Stream
	case *Channel:
		return s.Stream
	}
	return Stream{}
}

// lanes returns the stations that carry a stream, in order.
func (l *Line) lanes() []int {
	var lanes []int
	for i, s := range l.Stations {
		if streamOf(s).Name != "" {
			lanes = append(lanes, i)
		}
	}
	return lanes
}

// lanesOf returns the stations that carry the stream of the given name: one or, of halves,
// two.
func (l *Line) lanesOf(stream string) []int {
	return slices.DeleteFunc(l.lanes(), func(i int) bool { return streamOf(l.Stations[i]).Name != stream })
}

// Personalised reports whether the line carries a stream, so that sets which are not
// delivered good must be made again.
func (l *Line) Personalised() bool { return len(l.lanes()) > 0 }

// Streams returns the names of the streams, in order along the track.
func (l *Line) Streams() []string {
	var names []string
	for _, i := range l.lanes() {
		if name := streamOf(l.Stations[i]).Name; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// matched reports whether a lane can come out of step: only what is matched to something
// can. The sheets of a document are matched to each other.
func (l *Line) matched(i int) bool {
	_, channel := l.Stations[i].(*Channel)
	return streamOf(l.Stations[i]).Name != "" && (channel || len(l.lanes()) > 1)
}

// envelopeFeeder returns the station that feeds personalised envelopes, or -1.
func (l *Line) envelopeFeeder() int {
	return slices.IndexFunc(l.Stations, func(s Station) bool {
		f, ok := s.(*Feeder)
		return ok && f.Envelopes
	})
}

// checkStream notes what is wrong with the stream of the station being looked at.
func (l *Line) checkStream(c *checks, s Stream) {
	if s.Name == "" {
		c.require(!s.Half, "stream.half", "a half of a stream needs the stream's name")
		return
	}
	c.require(s.Tries >= 1, "stream.tries", "tries is %d, want at least 1", s.Tries)
	lanes := l.lanesOf(s.Name)
	halves := 0
	for _, i := range lanes {
		if streamOf(l.Stations[i]).Half {
			halves++
		}
	}
	switch {
	case s.Half && len(lanes) != 2:
		c.require(false, "stream.half", "this is a half of the stream %s: want two stations to carry it, found %d", s.Name, len(lanes))
	case len(lanes) > 1 && halves < len(lanes):
		c.require(false, "stream", "%d stations carry the stream %s: where two carry its halves both must say so", len(lanes), s.Name)
	}
}

// checkLanes notes what is wrong with the lanes as a whole.
func (l *Line) checkLanes(c *checks) {
	lanes := l.lanes()
	c.require(len(lanes) <= maxLanes, "line.stations", "%d stations carry streams, want at most %d", len(lanes), maxLanes)
	gate := slices.IndexFunc(l.Stations, isTrackGate)
	envelopes := 0
	for _, i := range lanes {
		f, ok := l.Stations[i].(*Feeder)
		if ok && f.Envelopes {
			envelopes++
			c.station = i
			c.require(envelopes == 1, "kind", "%s is a second station that feeds personalised envelopes: a line has one", f.Name)
			c.station = -1
		} else if ok && gate >= 0 && i > gate {
			c.station = i
			c.require(false, "at", "%s stands after a track gate and carries a stream: sets that left there would leave their pieces behind", l.Stations[i].Where().Name)
			c.station = -1
		}
	}
}
