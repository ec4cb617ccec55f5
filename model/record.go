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
	if s.jobs != nil {
		return nil, nil, errors.New("a job is not recorded, but a shift")
	}
	s.watch = func(span Span) { stood = append(stood, span) }
	defer func() { s.watch = nil }()
	s.begin(seed, replication, out)
	s.start()
	for _, at := range times {
		s.clocks.Run(at)
		good = append(good, s.track.good(s.clocks.Cycle()))
	}
	return stood, good, s.finish(seed, replication, out)
}
