package scenarios

import (
	"netrate/model"
	"netrate/sim"
)

// A kind of station in another package is written with these types, besides [Machine] and
// [AddKind]: they are those of the kinds of this package.
type (
	// Head is what every station has: kind, name, at and source.
	Head = stationHead
	// Speed is in cycles an hour, such as 18000/h.
	Speed = speed
	// Odds is a probability, such as 1/2500 or 0.04%, which may be uncertain.
	Odds = uncertainProbability
	// Factor is a number of 0 or more, which may be uncertain.
	Factor = uncertainFactor
	// Time is constant or distributed, and may be uncertain.
	Time = duration
	// Hopper is pieces or a stack of them, the warning level and the time of a refill.
	Hopper = hopper
	// Policy is the responses of the line.
	Policy = linePolicy
	// Answer is a response of the station itself.
	Answer = answer
	// Forced is a response that can only be stop.
	Forced = forced
)

// Number returns a number that is read, or what is usual if it is not given.
func Number[T ~float64](x *T, usual float64) float64 { return float64(or(x, T(usual))) }

// Place returns the station's place, with its rated speed; nil for no limit of its own.
func (h *stationHead) Place(rated *Speed) model.Place { return h.place(rated) }

// Duration returns the time; of one that could not be read, 0 s.
func (x *duration) Duration() sim.Duration { return x.time() }

// Stock returns the hopper as a stock of pieces.
func (h *hopper) Stock() model.Stock { return h.filled() }

// Response returns the response to a fault of a station that carries no stream: its own, if it
// is given, or else the line's.
func (p linePolicy) Response(f model.Fault, own *Answer) model.Response {
	switch f {
	case model.Misfeed:
		return first(own, p.Misfeed)
	case model.Double:
		return first(own, p.Double)
	case model.Flap:
		return first(own, p.Flap)
	case model.NoRead:
		return first(own, p.NoRead)
	case model.Mismatch:
		return first(own, p.Mismatch)
	default:
		return model.Stop
	}
}
