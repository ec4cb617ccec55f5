package model

import "netrate/sim"

// draw decides how many pages a document has and what is wrong with it, if it is not decided.
func (h *channel) draw(k sim.Cycles) {
	if k <= h.drawn {
		return
	}
	h.drawn = k
	h.leaf(k)
	if k > h.turns {
		h.turn(k)
	}
	rest := h.passSheets(h.pages[h.slot(k)])
	if rest == 0 {
		return
	}
	d := document{number: k, known: true}
	d.sheet = h.odds.pick(h.random.kinds.Uniform() * h.odds[calledFalsely])
	switch d.sheet {
	case fedNothing:
		d.known = h.random.noticed.Chance(h.Noticed)
		d.stops = d.known && h.OnMisfeed == Stop
	case fedTwo:
		d.known = h.random.caught.Chance(h.Caught)
		d.stops = d.known && h.OnDouble == Stop
	case calledFalsely:
		d.stops = h.OnDouble == Stop
	case fedJam:
		d.stops = true
	case fedGood:
	}
	h.nextSheets(rest - 1)
	h.faulty = append(h.faulty, d)
	h.await()
}

// leaf draws the pages of document k and of a block behind it, if they are not drawn.
func (h *channel) leaf(k sim.Cycles) {
	for h.paged < k {
		from := h.slot(h.paged + 1)
		to := min(from+block, len(h.pages))
		h.Pages.Fill(h.random.pages, h.pages[from:to])
		h.paged += sim.Cycles(to - from)
	}
}

// of returns what is wrong with a document, or nil.
func (h *channel) of(k sim.Cycles) *document {
	for i := h.first; i < len(h.faulty); i++ {
		if h.faulty[i].number == k {
			return &h.faulty[i]
		}
	}
	return nil
}

// stops reports whether the channel stops with a document.
func (h *channel) stops(k sim.Cycles) bool {
	d := h.of(k)
	return d != nil && d.stops
}

// fault returns what has stopped the channel.
func (h *channel) fault() Fault {
	switch h.of(h.stopped).sheet {
	case fedNothing:
		return Misfeed
	case fedJam:
		return Jam
	default:
		return Double
	}
}

// stop calls an operator to the channel.
func (h *channel) stop() {
	h.count(h.of(h.stopped))
	h.task.Call(stops, 0)
	h.s.standstill.channelStops(h)
	h.s.crew.Dispatch()
}

// lack returns why there is no document: the fault for which the channel has stopped, or that it
// is too slow.
func (h *channel) lack() Cause {
	if h.task.Idle() {
		return CauseStarved
	}
	return Cause(h.fault()) // the causes begin with the faults
}

// cleared lets the channel go on with a document that is put right or, after a jam, spoiled.
func (h *channel) cleared() {
	d := h.of(h.stopped)
	d.stops = false
	switch {
	case d.sheet == fedJam:
	case d.sheet != calledFalsely && h.human.errs(d.number):
		d.known, d.botched = false, true
	default:
		d.sheet, d.known = fedGood, false
	}
	h.ready[h.slot(h.stopped)] = h.s.clocks.Shop.Now()
	h.stopped = 0
	h.look()
	h.wake()
}

// await sets the timer for the next document that is not like all others.
func (h *channel) await() {
	now := h.s.clocks.Track.Now()
	if h.lane.out() {
		h.next.Set(now + 1)
		return
	}
	for h.first < len(h.faulty) && h.faulty[h.first].number+h.at <= now {
		h.first++
	}
	if h.first == len(h.faulty) {
		h.faulty, h.first = h.faulty[:0], 0
		return
	}
	h.next.Set(h.faulty[h.first].number + h.at)
}

// feed feeds a document with something unlike the others into the set that is here.
func (h *channel) feed() {
	cycle := h.s.clocks.Track.Now()
	set := cycle - h.at
	d := document{}
	if found := h.of(set); found != nil {
		d = *found
	}
	if h.s.track.passes(set, h.index) {
		h.place(d, set, cycle)
	}
	h.await()
}

// place puts a document into a set.
func (h *channel) place(d document, set, cycle sim.Cycles) {
	l := h.lane
	if d.sheet == fedJam {
		o := h.s.track.odd(set, cycle)
		o.fed(h.index, 1)
		o.blames(h.index, Jam)
		h.s.track.spoil(o, h.index)
		h.unfed++
		return
	}
	if l.d != 0 {
		o := l.wrong(set, cycle)
		if l.recovering && !h.s.track.condemned(o) {
			h.s.condemn(o, h.index, l.ways[l.response])
		}
	}
	inRecovery, inStep := l.recovering && l.d != 0, l.d == 0
	more := h.count(&d)
	switch {
	case d.sheet == fedGood:
	case inRecovery:
		h.again(d, cycle)
	default:
		more = h.answer(&d, set, cycle)
	}
	if inRecovery {
		more -= l.d // it begins with the first sheet of this document
	}
	l.move(more, cycle)
	if inStep && d.botched {
		l.origin = WrongRepair
	}
}

// count counts what is wrong with a document that is fed, or with which the channel stops,
// and returns how many sheets it has more than it should.
func (h *channel) count(d *document) int32 {
	fault, more := Misfeed, int32(0)
	switch d.sheet {
	case fedNothing:
		more = -1
		if !d.known && !d.botched {
			h.out.Unnoticed++
		}
	case fedTwo:
		fault, more = Double, 1
		if !d.known && !d.botched {
			h.out.Missed++
		}
	case fedJam:
		fault = Jam
	case calledFalsely:
		h.out.FalseCalls++
		h.s.observeFalseCall(h.index, d.number)
		return 0
	case fedGood:
		return 0
	}
	if d.botched { // it was counted when the channel stopped
		return more
	}
	h.out.Faults[fault]++
	h.s.observeFault(h.index, fault, d.number, d.known)
	return more
}

// again is a fault in the document of a catch-up set.
func (h *channel) again(d document, cycle sim.Cycles) {
	l := h.lane
	cause := CauseDouble
	if d.sheet == fedNothing {
		cause = CauseMisfeed
		if l.tries++; d.known && l.tries < l.Tries && !l.second(cycle) {
			return
		}
	}
	if !d.known {
		l.over(cycle)
		return
	}
	l.hand.second = true
	h.s.standstill.arise(l.hand, cause)
}

// answer does what is to be done about a document that is not good, fed outside a recovery,
// and returns by how many sheets the lane then is further ahead.
func (h *channel) answer(d *document, set, cycle sim.Cycles) int32 {
	l := h.lane
	r, fault, cause, more := h.OnDouble, Double, CauseDouble, int32(0)
	switch d.sheet {
	case fedNothing:
		r, fault, cause, more = h.OnMisfeed, Misfeed, CauseMisfeed, -1
	case fedTwo:
		more = 1
	case fedGood, fedJam, calledFalsely:
	}
	if d.known && l.second(cycle) {
		l.hand.second = true
		h.s.standstill.arise(l.hand, cause)
		if more == 0 || !h.human.errs(set) {
			return 0 // put right
		}
		d.known, d.botched = false, true
	}
	if d.botched {
		fault = WrongRepair
	}
	o := h.s.track.odd(set, cycle)
	o.blames(h.index, fault)
	if more != 0 {
		o.mixed |= 1 << l.number
	}
	if !d.known {
		h.s.suspect(set)
		return more
	}
	h.s.condemn(o, h.index, l.ways[r])
	l.recover(r, cycle)
	return more
}

func (h *channel) End(cycle sim.Cycles, out *StationOutcome) {
	h.closeSheets()
	out.Name = h.Name
	h.human.report(h.lane, out)
	taken := h.s.track.taken[h.index]
	out.Attempts = h.s.track.handled(h.index, cycle) - taken - h.unfed
	out.Pieces = h.s.pieces(h.index, &h.stock, cycle)
	if h.Hopper.Capacity == 0 {
		out.Pieces.Loaded, out.Pieces.Left = h.s.track.handled(h.index, cycle), 0
	}
	out.Pieces.Good = h.s.out.Sets.Good
	out.Stock, out.Clearing = h.stock.task.Account(), h.task.Account()
	out.Clearing.Add(h.lane.hand.task.Account())
}
