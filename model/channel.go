package model

import (
	"slices"

	"netrate/sim"
)

// Channel gathers the sheets of one person and feeds them, as a document, into each set
// that passes. Its probabilities are those of one sheet.
type Channel struct {
	Place                          // without a rated speed of its own
	Sheets float64                 // an hour
	Pages  sim.IntegerDistribution // sheets of a document
	Buffer int                     // documents gathered that wait for the track; at least 1
	Hopper Stock                   // in documents; capacity 0 for paper without end

	Misfeed    float64
	Double     float64
	Jam        float64
	Noticed    float64 // probability that a misfeed is noticed; 1 as a rule
	Caught     float64 // probability that a double is noticed; 1 as a rule
	Unwatched  bool    // a 0 of these two is meant: else Check takes it for forgotten
	FalseCalls float64 // probability that a good sheet is taken for a double

	Lots      Lots // of sheets
	Stream    Stream
	OnMisfeed Response
	OnDouble  Response
	Clear     sim.Duration // an operator's work when the channel has stopped, after the walk; nil if all faults have a time of their own
	Clearings Clearings    // of faults that have a time of their own
}

// Parameters lists its rates and times.
func (h *Channel) Parameters(all *Parameters) {
	all.Rate("misfeed", &h.Misfeed)
	all.Rate("double", &h.Double)
	all.Rate("jam", &h.Jam)
	all.Rate("false_calls", &h.FalseCalls)
	all.Clear(&h.Clear, &h.Clearings, feedingClears)
	all.Duration("stream.realign", &h.Stream.Realign)
	all.Stock("hopper.refill", &h.Hopper)
	all.Beside("noticed", &h.Noticed, true)
	all.Beside("caught", &h.Caught, true)
}

// Clone returns a copy.
func (h *Channel) Clone() Station {
	c := *h
	c.Lots.Factors = slices.Clone(h.Lots.Factors)
	return &c
}

// Check notes what cannot be of the channel.
func (h *Channel) Check(l *Line, c *Checks) {
	c.Before(l, "feeders and channels")
	gate := l.First(Diverts)
	c.Require(gate < 0 || gate > c.At(), "kind", "%s stands after a track gate: sets that left there would leave their documents behind", h.Name)
	c.Require(h.Sheets > 0 && h.Sheets <= 1e9, "sheets", "the channel feeds %v sheets an hour, want more than 0", h.Sheets)
	c.Require(h.Pages != nil, "pages", "the channel does not know how many sheets make a document")
	c.Require(h.Buffer >= 1 && h.Buffer <= 10_000, "buffer", "the buffer holds %d documents, want from 1 to 10000", h.Buffer)
	c.Require(h.Rated == 0, "rated", "a channel has no rated speed of its own: its sheets an hour say how fast it is")
	c.Faults([]string{"misfeed", "double", "jam"}, []float64{h.Misfeed, h.Double, h.Jam}, 1)
	c.noticing(h.Misfeed, h.Noticed, h.Double, h.Caught, h.Unwatched)
	c.Probability(h.FalseCalls, "false_calls")
	c.Require(h.Stream.Name != "", "stream", "%s names no stream: documents are personalised", h.Name)
	l.checkStream(c, h.Stream)
	c.lots(&h.Lots)
	c.Stock(h.Hopper, "hopper", true)
	c.Clearings(h.Clear, &h.Clearings, feedingClears)
	c.realigned(h.Stream, h.Clear)
	c.Response(l, Misfeed, h.OnMisfeed)
	c.Response(l, Double, h.OnDouble)
}

// Kind says that it is a document channel.
func (h *Channel) Kind() Kind { return Kind{Name: "document channel", Role: Gathers} }

// Faults returns what can come of a sheet.
func (h *Channel) Faults(*Line) []Fault { return feedingFaults() }

// Counts returns what can come of a sheet.
func (h *Channel) Counts() []Fault { return feedingFaults() }

// Answer returns where it keeps its response to a misfeed or a double.
func (h *Channel) Answer(f Fault) *Response {
	return oneOf(f, Misfeed, &h.OnMisfeed, Double, &h.OnDouble)
}

// Refusal returns why a misfeed or a double cannot have the response.
func (h *Channel) Refusal(l *Line, i int, _ Fault, r Response) string { return l.feedingRefusal(i, r) }

// Leaks returns the documents with a misfeed or a double that go on, and what people leave wrong.
func (h *Channel) Leaks(l *Line) []Leak { return l.withRealigning(l.index(h), h.leaks(l)) }

func (h *Channel) leaks(l *Line) []Leak {
	misfeed, double, _, _ := h.faults()
	all := append(
		Leaking(Misfeed, misfeed*(1-h.Noticed), misfeed*h.Noticed, h.OnMisfeed),
		Leaking(Double, double*(1-h.Caught), double*h.Caught, h.OnDouble)...)
	all = l.botched(all, Misfeed, misfeed*h.Noticed, h.OnMisfeed)
	return l.botched(all, Double, double*h.Caught, h.OnDouble)
}

// Handles says that every set gets its document, condemned or not.
func (h *Channel) Handles(Response) bool { return true }

// Stocked returns its paper, if that is counted.
func (h *Channel) Stocked() Stocked { return Stocked{&h.Hopper, "hopper empty", h.Hopper.Capacity > 0} }

// Piece says that documents cost nothing but a price of their own.
func (h *Channel) Piece() Piece { return Piece{Fed: true} }

// Carries returns where its stream is kept.
func (h *Channel) Carries() *Stream { return &h.Stream }

func (h *Channel) realigning() sim.Duration { return h.Stream.work(usually(h.Clear)) }

func (h *Channel) notices(*Line) (misfeed, double, falseCall float64) {
	misfeed, double, _, falseCall = h.faults()
	return misfeed * h.Noticed, double * h.Caught, falseCall
}

func (h *Channel) calm(l *Line, looked bool, notice float64) {
	h.Pages, h.Sheets = sim.Always(1), 10*l.RunSpeed()
	if looked {
		h.Noticed, h.Caught, h.Unwatched = notice, notice, true
	}
}

// Usual returns the shares that it has.
func (h *Channel) Usual() []Usual {
	return []Usual{{"noticed", h.Noticed, true}, {"caught", h.Caught, true}, {"false_calls", h.FalseCalls, true}}
}

// Setting returns its documents.
func (h *Channel) Setting() Setting { return Setting{Pages: &h.Pages} }
