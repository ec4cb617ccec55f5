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
	Starving                // a document
)

var phaseNames = [...]string{"waiting", "working", "restarting", "starved"}

func (p Phase) String() string { return phaseNames[p] }

// Record runs one replication as Run does and returns what it did: the stretches in which
// the line stood, in order, and how many good sets had been delivered by each of the given
// times, which must rise from 0 or more to the length of the shift or less. A job is not
// recorded: that is an error.
func (s *Sim) Record(seed uint64, replication int, times []sim.Seconds, out *Outcome) (stood []Span, good []int64, err error) {
	s.watch = func(span Span) { stood = append(stood, span) }
	defer func() { s.watch = nil }()
	good = make([]int64, len(times))
	err = s.Course(seed, replication, times, good, out)
	return stood, good, err
}

// Course runs one replication as Run does and writes down in good how many good sets had
// been delivered by each of the given times, as Record does; it allocates nothing.
func (s *Sim) Course(seed uint64, replication int, times []sim.Seconds, good []int64, out *Outcome) error {
	if s.jobs != nil {
		return errors.New("a job is not recorded, but a shift")
	}
	s.begin(seed, replication, out)
	s.start()
	for i, at := range times {
		s.clocks.Run(at)
		good[i] = s.track.good(s.clocks.Cycle())
	}
	return s.finish(seed, replication, out)
}
