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
	NoRead                       // a reader read nothing
	Mismatch                     // a reader saw pieces that do not belong to one set
	FalseAlarm                   // a reader took a good set for a mismatch
)

var faultNames = [...]string{
	"misfeed", "double", "jam", "envelope misfeed", "flap", "insertion jam",
	"no read", "mismatch", "false alarm",
}

func (f Fault) String() string { return faultNames[f] }

// Faults returns the faults that station i can have and that a strategy can answer, in
// order. A false alarm gets the answer to a mismatch.
func (l *Line) Faults(i int) []Fault {
	switch l.Stations[i].(type) {
	case *Feeder, *Channel:
		return []Fault{Misfeed, Double, Jam}
	case *Inserter:
		if l.envelopeFeeder() >= 0 {
			return []Fault{Flap, InsertionJam}
		}
		return []Fault{EnvelopeMisfeed, Flap, InsertionJam}
	case *Reader:
		return []Fault{NoRead, Mismatch}
	}
	return nil
}

// Answer returns the response that station i of the line has to a fault of its Faults: stop
// to those that have no other.
func (l *Line) Answer(i int, f Fault) Response {
	if own := answerTo(l.Stations[i], f); own != nil {
		return *own
	}
	return Stop
}

// Refusal returns why station i of the line cannot answer the fault with the response,
// as a sentence, or "" if it can. This is the one table of what is possible.
func (l *Line) Refusal(i int, f Fault, r Response) string {
	inserter := slices.IndexFunc(l.Stations, isInserter)
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
	case f == Mismatch && r == Ship:
		return "the sets that follow would be mismatches too"
	case r == Ship && l.matched(i):
		return "the stream would stay out of step, and every later set would be a mismatch"
	case f == Mismatch && r == Divert:
		return l.mismatchRefusal(i)
	case r == Divert && !slices.ContainsFunc(l.Stations[i+1:], isTrackGate):
		return "no track gate stands between this station and the inserter"
	case r == Outsort && !slices.ContainsFunc(l.Stations[i+1:], isExitGate):
		return "no exit gate stands after the inserter"
	case r == Outsort && l.envelopeFeeder() >= 0 && (i < inserter || f == Mismatch):
		return "the envelopes are personalised: a set that is wrong must not go out in one, it needs a track gate"
	}
	return ""
}

// mismatchRefusal returns why a reader cannot divert mismatches, or "".
func (l *Line) mismatchRefusal(i int) string {
	r := l.Stations[i].(*Reader)
	for _, lane := range slices.Concat(l.lanesOf(r.Reads), l.lanesOf(r.Match)) {
		if !slices.ContainsFunc(l.Stations[lane+1:], isTrackGate) {
			return "no track gate stands between " + l.Stations[lane].Where().Name + " and the inserter, so that its catch-up sets cannot leave"
		}
	}
	if !slices.ContainsFunc(l.Stations[i+1:], isGate) {
		return "no gate stands after this station"
	}
	return ""
}

func isTrackGate(s Station) bool { _, ok := s.(*TrackGate); return ok }
func isExitGate(s Station) bool  { _, ok := s.(*ExitGate); return ok }
func isGate(s Station) bool      { return isTrackGate(s) || isExitGate(s) }
func isInserter(s Station) bool  { _, ok := s.(*Inserter); return ok }
