package model

// eye is a reader that sees what follows a leak of a lane.
type eye struct {
	*Reader
	station     int
	lag         int // pitches from the lane to the reader
	first, last int // the wrong sets that it sees, from 0, the one of the fault itself
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
		e := eye{Reader: r, station: k, lag: r.At - l.Stations[i].Where().At, last: -1}
		if f == Double || channel && f != WrongRealign {
			e.first = 1
		}
		matches := r.Match != "" && (r.Reads == stream || r.Match == stream)
		switch {
		case r.Reads == stream && r.Sequence || matches:
			e.last = forEver
		case r.Reads == stream && r.Presence && !channel && f != WrongRealign:
			e.last = 0
		}
		if e.last >= e.first {
			all = append(all, e)
		}
	}
	return all
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
