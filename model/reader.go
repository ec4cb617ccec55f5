package model

import "netrate/sim"

// Reader reads the pieces of one stream in every set that passes.
type Reader struct {
	Place
	Reads    string // the stream
	Presence bool   // it sees a piece that is not there
	Sequence bool   // it sees a piece that is not there, or is for another set
	Match    string // it sees that the pieces of this other stream are for somebody else; "" for none

	NoRead     float64 // probability of each reading
	FalseAlarm float64 // probability that a set in order is taken for a mismatch

	OnNoRead   Response
	OnMismatch Response     // also to a false alarm
	Clear      sim.Duration // an operator's work at a no-read or a false alarm, after the walk; an alarm takes the time of the stream it reads
}

func (r *Reader) levers(all *levers) {
	all.rate("no_read", &r.NoRead)
	all.rate("false_alarm", &r.FalseAlarm)
	all.duration("clear", &r.Clear)
}

func (r *Reader) clone() Station { c := *r; return &c }

func (r *Reader) check(l *Line, c *checks) {
	c.require(r.Presence || r.Sequence || r.Match != "", "verifies", "%s verifies nothing: want presence, sequence or match", r.Name)
	c.probability(r.NoRead, "no_read")
	c.probability(r.FalseAlarm, "false_alarm")
	c.require(r.NoRead+r.FalseAlarm <= 1, "no_read", "no_read and false_alarm come to %.4g, want at most 1", r.NoRead+r.FalseAlarm)
	c.clear(r.Clear)
	if l.checkReads(c, r.Reads, "reads") && r.Sequence {
		c.require(l.matched(l.lanesOf(r.Reads)[0]), "verifies", "%s is the only stream of the line and nothing is matched to it: it has no sequence to verify, but presence", r.Reads)
	}
	if r.Match != "" && l.checkReads(c, r.Match, "match") {
		c.require(r.Match != r.Reads, "match", "%s matches the stream %s to itself", r.Name, r.Match)
	}
	c.response(l, NoRead, r.OnNoRead)
	c.response(l, Mismatch, r.OnMismatch)
}

// checkReads notes what is wrong with a stream that the reader being looked at reads, and
// returns whether there is one.
func (l *Line) checkReads(c *checks, stream, field string) bool {
	lanes := l.lanesOf(stream)
	if len(lanes) == 0 || stream == "" {
		c.require(false, field, "no station carries the stream %q: want one of %q", stream, l.Streams())
		return false
	}
	for _, i := range lanes {
		c.require(i < c.station, field, "%s reads the stream %s before %s feeds it", l.Stations[c.station].Where().Name, stream, l.Stations[i].Where().Name)
	}
	return true
}
