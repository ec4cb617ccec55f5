package model

import "slices"

// eye is a reader that sees what follows a leak of a lane.
type eye struct {
	*Reader
	station     int
	lag         int     // pitches from the lane to the reader
	first, last int     // the wrong sets that it sees, from 0, the one of the fault itself
	sight       float64 // share of the wrong sets that have what it takes to see them: the stream it reads, and the one it matches to that
	missing     bool    // it sees the first one whatever it matches: there is no piece in it
}

// forEver stands for the last of the wrong sets where they do not end by themselves.
const forEver = int(^uint(0) >> 1)

// seer is a station that reads a stream.
type seer interface{ eye() *Reader }

// eyes returns the readers that see what follows a leak of station i, along the track. They
// see a set that got no piece. A second piece they do not see, nor a document whose sheets are
// wrong, but the sets after it, which have wrong pieces, and so have all sets after a wrong realigning.
func (l *Line) eyes(i int, f Fault) []eye {
	channel := l.is(i, Gathers)
	stream := StreamOf(l.Stations[i]).Name
	var all []eye
	for k := i + 1; k < len(l.Stations) && stream != ""; k++ {
		seer, ok := l.Stations[k].(seer)
		if !ok {
			continue
		}
		r := seer.eye()
		e := eye{Reader: r, station: k, lag: r.At - l.Stations[i].Where().At, last: -1, sight: l.having(i, l.onlyFor(r))}
		if f == Double || channel && f != WrongRealign {
			e.first = 1
		}
		matches := r.Match != "" && (r.Reads == stream || r.Match == stream)
		switch {
		case r.Reads == stream && r.Sequence:
			e.last = forEver
		case matches:
			e.last, e.missing = forEver, r.Reads == stream && !channel && f == Misfeed
			e.sight = l.having(i, l.onlyFor(r), l.onlyFor(l.Stations[l.LanesOf(r.Match)[0]]))
		case r.Reads == stream && r.Presence && !channel && f != WrongRealign:
			e.last = 0
		}
		if e.last >= e.first {
			all = append(all, e)
		}
	}
	return all
}

// having returns the share of the sets that have all of some attributes, among those that station i is for.
func (l *Line) having(i int, attributes ...string) float64 {
	share, known := 1.0, []string{"", l.onlyFor(l.Stations[i])}
	for _, a := range attributes {
		if !slices.Contains(known, a) {
			share *= l.Attributes[l.attribute(a)].Share
			known = append(known, a)
		}
	}
	return share
}

// alone returns the share of the sets that station i is for which have no other stream, so that a wrong
// piece of its own goes unmatched. Documents that are wrong are so alone.
func (l *Line) alone(i int) float64 {
	none, known := 1.0, []string{}
	for _, k := range l.Lanes() {
		only := l.onlyFor(l.Stations[k])
		switch {
		case k == i && l.is(i, Gathers), k != i && only == "":
			return 0
		case k != i && !slices.Contains(known, only):
			none *= 1 - l.Attributes[l.attribute(only)].Share
			known = append(known, only)
		}
	}
	return none
}

// recall returns how many pitches a wrong set may at most have gone from station i, and one
// more, if an alarm with this response is still to keep it from being delivered.
func (l *Line) recall(i int, r Response) int {
	end := 0
	for _, s := range l.Stations[i:] {
		role := s.Kind().Role
		here := role == Outsorts ||
			role == Diverts && r == Divert ||
			role == Inserts && r == Stop // an operator takes off what is not in its envelope
		if !here {
			continue
		}
		end = s.Where().At - l.Stations[i].Where().At
	}
	return end
}

// most returns how many sets a shift has if nothing stops the line, or a job.
func (l *Line) most() float64 {
	if l.Job.Sets > 0 {
		return float64(l.Job.Sets)
	}
	return float64(l.Shift) * l.RunSpeed() / 3600
}
