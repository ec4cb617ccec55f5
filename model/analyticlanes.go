package model

import (
	"slices"

	"netrate/sim"
)

// term is one station's part in the sum while it is added up.
type term struct {
	AnalyticTerm
	fault sim.Seconds // mean length of a stop for a fault that a strategy can answer
}

// answer adds faults that are known, p for each set. Each costs a number of sets if they
// leave at a gate, with besides further pieces to be made again beyond one in each.
// Those that are shipped go on, and are counted there.
func (t *term) answer(p float64, r Response, sets, besides float64) {
	switch r {
	case Stop:
		t.Stop(p, t.fault)
	case Divert, Outsort:
		t.Lost += float64(float64(p) * sets)
		t.Remakes += float64(p * besides)
	case Ship:
	}
}

// scale makes the term one of a station that does all this to a share of the sets only.
func (t *term) scale(share float64) {
	t.Stops *= share
	t.Lost *= share
	t.Flawed *= share
	t.Remakes *= share
}

// index returns where a station stands in the line.
func (l *Line) index(s Station) int { return slices.Index(l.Stations, s) }

// work returns the operator's work at a misfeed or a double of the stream, where clear is
// that of other faults there.
func (s Stream) work(clear sim.Duration) sim.Duration {
	if s.Realign != nil {
		return s.Realign
	}
	return clear
}

// catchUp returns how many sets a fault at station i costs that is answered in line: where
// the lane has to catch up, the one after it too.
func (l *Line) catchUp(i int) float64 {
	if l.Matched(i) {
		return 2
	}
	return 1
}

// besides returns how many pieces there are to be made again in a set with this fault of
// station i, besides one. Where remakes are counted in sets that is none.
func (l *Line) besides(i int, f Fault) float64 {
	switch {
	case StreamOf(l.Stations[i]).Name == "" || l.Matched(i):
		return 0
	case f == Misfeed:
		return -1
	default:
		return 1
	}
}

// goOn adds what goes on from station i as if nothing had happened, if no reader can see it.
func (l *Line) goOn(i int, t *term) {
	for _, k := range l.Stations[i].Leaks(l) {
		if s := l.slipOf(i, k); len(s.alarms) == 0 {
			sets := float64(k.Rate * s.unseen(k.Rate))
			t.Flawed += sets
			t.Remakes += float64(sets * l.besides(i, k.looks()))
			if s.byHand > 0 {
				t.Stop(k.Rate, loadingOf(l.Stations[i]).changing(l))
				t.Lost += float64(k.Rate * s.byHand)
			}
		}
	}
}

// gatherer is a station that gathers documents.
type gatherer interface {
	// buffered returns how long it takes to gather a full buffer, in the mean.
	buffered() sim.Seconds
}

// starved returns how long the line waits in each cycle for a document, in the mean: by as
// much as a document takes longer than a cycle, less what the channel gathers while the line
// stands for another reason, until its buffer is full. It takes the buffer to be used up before
// the line stands again, and leaves out that documents vary: a channel that is fast enough in
// the mean can starve the line for a while. Of several channels the slowest counts alone: the line
// waits for the others meanwhile.
func (l *Line) starved(terms []AnalyticTerm) sim.Seconds {
	slowest, longest := -1, sim.Seconds(0)
	for i := l.First(Gathers); i >= 0; i = l.next(i+1, Gathers) {
		wait := terms[i].Starved
		if wait == 0 {
			continue
		}
		buffer := l.Stations[i].(gatherer).buffered()
		for k, t := range terms {
			if k != i {
				wait -= sim.Seconds(sim.Seconds(t.Reach*t.Stops) * min(t.Down, buffer))
			}
		}
		if terms[i].Starved = 0; wait > longest {
			slowest, longest = i, wait
		}
	}
	if slowest >= 0 {
		terms[slowest].Starved = longest
	}
	return longest
}

// found adds the alarms of reader i for a leak of a lane and, if it is the last one to see
// the lane, what none has found.
func (l *Line) found(i int, reads string, own *Clearings, lane int, k Leak, t *term) {
	s := l.slipOf(lane, k)
	n := slices.IndexFunc(s.alarms, func(a alarm) bool { return a.reader == i })
	if n < 0 {
		return
	}
	a, rate := s.alarms[n], k.Rate*l.ShareOf(l.Stations[lane]) // attempts of a set
	var down sim.Seconds
	if k.Fault == WrongStock {
		down = loadingOf(l.Stations[lane]).changing(l)
	} else {
		down = l.Down(own.Of(Mismatch, l.carrying(l.LanesOf(reads)[0]).realigning()))
	}
	flawed := float64(rate * a.delivered)
	if n == len(s.alarms)-1 {
		flawed += float64(rate * s.unseen(k.Rate))
	}
	t.Stop(rate*a.stops, down)
	t.Lost += float64(rate * a.lost)
	t.Flawed += flawed
	if besides := l.besides(lane, k.looks()); besides != 0 {
		t.Remakes += float64((float64(rate*a.lost) + flawed) * besides)
	}
}
