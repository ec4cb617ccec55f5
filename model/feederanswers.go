package model

import (
	"slices"

	"netrate/sim"
)

// What a feeder answers to whoever asks about it.

// Kind says that it is a feeder, or one of envelopes.
func (f *Feeder) Kind() Kind {
	if f.Envelopes {
		return Kind{Name: "envelope feeder", Group: "feeder", Role: Envelopes}
	}
	return Kind{Name: "feeder"}
}

// Faults returns what can come of an attempt.
func (f *Feeder) Faults(*Line) []Fault { return feedingFaults() }

// Counts returns what can come of an attempt.
func (f *Feeder) Counts() []Fault { return feedingFaults() }

func feedingFaults() []Fault { return []Fault{Misfeed, Double, Jam} }

// Answer returns where it keeps its response to a misfeed or a double.
func (f *Feeder) Answer(fault Fault) *Response {
	return oneOf(fault, Misfeed, &f.OnMisfeed, Double, &f.OnDouble)
}

// oneOf returns the place of the answer to one of two faults; nil of another one.
func oneOf(f, first Fault, toFirst *Response, second Fault, toSecond *Response) *Response {
	switch f {
	case first:
		return toFirst
	case second:
		return toSecond
	default:
		return nil
	}
}

// Refusal returns why a misfeed or a double cannot have the response.
func (f *Feeder) Refusal(l *Line, i int, _ Fault, r Response) string { return l.feedingRefusal(i, r) }

// feedingRefusal returns why a misfeed or a double of station i cannot have the response.
func (l *Line) feedingRefusal(i int, r Response) string {
	if r == Ship && l.Matched(i) {
		return "the stream would stay out of step, and every later set would be a mismatch"
	}
	return l.NoWay(i, r)
}

// Leaks returns the misfeeds and doubles that go on, and what people leave wrong.
func (f *Feeder) Leaks(l *Line) []Leak {
	return append(l.withRealigning(l.index(f), f.leaks(l)), f.loading().mixups(l)...)
}

func (f *Feeder) leaks(l *Line) []Leak {
	o := f.odds(l, false)
	misfeeds, tooMany := f.misfeeds(l)
	double := o[fedTwo] - o[fedNothing]
	known, caught := float64(misfeeds*f.Noticed)-tooMany, double*f.Caught
	all := append(
		Leaking(Misfeed, misfeeds*(1-f.Noticed), known, f.OnMisfeed),
		Leaking(Double, double*(1-f.Caught), caught, f.OnDouble)...)
	if f.OnMisfeed == Stop {
		tooMany += known
	}
	all = l.botched(all, Misfeed, tooMany, Stop)
	return l.botched(all, Double, caught, f.OnDouble)
}

// Handles says that a condemned set is not fed; in a lane every set is.
func (f *Feeder) Handles(Response) bool { return f.Stream.Name != "" }

// Stocked returns its hopper.
func (f *Feeder) Stocked() Stocked { return Stocked{&f.Hopper, "hopper empty", true} }

// Piece says that a piece is an insert or an envelope.
func (f *Feeder) Piece() Piece {
	if f.Envelopes {
		return Piece{true, "envelope"}
	}
	return Piece{true, "insert"}
}

// Carries returns where its stream is kept.
func (f *Feeder) Carries() *Stream { return &f.Stream }

func (f *Feeder) realigning() sim.Duration { return f.Stream.work(usually(f.Clear)) }

// down returns the mean length of a stop for a fault.
func (f *Feeder) down(l *Line, fault Fault) sim.Seconds {
	if fault == Jam {
		return l.Down(f.Clearings.Of(Jam, usually(f.Clear)))
	}
	return l.Down(f.Clearings.Of(fault, f.realigning()))
}

func (f *Feeder) notices(l *Line) (misfeed, double, falseCall float64) {
	o := f.odds(l, false)
	return o[fedNothing] * f.Noticed, (o[fedTwo] - o[fedNothing]) * f.Caught, o[calledFalsely] - o[fedJam]
}

func (f *Feeder) calm(_ *Line, looked bool, notice float64) {
	f.Streak = Streak{}
	if looked {
		f.Noticed, f.Caught, f.Unwatched = notice, notice, true
	}
}

// Usual returns the shares and factors that it has.
func (f *Feeder) Usual() []Usual {
	share := []Usual{{"share", f.Share, true}}
	if f.Only != "" {
		share = nil // that is the attribute's
	}
	return slices.Concat([]Usual{
		{"noticed", f.Noticed, true},
		{"caught", f.Caught, true},
		{"false_calls", f.FalseCalls, true},
	}, share, []Usual{
		{"material", f.Material, false},
		{"growth", f.Growth, false},
		{"wrong_stock", f.WrongStock.Chance, true},
	})
}

// Setting returns what goes into it.
func (f *Feeder) Setting() Setting {
	return Setting{Takes: &f.Takes, Feeds: &Feeds{
		Hopper: &f.Hopper, Stack: f.Stack, Share: &f.Share, Only: &f.Only, Material: &f.Material, Misfeed: &f.Misfeed, Growth: f.Growth,
	}}
}
