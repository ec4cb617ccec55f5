package model

// leak is a misfeed or a double that goes on as if nothing had happened.
type leak struct {
	fault   Fault
	shipped bool    // it was noticed, and the answer is to ship it
	rate    float64 // of each attempt, in the mean
}

// leaks returns the leaks of station i.
func (l *Line) leaks(i int) []leak {
	var all []leak
	add := func(fault Fault, missed, noticed float64, r Response) {
		if missed > 0 {
			all = append(all, leak{fault, false, missed})
		}
		if noticed > 0 && r == Ship {
			all = append(all, leak{fault, true, noticed})
		}
	}
	switch s := l.Stations[i].(type) {
	case *Feeder:
		o := s.odds(l, false)
		misfeeds, tooMany := s.misfeeds(l)
		double := o[fedTwo] - o[fedNothing]
		add(Misfeed, misfeeds*(1-s.Noticed), misfeeds*s.Noticed-tooMany, s.OnMisfeed)
		add(Double, double*(1-s.Caught), double*s.Caught, s.OnDouble)
	case *Channel:
		misfeed, double, _, _ := s.faults()
		add(Misfeed, misfeed*(1-s.Noticed), misfeed*s.Noticed, s.OnMisfeed)
		add(Double, double*(1-s.Caught), double*s.Caught, s.OnDouble)
	}
	return all
}

// eye is a reader that sees what follows a leak of a lane.
type eye struct {
	*Reader
	station     int
	lag         int // pitches from the lane to the reader
	first, last int // the wrong sets that it sees, from 0, the one of the fault itself
}

// forEver stands for the last of the wrong sets where they do not end by themselves.
const forEver = int(^uint(0) >> 1)

// eyes returns the readers that see what follows a leak of station i, along the track. They
// see a set that got no piece. A second piece they do not see, nor a document whose sheets are
// wrong, but the sets after it, which have wrong pieces.
func (l *Line) eyes(i int, f Fault) []eye {
	_, channel := l.Stations[i].(*Channel)
	stream := streamOf(l.Stations[i]).Name
	var all []eye
	for k := i + 1; k < len(l.Stations) && stream != ""; k++ {
		r, ok := l.Stations[k].(*Reader)
		if !ok {
			continue
		}
		e := eye{Reader: r, station: k, lag: r.At - l.Stations[i].Where().At, last: -1}
		if f == Double || channel {
			e.first = 1
		}
		matches := r.Match != "" && (r.Reads == stream || r.Match == stream)
		switch {
		case r.Reads == stream && r.Sequence || matches:
			e.last = forEver
		case r.Reads == stream && r.Presence && !channel:
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
		switch s.(type) {
		case *Inserter:
			if r != Stop { // an operator takes off what is not in its envelope
				continue
			}
		case *TrackGate:
			if r != Divert {
				continue
			}
		case *ExitGate:
		default:
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
