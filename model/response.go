package model

import (
	"fmt"
	"slices"
)

// Response is what a fault leads to: one entry of the divert strategy.
type Response int

// The responses, in the order in which a strategy would be made stricter or looser.
const (
	Stop    Response = iota // the line stops and an operator puts the set right
	Divert                  // the set leaves at the track gate
	Outsort                 // the set leaves in its envelope at the exit gate
	Ship                    // the set goes on as if nothing had happened
)

var responseNames = [...]string{"stop", "divert", "outsort", "ship"}

// Responses returns the names of the responses, in order of their values.
func Responses() []string { return responseNames[:] }

func (r Response) String() string { return responseNames[r] }

// ResponseOf returns the response with the given name.
func ResponseOf(name string) (Response, error) {
	for i, n := range responseNames {
		if n == name {
			return Response(i), nil
		}
	}
	return 0, fmt.Errorf("response is %q, want stop, divert, outsort or ship", name)
}

// Fault is what can go wrong with one set at one station.
type Fault int

// The faults.
const (
	Misfeed         Fault = iota // a feeder fed nothing
	Double                       // a feeder fed two pieces, or was taken to have
	Jam                          // a piece jammed in a feeder
	EnvelopeMisfeed              // the inserter got no envelope
	Flap                         // the envelope's flap stayed shut
	InsertionJam                 // set and envelope jammed
)

var faultNames = [...]string{"misfeed", "double", "jam", "envelope misfeed", "flap", "insertion jam"}

func (f Fault) String() string { return faultNames[f] }

// Refusal returns why station i of the line cannot answer the fault with the response,
// as a sentence, or "" if it can. This is the one table of what is possible.
func (l *Line) Refusal(i int, f Fault, r Response) string {
	switch {
	case r == Stop:
		return ""
	case f == Jam || f == InsertionJam:
		return "a jam stops the line by itself and spoils the set"
	case f == EnvelopeMisfeed:
		return "without an envelope the set can neither go on nor back: an operator must put one in"
	case f == Flap && r == Divert:
		return "the set is past the track gate when its envelope turns out to be shut"
	case f == Flap && r == Ship:
		return "the set is not in its envelope"
	case r == Divert && !slices.ContainsFunc(l.Stations[i+1:], isTrackGate):
		return "no track gate stands between this station and the inserter"
	case r == Outsort && !slices.ContainsFunc(l.Stations[i+1:], isExitGate):
		return "no exit gate stands after the inserter"
	}
	return ""
}

func isTrackGate(s Station) bool { _, ok := s.(*TrackGate); return ok }
func isExitGate(s Station) bool  { _, ok := s.(*ExitGate); return ok }
