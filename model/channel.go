package model

import "netrate/sim"

// Channel gathers the sheets of one person and feeds them, as a document, into each set
// that passes. Its probabilities are those of one sheet.
type Channel struct {
	Place            // without a rated speed of its own
	Sheets float64   // an hour
	Pages  sim.Whole // sheets of a document
	Buffer int       // documents gathered that wait for the track; at least 1
	Hopper Stock     // in documents; capacity 0 for paper without end

	Misfeed    float64
	Double     float64
	Jam        float64
	Noticed    float64 // probability that a misfeed is noticed
	Caught     float64 // probability that a double is noticed
	FalseCalls float64 // probability that a good sheet is taken for a double

	Stream    Stream
	OnMisfeed Response
	OnDouble  Response
	Clear     sim.Duration // an operator's work when the channel has stopped, after the walk
}

func (h *Channel) levers(all *levers) {
	all.rate("misfeed", &h.Misfeed)
	all.rate("double", &h.Double)
	all.rate("jam", &h.Jam)
	all.rate("false_calls", &h.FalseCalls)
	all.duration("clear", &h.Clear)
	all.duration("stream.realign", &h.Stream.Realign)
	all.stock("hopper.refill", &h.Hopper)
	all.beside("noticed", &h.Noticed, true)
	all.beside("caught", &h.Caught, true)
}

func (h *Channel) clone() Station { c := *h; return &c }

func (h *Channel) check(l *Line, c *checks) {
	c.require(h.Sheets > 0 && h.Sheets <= 1e9, "sheets", "the channel feeds %v sheets an hour, want more than 0", h.Sheets)
	c.require(h.Pages != nil, "pages", "the channel does not know how many sheets make a document")
	c.require(h.Buffer >= 1 && h.Buffer <= 10_000, "buffer", "the buffer holds %d documents, want from 1 to 10000", h.Buffer)
	c.require(h.Rated == 0, "rated", "a channel has no rated speed of its own: its sheets an hour say how fast it is")
	c.faults([3]string{"misfeed", "double", "jam"}, [3]float64{h.Misfeed, h.Double, h.Jam}, 1)
	c.probability(h.Noticed, "noticed")
	c.probability(h.Caught, "caught")
	c.probability(h.FalseCalls, "false_calls")
	c.require(h.Stream.Name != "", "stream", "%s names no stream: documents are personalised", h.Name)
	l.checkStream(c, h.Stream)
	c.stock(h.Hopper, "hopper", true)
	c.clear(h.Clear)
	c.response(l, Misfeed, h.OnMisfeed)
	c.response(l, Double, h.OnDouble)
}
