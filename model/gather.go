package model

import (
	"math"

	"netrate/sim"
)

// ahead is how many documents the channel looks ahead at a time: what it sees is forgotten
// when the line stops. The pages of that many are drawn at a time.
const (
	ahead = 256
	block = 128
)

// channel is a document channel in use. When each document is gathered depends only on
// when the track takes those before it, and while the line runs that is known. So the
// channel computes the times of many documents in one go, and looks again when the line
// has stopped and what it had taken for granted has not come to pass.
//
// Document k goes into set k. In cycle c document c-at is fed.
type channel struct {
	*Channel
	s      *Sim
	index  int
	at     sim.Cycles
	sheet  sim.Seconds   // time of one
	window sim.Cycles    // document k is begun once document k-window is fed
	gap    sim.Gap       // sheets from one that is not good to the next
	odds   feedingOdds   // of a sheet
	ready  []sim.Seconds // when each document is gathered, by its number modulo the length
	pages  []int64       // of each, likewise
	steady sim.Seconds   // how long each takes, if that is the same for all and no longer than a cycle; else 0
	random struct{ pages, gaps, kinds, noticed, caught *sim.Stream }
	lane   *lane
	human  *mender // who clears it
	stock  stock
	lots   *openLot   // of sheets, up to the last fault or end of a lot drawn; nil for none
	most   float64    // no factor on its rates is higher
	turns  sim.Cycles // the last document with the odds of now
	day    float64    // its factor
	ends   bool       // after the good sheets yet to come the next lot begins
	dry    stop       // while the line starves: for the fault for which the channel has stopped, or for one too slow

	paged    sim.Cycles                    // documents of which the pages are drawn
	drawn    sim.Cycles                    // documents of which it is known what will be
	gathered sim.Cycles                    // documents of which it is known when
	sure     sim.Cycles                    // documents that are gathered in time, if the line runs on
	even     struct{ from, to sim.Cycles } // documents in a row that are all gathered as their place is freed; to is 0 for none
	sheets   int64                         // good ones yet to come before one that is not
	faulty   []document                    // drawn and not yet fed, in order; those before first are done with
	first    int
	stopped  sim.Cycles // the document at which the channel has stopped, or is about to; or 0

	halt *sim.Alarm // when it stops
	full *sim.Alarm // when the line starves no longer
	low  *sim.Slot  // when the line is about to starve, or it is time to look ahead
	next *sim.Slot  // when the next document is fed that is not like all others
	task *sim.Task  // to clear it

	unfed int64           // documents spoiled in the channel
	out   *StationOutcome // what is counted as it happens
}

// document is a document with a sheet that is not good.
type document struct {
	number sim.Cycles
	sheet  feeding
	known  bool // noticed, caught or called
	stops  bool // the channel stops with it

	botched bool // an operator was to put it right, and left it as it was
}

// Install returns the channel in use.
func (h *Channel) Install(seat *Seat) Unit {
	s, index := seat.s, seat.index
	size := 1
	for size < ahead+block+2*(h.Buffer+2) {
		size *= 2
	}
	u := &channel{
		Channel: h, s: s, index: index, at: s.track.at[index],
		sheet: sim.Seconds(3600 / h.Sheets), window: sim.Cycles(h.Buffer + 1), odds: h.sheetOdds(),
		ready: make([]sim.Seconds, size), pages: make([]int64, size),
		dry: stop{station: index},
	}
	if pages, ok := h.Pages.(sim.Always); ok && sim.Seconds(pages)*u.sheet <= s.cycle {
		u.steady = sim.Seconds(pages) * u.sheet
		pages.Fill(nil, u.pages)
	}
	u.gap, u.most = sim.NewGap(min(1, u.odds[calledFalsely])), capOf(u.odds[fedJam], 0, 0)
	u.lots = s.newLot(index, &h.Lots)
	u.random.pages, u.random.gaps = s.stream(h.Name, "pages"), s.stream(h.Name, "gaps")
	u.random.kinds, u.random.caught = s.stream(h.Name, "kinds"), s.stream(h.Name, "caught")
	u.random.noticed = s.stream(h.Name, "noticed")
	u.halt, u.full = s.clocks.Shop.Timer(u.stop), s.clocks.Shop.Timer(s.standstill.gathered)
	u.low, u.next = s.clocks.Track.Timer(func() {}), s.clocks.Track.Timer(u.feed)
	u.task = s.timed(index, ClearFault, func() sim.Duration { return h.Clearings.Of(u.fault(), usually(h.Clear)) }, u.cleared)
	u.dry.task = u.task
	u.human = s.mender(index)
	u.lane = newLane(s, index, h.Stream, h.realigning(), &h.Clearings, func(int64) {})
	u.stock.install(s, index, h.Hopper, 1, u)
	u.stock.before = u.next
	s.track.feeds(index, nil)
	s.channels = append(s.channels, u)
	return u
}

// sheetOdds returns the probabilities of what a sheet comes to.
func (h *Channel) sheetOdds() feedingOdds { return h.sheetOddsTimes(1) }

// sheetOddsTimes returns them times a factor.
func (h *Channel) sheetOddsTimes(factor float64) feedingOdds {
	f := Feeder{Misfeed: h.Misfeed, Double: h.Double, Jam: h.Jam, FalseCalls: h.FalseCalls, Material: 1}
	return f.oddsTimes(factor, false)
}

func (h *channel) Begin() {
	h.drawn, h.gathered, h.sure = sim.Cycles(h.Buffer), sim.Cycles(h.Buffer), 0
	if h.paged = h.drawn; h.steady > 0 {
		h.paged = manyDocuments
	}
	for k := range h.ready {
		h.ready[k] = h.s.begun
	}
	h.even.from, h.even.to = 0, 0
	h.faulty, h.first, h.stopped, h.unfed = h.faulty[:0], 0, 0, 0
	h.out = &h.s.out.Stations[h.index]
	h.beginSheets()
	h.stock.begin()
}

// fed returns how many documents the track has taken.
func (h *channel) fed() sim.Cycles { return max(0, h.s.clocks.Cycle()-h.at) }

// used returns the documents taken out of the stock.
func (h *channel) used(cycle sim.Cycles) int64 { return h.s.track.handled(h.index, cycle) }

// slot returns where the times of a document are kept.
func (h *channel) slot(k sim.Cycles) int { return int(k) & (len(h.ready) - 1) }

// isReady reports whether the document for the next cycle is gathered.
func (h *channel) isReady() bool {
	k := h.s.clocks.Cycle() + 1 - h.at
	return k < 1 || k > h.s.track.last || k <= h.even.to ||
		k <= h.gathered && h.ready[h.slot(k)] <= h.s.clocks.Shop.Now()
}

// look computes when the next documents are gathered: as far as the line runs, if it does,
// until it would starve, the channel stops, or it is far enough for now.
func (h *channel) look() {
	c, running := &h.s.clocks, h.s.clocks.Running()
	now, fed := c.Cycle(), h.fed()
	for !running || h.inTime(now) {
		k := h.gathered + 1
		taken := k - h.window + h.at // the cycle in which its place is freed
		begun := h.ready[h.slot(k-1)]
		switch {
		case h.stopped != 0 || k > h.s.track.last || !running && k > fed+h.window:
			return
		case k > fed+h.window+ahead:
			h.low.Set(taken - 1)
			return
		case k > h.window && taken > now:
			if running && (h.skip(k, begun, c.Ends(taken)) || h.glide(k, begun)) {
				continue
			}
			begun = max(begun, c.Ends(taken))
		}
		h.draw(k)
		h.gathered = k
		h.ready[h.slot(k)] = begun + sim.Seconds(sim.Seconds(h.pages[h.slot(k)])*h.sheet)
		if h.stops(k) {
			h.stopped = k
			h.halt.Set(max(h.ready[h.slot(k)], c.Shop.Now()))
			h.ready[h.slot(k)] = sim.Seconds(math.Inf(1))
		}
	}
}

// inTime reports whether all documents gathered, as far as is known, are gathered in time
// for a line that runs on. If not it sets the timer for when the line is about to starve.
func (h *channel) inTime(now sim.Cycles) bool {
	for h.sure < h.gathered {
		k := h.sure + 1
		if before := k - 1 + h.at; before > now && h.ready[h.slot(k)] > h.s.clocks.Ends(before) {
			h.low.Set(before)
			return false
		}
		h.sure = k
	}
	return true
}

// inStep reports whether the document for the next cycle is there, while the line runs, and looks
// ahead if it is time to.
func (h *channel) inStep() bool {
	if at, waiting := h.low.At(); waiting && at > h.s.clocks.Track.Now() {
		return true
	}
	if !h.isReady() {
		return false
	}
	h.look()
	return true
}

// stands forgets what was computed for a line that runs on: it has stopped.
func (h *channel) stands() {
	h.forget()
	h.look()
	h.wake()
}

// forget takes back what was computed of documents to come, for a line that runs on as it did.
func (h *channel) forget() {
	h.recall()
	h.sure = h.fed()
	if last := h.fed() + h.window; h.gathered > last {
		h.gathered = last
		if h.stopped > last {
			h.stopped = 0
			h.halt.Stop()
		}
	}
	h.low.Stop()
}

// wake sets the time at which a line that starves runs again, if it is known.
func (h *channel) wake() {
	if h.s.standstill.starving == nil {
		return
	}
	k := h.fed() + 1
	if at := h.ready[h.slot(k)]; k <= h.gathered && !math.IsInf(float64(at), 1) {
		h.full.Set(max(at, h.s.clocks.Shop.Now()))
	}
}
