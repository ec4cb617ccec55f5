package model

import (
	"errors"

	"netrate/sim"
)

// Span is a stretch of a shift in which the line stood, all of it for one stop and in one
// phase of it.
type Span struct {
	From, To sim.Seconds
	Station  string
	Cause    string
	Phase    Phase
}

// Phase is what is waited for while the line stands.
type Phase int

// The phases of a stop.
const (
	Waiting    Phase = iota // for an operator to arrive
	Working                 // he is at work
	Restarting              // the line's own delay
	Starving                // a document, of a channel too slow
)

var phaseNames = [...]string{"waiting", "working", "restarting", "channel too slow"}

func (p Phase) String() string { return phaseNames[p] }

// Record runs one replication as Run does and returns what it did: the stretches in which
// the line stood, in order, and how many good sets had been delivered by each of the given
// times, which must rise from 0 or more to the length of the shift or less. A job is not
// recorded: that is an error.
func (s *Sim) Record(seed uint64, replication int, times []sim.Seconds, out *Outcome) (stood []Span, good []int64, err error) {
	before := s.observer
	defer s.Observe(before)
	s.Observe(func(e Event) {
		if e.Kind == Stood {
			stood = append(stood, s.span(e))
		}
		if before != nil {
			before(e)
		}
	})
	good = make([]int64, len(times))
	err = s.Course(seed, replication, times, good, out)
	return stood, good, err
}

// span returns what an event says of a stretch for which the line stood.
func (s *Sim) span(e Event) Span {
	station := s.line.Stations[e.Station]
	return Span{e.At, e.Until, station.Where().Name, e.Cause.Name(station), e.Phase}
}

// Course runs one replication as Run does and writes down in good how many good sets had
// been delivered by each of the given times, as Record does; it allocates nothing.
func (s *Sim) Course(seed uint64, replication int, times []sim.Seconds, good []int64, out *Outcome) error {
	if s.jobs != nil {
		return errors.New("a job is not recorded, but a shift")
	}
	s.open(seed, replication, out)
	delivered := s.track.good(s.clocks.Cycle())
	for i, at := range times {
		s.clocks.Run(s.opened() + at)
		good[i] = s.track.good(s.clocks.Cycle()) - delivered
	}
	return s.finish(seed, replication, out)
}
