package model

import (
	"math"
	"slices"

	"netrate/sim"
)

// term is one station's part in the sum while it is added up.
type term struct {
	HandTerm
	fault sim.Seconds // mean length of a stop for a fault that a strategy can answer
}

// stop adds stops of a mean length, so many for each set.
func (t *term) stop(p float64, down sim.Seconds) {
	if p == 0 {
		return
	}
	total := t.Stops + p
	t.Down = (t.Down*sim.Seconds(t.Stops) + down*sim.Seconds(p)) / sim.Seconds(total)
	t.Stops = total
}

// answer adds faults that are known, so many for each set, each of which costs a number of
// sets if they leave at a gate, with so many pieces to be made again besides one in each.
// Those that are shipped go on, and are counted there.
func (t *term) answer(p float64, r Response, sets, besides float64) {
	switch r {
	case Stop:
		t.stop(p, t.fault)
	case Divert, Outsort:
		t.Lost += p * sets
		t.Remakes += p * besides
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

// realigning returns the operator's work to put a lane in step.
func (l *Line) realigning(lane int) sim.Duration {
	switch s := l.Stations[lane].(type) {
	case *Feeder:
		return s.Stream.work(s.Clear)
	case *Channel:
		return s.Stream.work(s.Clear)
	}
	panic("model: a lane that is neither a feeder nor a channel")
}

// catchUp returns how many sets a fault at station i costs that is answered in line: where
// the lane has to catch up, the one after it too.
func (l *Line) catchUp(i int) float64 {
	if l.matched(i) {
		return 2
	}
	return 1
}

// catchUps returns how many sets a misfeed costs that is answered in line, and the
// probability that it ends with a stop all the same: the attempt for the catch-up set comes
// right after a misfeed, which may make another one likely.
func (f *Feeder) catchUps(l *Line) (sets, stop float64) {
	if !l.matched(l.index(f)) {
		return 1, 0
	}
	tries := f.Stream.Tries
	if n := f.Streak.StopAfter; n > 0 {
		tries = min(tries, n-1)
	}
	sets, stop = 1, 1
	for range tries {
		sets += stop
		stop *= f.odds(l, true)[fedNothing] * f.Noticed
	}
	return sets, stop
}

// besides returns how many pieces there are to be made again in a set with this fault of
// station i, besides one. Where remakes are counted in sets that is none.
func (l *Line) besides(i int, f Fault) float64 {
	switch {
	case streamOf(l.Stations[i]).Name == "" || l.matched(i):
		return 0
	case f == Misfeed:
		return -1
	default:
		return 1
	}
}

// goOn adds what goes on from station i as if nothing had happened, if no reader can see it.
func (l *Line) goOn(i int, t *term) {
	for _, k := range l.leaks(i) {
		if s := l.slip(i, k.fault); len(s.alarms) == 0 {
			sets := k.rate * s.unseen(k.rate)
			t.Flawed += sets
			t.Remakes += sets * l.besides(i, k.fault)
		}
	}
}

// starved returns how long the line waits in each cycle for a document, in the mean: by as
// much as a document takes longer than a cycle, less what the channel gathers while the line
// stands for another reason, until its buffer is full. It takes the buffer to be used up before
// the line stands again, and leaves out that documents vary: a channel that is fast enough in
// the mean can starve the line for a while.
func (l *Line) starved(terms []HandTerm) sim.Seconds {
	i := slices.IndexFunc(l.Stations, isChannel)
	if i < 0 || terms[i].Starved == 0 {
		return 0
	}
	h := l.Stations[i].(*Channel)
	wait := terms[i].Starved
	for k, t := range terms {
		if k != i {
			wait -= sim.Seconds(t.Reach*t.Stops) * min(t.Down, sim.Seconds(h.Buffer)*h.document())
		}
	}
	terms[i].Starved = max(0, wait)
	return terms[i].Starved
}

// document returns how long a document takes to gather, in the mean.
func (h *Channel) document() sim.Seconds { return sim.Seconds(h.Pages.Mean() * 3600 / h.Sheets) }

// faults returns the probabilities that the first sheet of a document that is not good is a
// misfeed, a double, a jam, or called falsely. A document is taken to have the mean number of
// sheets: how they vary matters only where two of one document are not good.
func (h *Channel) faults() (misfeed, double, jam, falseCall float64) {
	falseCall = (1 - h.Misfeed - h.Double - h.Jam) * h.FalseCalls
	bad := h.Misfeed + h.Double + h.Jam + falseCall
	if bad == 0 {
		return 0, 0, 0, 0
	}
	each := -math.Expm1(h.Pages.Mean()*math.Log1p(-min(1, bad))) / bad
	return h.Misfeed * each, h.Double * each, h.Jam * each, falseCall * each
}

func (h *Channel) hand(l *Line) HandTerm {
	i, cycle := l.index(h), sim.Seconds(3600/l.RunSpeed())
	misfeed, double, jam, falseCall := h.faults()
	// A channel that stops has a full buffer, if it is the faster one: the line stands once
	// that is used up, and runs as soon as the document is there, without a restart delay.
	cover := sim.Seconds(0)
	if h.document() < cycle {
		cover = sim.Seconds(h.Buffer)*cycle - h.document()
	}
	t := term{fault: max(0, l.Crew.Walk.Mean()+h.Clear.Mean()-cover)}
	t.Starved = max(0, h.document()-cycle)
	t.stop(jam, t.fault)
	t.Lost = jam
	t.answer(misfeed*h.Noticed, h.OnMisfeed, 2, 0)
	t.answer(double*h.Caught, h.OnDouble, 2, 0)
	t.answer(falseCall, h.OnDouble, 1, 0)
	l.goOn(i, &t)
	return t.HandTerm
}

// hand takes alarms for what the lanes before the reader did not notice, each with what it
// costs, to the reader that raises them.
func (r *Reader) hand(l *Line) HandTerm {
	i := l.index(r)
	t := term{fault: l.down(r.Clear)}
	t.answer(r.NoRead, r.OnNoRead, 1, 0)
	t.answer(r.FalseAlarm, r.OnMismatch, 1, 0)
	for lane := range l.Stations[:i] {
		for _, k := range l.leaks(lane) {
			l.found(i, lane, k, &t)
		}
	}
	return t.HandTerm
}

// found adds the alarms of reader i for a leak of a lane and, if it is the last one to see
// the lane, what none has found.
func (l *Line) found(i, lane int, k leak, t *term) {
	s := l.slip(lane, k.fault)
	n := slices.IndexFunc(s.alarms, func(a alarm) bool { return a.reader == i })
	if n < 0 {
		return
	}
	a := s.alarms[n]
	flawed := k.rate * a.delivered
	if n == len(s.alarms)-1 {
		flawed += k.rate * s.unseen(k.rate)
	}
	read := l.Stations[i].(*Reader).Reads
	t.stop(k.rate*a.stops, l.down(l.realigning(l.lanesOf(read)[0])))
	t.Lost += k.rate * a.lost
	t.Flawed += flawed
	if besides := l.besides(lane, k.fault); besides != 0 {
		t.Remakes += (k.rate*a.lost + flawed) * besides
	}
}
