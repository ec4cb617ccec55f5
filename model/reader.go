package model

import (
	"slices"

	"netrate/sim"
)

// Reader reads the pieces of one stream in every set that passes.
type Reader struct {
	Place
	Reads    string // the stream
	Presence bool   // it sees a piece that is not there
	Sequence bool   // it sees a piece that is not there, or is for another set
	Match    string // it sees that the pieces of this other stream are for somebody else; "" for none

	NoRead     float64 // probability of each reading
	FalseAlarm float64 // probability that a set in order is taken for a mismatch
	Misread    float64 // probability that a set in which it would see something wrong is taken for one in order

	OnNoRead   Response
	OnMismatch Response     // also to a false alarm
	Clear      sim.Duration // an operator's work at a no-read or a false alarm, after the walk; nil if both have a time of their own
	Clearings  Clearings    // of faults that have a time of their own; an alarm without one takes that of the stream it reads
}

// Parameters lists its rates and its time.
func (r *Reader) Parameters(all *Parameters) {
	all.Fault(NoRead, "no_read", &r.NoRead)
	all.Fault(FalseAlarm, "false_alarm", &r.FalseAlarm)
	all.Rate("misread", &r.Misread)
	all.Clear(&r.Clear, &r.Clearings, readingClears)
}

// Clone returns a copy.
func (r *Reader) Clone() Station { c := *r; return &c }

// Check notes what cannot be of the reader.
func (r *Reader) Check(l *Line, c *Checks) {
	onlyStock := r.Reads == "" && r.sees(l) != 0
	c.Require(r.Reads == "" || r.Presence || r.Sequence || r.Match != "", "verifies", "%s verifies nothing: want presence, sequence or match", r.Name)
	c.Probability(r.NoRead, "no_read")
	c.Probability(r.FalseAlarm, "false_alarm")
	c.Probability(r.Misread, "misread")
	c.Require(r.NoRead+r.FalseAlarm <= 1, "no_read", "no_read and false_alarm come to %s, want at most 1", aboveOne(r.NoRead+r.FalseAlarm))
	c.Clearings(r.Clear, &r.Clearings, []FaultRate{{NoRead, "no_read"}, {FalseAlarm, "false_alarm"}})
	c.Require(!onlyStock || !r.Presence && !r.Sequence && r.Match == "", "reads", "%s verifies a stream, and reads none", r.Name)
	if !onlyStock && l.checkReads(c, r.Reads, "reads") && r.Sequence {
		c.Require(l.Matched(l.LanesOf(r.Reads)[0]), "verifies", "%s is the only stream of the line and nothing is matched to it: it has no sequence to verify, but presence", r.Reads)
	}
	if r.Match != "" && l.checkReads(c, r.Match, "match") {
		c.Require(r.Match != r.Reads, "match", "%s matches the stream %s to itself", r.Name, r.Match)
	}
	c.Response(l, NoRead, r.OnNoRead)
	c.Response(l, Mismatch, r.OnMismatch)
}

// checkReads notes what is wrong with a stream that the reader being looked at reads, and
// returns whether there is one.
func (l *Line) checkReads(c *Checks, stream, field string) bool {
	lanes := l.LanesOf(stream)
	if len(lanes) == 0 || stream == "" {
		c.Require(stream != "", field, "%s reads no stream: want one, or a feeder whose wrong stock it sees", l.Stations[c.station].Where().Name)
		c.Require(stream == "", field, "no station carries the stream %q: want one of %q", stream, l.Streams())
		return false
	}
	for _, i := range lanes {
		c.Require(i < c.station, field, "%s reads the stream %s before %s feeds it", l.Stations[c.station].Where().Name, stream, l.Stations[i].Where().Name)
	}
	return true
}

// Kind says that it is a reader.
func (r *Reader) Kind() Kind { return Kind{Name: "reader", Role: Reads, Beside: true} }

// Faults returns what it finds. A false alarm gets the answer to a mismatch.
func (r *Reader) Faults(*Line) []Fault { return []Fault{NoRead, Mismatch} }

// Counts returns what it finds, or takes for such.
func (r *Reader) Counts() []Fault { return []Fault{NoRead, Mismatch, FalseAlarm} }

// Answer returns where it keeps its response to a no-read or a mismatch.
func (r *Reader) Answer(f Fault) *Response {
	return oneOf(f, NoRead, &r.OnNoRead, Mismatch, &r.OnMismatch)
}

// Refusal returns why a no-read or a mismatch cannot have the response. A set that does not
// match has its envelope, if that is personalised, wherever the reader stands.
func (r *Reader) Refusal(l *Line, i int, f Fault, response Response) string {
	switch {
	case f == NoRead:
		return l.NoWay(i, response)
	case response == Ship:
		return "the sets that follow would be mismatches too"
	case response == Divert:
		return r.divertRefusal(l, i)
	}
	if why := l.NoWay(i, response); why != "" || l.envelopeFeeder() < 0 {
		return why
	}
	return inItsEnvelope
}

// divertRefusal returns why the reader, at place i, cannot divert mismatches, or "".
func (r *Reader) divertRefusal(l *Line, i int) string {
	for _, lane := range slices.Concat(l.LanesOf(r.Reads), l.LanesOf(r.Match)) {
		if l.next(lane+1, Diverts) < 0 {
			return "no track gate stands between " + l.Stations[lane].Where().Name + " and the inserter, so that its catch-up sets cannot leave"
		}
	}
	if l.next(i+1, Diverts) < 0 && l.next(i+1, Outsorts) < 0 {
		return "no gate stands after this station"
	}
	return ""
}

// Leaks says that nothing comes of a reader: what it does not see is a leak of the lane.
func (r *Reader) Leaks(*Line) []Leak { return nil }

// Handles says that it does not read a condemned set.
func (r *Reader) Handles(Response) bool { return false }

// Estimate takes alarms for what the lanes before the reader did not notice, each with what it
// costs, to the reader that raises them.
func (r *Reader) Estimate(l *Line) AnalyticTerm {
	i := l.index(r)
	t := term{fault: l.Down(r.Clearings.Of(NoRead, usually(r.Clear)))}
	t.answer(r.NoRead, r.OnNoRead, 1, 0)
	t.fault = l.Down(r.Clearings.Of(FalseAlarm, usually(r.Clear)))
	t.answer(r.FalseAlarm, r.OnMismatch, 1, 0)
	t.scale(l.ShareOf(r))
	for lane := range l.Stations[:i] {
		for _, k := range l.Stations[lane].Leaks(l) {
			l.found(i, r.Reads, &r.Clearings, lane, k, &t)
		}
	}
	return t.AnalyticTerm
}

// Stocked says that it has no stock.
func (r *Reader) Stocked() Stocked { return Stocked{} }

// Piece says that it feeds none.
func (r *Reader) Piece() Piece { return Piece{} }

// Carries says that it reads streams and carries none.
func (r *Reader) Carries() *Stream { return nil }

func (r *Reader) eye() *Reader { return r }

// Usual returns how often it errs.
func (r *Reader) Usual() []Usual { return []Usual{{"misread", r.Misread, true}} }

// Setting returns the reader itself.
func (r *Reader) Setting() Setting { return Setting{Reads: r} }
