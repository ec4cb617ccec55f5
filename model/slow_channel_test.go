package model

import (
	"slices"

	"netrate/sim"
)

// slowDocument is what the channel makes of the sheets of one person.
type slowDocument struct {
	number  int64
	fault   slowSheet
	known   bool // a misfeed or a double that is noticed
	spoiled bool // it jammed
	botched bool // the channel stopped with it, and it was not put right
}

// slowSheet is what becomes of one sheet.
type slowSheet int

const (
	slowGoodSheet slowSheet = iota
	slowMisfedSheet
	slowDoubleSheet
	slowJammedSheet
	slowCalledSheet // a good one, taken for a double
)

// slowChannel gathers documents by the shop clock.
type slowChannel struct {
	*Channel
	index    int
	gathered []slowDocument // not yet fed, in order
	inHand   *slowDocument  // being gathered, or nil while there is no place for the next
	ready    sim.Seconds    // when that one would be gathered
	stop     *slowStop      // until an operator has cleared it; nil while it works
	since    sim.Seconds    // when it stopped
	begun    int64          // documents begun
	fed      int64          // and fed or taken out
}

// newSlowChannel returns a channel whose buffer is full of good documents.
func newSlowChannel(i int, h *Channel) *slowChannel {
	c := &slowChannel{Channel: h, index: i}
	for range h.Buffer {
		c.begun++
		c.gathered = append(c.gathered, slowDocument{number: c.begun})
	}
	return c
}

func (c *slowChannel) gathering() bool { return c.inHand != nil && c.stop == nil }

// channelMoves lets a document be gathered whose time has come, and the next one be begun
// if it may.
func (m *slowModel) channelMoves() {
	for _, c := range m.channels {
		m.channelMovesOn(c)
	}
}

func (m *slowModel) channelMovesOn(c *slowChannel) {
	if c.gathering() && m.now >= c.ready {
		if m.stopsChannel(c, c.inHand) {
			return
		}
		c.put()
	}
	if c.inHand == nil && c.fed >= c.begun-int64(c.Buffer) && (m.sets == 0 || c.begun < m.sets) {
		c.begun++
		c.inHand = &slowDocument{number: c.begun}
		sheets := c.Pages.Draw(m.times)
		for range sheets {
			m.sheet(c, c.inHand)
		}
		c.ready = m.now + sim.Seconds(float64(sheets)*3600/c.Sheets)
	}
}

// put moves the document that is gathered to where it waits.
func (c *slowChannel) put() {
	c.gathered = append(c.gathered, *c.inHand)
	c.inHand, c.stop = nil, nil
}

// sheet draws what becomes of the next sheet of a document. The first that is not good
// decides about the document.
func (m *slowModel) sheet(c *slowChannel, d *slowDocument) {
	defer m.passLot(c.index, 1)
	if d.fault != slowGoodSheet {
		return
	}
	fed := d.number + int64(m.pitch(c.index)) // the cycle
	f := m.factor(c.index, fed, c.Misfeed+c.Double+c.Jam, 0, 0)
	misfeed, double, jam := c.Misfeed*f, c.Double*f, c.Jam*f
	switch draw := m.dice.Float64(); {
	case draw < misfeed:
		d.fault, d.known = slowMisfedSheet, m.chance(c.Noticed)
	case draw < misfeed+double:
		d.fault, d.known = slowDoubleSheet, m.chance(c.Caught)
	case draw < misfeed+double+jam:
		d.fault = slowJammedSheet
	case m.chance(c.FalseCalls):
		d.fault, d.known = slowCalledSheet, true
	}
}

// stopsChannel reports whether the document stops the channel. If so an operator is called;
// when he is done the document is gathered, good or, after a jam, spoiled.
func (m *slowModel) stopsChannel(c *slowChannel, d *slowDocument) bool {
	o := &m.out.Stations[c.index]
	var cause Cause
	switch {
	case d.fault == slowJammedSheet:
		o.Faults[Jam]++
		cause = CauseJam
	case d.fault == slowMisfedSheet && d.known && c.OnMisfeed == Stop:
		o.Faults[Misfeed]++
		cause = CauseMisfeed
	case d.fault == slowDoubleSheet && d.known && c.OnDouble == Stop:
		o.Faults[Double]++
		cause = CauseDouble
	case d.fault == slowCalledSheet && c.OnDouble == Stop:
		o.FalseCalls++
		cause = CauseDouble
	default:
		return false
	}
	c.since = m.now
	c.stop = m.stopChannel(c.index, cause, slowOwnTime(c.Channel, cause, c.Clear), func() {
		a := slowAttempt{misfed: d.fault == slowMisfedSheet, doubled: d.fault == slowDoubleSheet}
		if m.botches(c.index, &a) {
			d.known, d.botched = false, true
		} else {
			*d = slowDocument{number: d.number, spoiled: d.fault == slowJammedSheet}
		}
		c.put()
	})
	if m.starving && m.head == c {
		m.total(c.stop).Count++
	}
	return true
}

// lacking counts that the line begins to starve: for a channel that has stopped, or for one that is
// too slow. One that stops in this moment does so after that.
func (m *slowModel) lacking() {
	c := m.head
	if c.stop == nil || c.since == m.now {
		m.out.Stations[c.index].Stops[CauseStarved].Count++
	}
	if c.stop != nil {
		m.total(c.stop).Count++
	}
}

// starves puts the time for which the line has starved to the account of why it does.
func (m *slowModel) starves(passed sim.Seconds) {
	switch stop := m.head.stop; {
	case stop == nil:
		m.out.Stations[m.head.index].Stops[CauseStarved].Starved += passed
	case stop.task.state == slowWorking:
		m.total(stop).Working += passed
	default:
		m.total(stop).Waiting += passed
	}
}

// channelThatLacks returns the first channel along the track that is to feed a set in the next cycle
// and has no document for it; nil if there is none.
func (m *slowModel) channelThatLacks() *slowChannel {
	for _, c := range m.channels {
		set := m.out.Cycles + 1 - int64(m.pitch(c.index))
		if set >= 1 && (m.sets == 0 || set <= m.sets) && len(c.gathered) == 0 {
			return c
		}
	}
	return nil
}

// feedDocument feeds the next document into a set, or takes it out if the pocket is empty.
func (m *slowModel) feedDocument(i int, h *Channel, set *slowSet) {
	o := &m.out.Stations[i]
	c := m.channels[slices.IndexFunc(m.channels, func(c *slowChannel) bool { return c.index == i })]
	d := c.gathered[0]
	c.gathered = c.gathered[1:]
	c.fed++
	if d.number != set.number {
		panic("slow model: a document came to another set")
	}
	if h.Hopper.Capacity > 0 {
		m.units[i].left--
	} else {
		o.Pieces.Loaded++
	}
	piece := slowPiece{number: d.number, off: m.units[i].lane.off}
	switch {
	case set.gone():
		m.takeOut(i, set, []slowPiece{piece})
	case d.spoiled:
		set.held[i] = append(set.held[i], piece)
		m.spoil(set, slowCause{i, Jam})
	default:
		o.Attempts++
		if piece.off != 0 {
			set.blame(m.units[i].lane.origin)
		}
		piece.mixed = m.document(i, h, set, d)
		set.held[i] = append(set.held[i], piece)
	}
}

// document does what the rules say of a lane when a document comes to a set, and returns
// whether it has a sheet missing or too many.
func (m *slowModel) document(i int, h *Channel, set *slowSet, d slowDocument) bool {
	lane := m.units[i].lane
	inStep, second, caught := lane.off == 0, m.second(i), lane.recovering
	if caught {
		set.blame(lane.origin)
		m.condemn(set, lane.response)
		lane.off = 0
	}
	a := m.documentAttempt(i, d)
	response := h.OnDouble
	if a.misfed {
		response = h.OnMisfeed
	}
	if !caught && a.known && second { // put right
		m.faultStop(i, slowStopCause(a), faultWork(h.Stream, h.Clear)).second = true
		if !m.botches(i, &a) {
			return false
		}
	}
	switch {
	case a.misfed:
		lane.off--
	case a.doubled:
		lane.off++
	}
	switch {
	case caught && a.known:
		m.secondTry(i, a, h.Stream, h.Clear)
	case caught:
		m.recovered(lane)
	default:
		m.faulty(i, a, set, inStep, response)
	}
	if lane.recovering && lane.off == 0 {
		m.recovered(lane)
	}
	return a.misfed || a.doubled
}

// documentAttempt returns the fault of a document as an attempt of the lane, and counts it.
func (m *slowModel) documentAttempt(i int, d slowDocument) slowAttempt {
	o := &m.out.Stations[i]
	a := slowAttempt{
		misfed: d.fault == slowMisfedSheet, doubled: d.fault == slowDoubleSheet, known: d.known, botched: d.botched,
	}
	switch {
	case d.botched: // it was counted when the channel stopped
	case a.misfed:
		o.Faults[Misfeed]++
		if !a.known {
			o.Unnoticed++
		}
	case a.doubled:
		o.Faults[Double]++
		if !a.known {
			o.Missed++
		}
	case a.known:
		o.FalseCalls++
	}
	return a
}
