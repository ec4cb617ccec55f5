package model

import "fmt"

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
	Misread                      // a reader took a wrong set for one in order
	WrongRepair                  // an operator left a set as it was that he was to put right
	WrongRealign                 // an operator who realigned a lane was one short
	WrongStock                   // the wrong pieces were brought to a hopper
)

var faultNames = [...]string{
	"misfeed", "double", "jam", "envelope misfeed", "flap", "insertion jam",
	"no read", "mismatch", "false alarm", "misread", "wrong repair", "wrong realigning", "wrong stock",
}

func (f Fault) String() string { return faultNames[f] }

// Errors returns what people and readers err in: no station does it by itself, and each may count it.
func Errors() []Fault { return []Fault{Misread, WrongRepair, WrongRealign, WrongStock} }

// OnlyStops returns why the line always stops for the fault, as a sentence; "" if it may have
// another response.
func (f Fault) OnlyStops() string {
	switch f {
	case Jam, InsertionJam:
		return "a jam stops the line by itself and spoils the set"
	case EnvelopeMisfeed:
		return "without an envelope the set can neither go on nor back: an operator must put one in"
	default:
		return ""
	}
}

// Faults returns the faults that station i can have and that a strategy can answer, in
// order. A false alarm gets the answer to a mismatch.
func (l *Line) Faults(i int) []Fault { return l.Stations[i].Faults(l) }

// Answer returns the response that station i of the line has to a fault of its Faults: stop
// to those that have no other.
func (l *Line) Answer(i int, f Fault) Response {
	if own := l.Stations[i].Answer(f); own != nil {
		return *own
	}
	return Stop
}

// Refusal returns why station i of the line cannot answer the fault with the response,
// as a sentence, or "" if it can.
func (l *Line) Refusal(i int, f Fault, r Response) string {
	if r == Stop {
		return ""
	}
	if why := f.OnlyStops(); why != "" {
		return why
	}
	return l.Stations[i].Refusal(l, i, f, r)
}

// NoWay returns why a set that is condemned at station i cannot leave as the response has it,
// as a sentence; "" if it can, and for a response that condemns none.
func (l *Line) NoWay(i int, r Response) string {
	inserter := l.First(Inserts)
	behind := inserter >= 0 && i > inserter
	switch {
	case r == Divert && behind:
		return "track gates stand before the inserter, and this station behind it"
	case r == Divert && l.next(i+1, Diverts) < 0:
		return "no track gate stands between this station and the inserter"
	case r == Outsort && behind && l.next(i+1, Outsorts) < 0:
		return "no exit gate stands after this station"
	case r == Outsort && l.next(i+1, Outsorts) < 0:
		return "no exit gate stands after the inserter"
	case r == Outsort && l.envelopeFeeder() >= 0 && i < inserter:
		return inItsEnvelope
	}
	return ""
}

// inItsEnvelope is why nothing that is wrong is outsorted where envelopes are personalised.
const inItsEnvelope = "the envelopes are personalised: a set that is wrong must not go out in one, it needs a track gate"
