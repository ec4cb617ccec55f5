package model

import "netrate/sim"

// skip passes over documents that need no look: from document k on, as long as nothing is
// wrong with any. That can be where all documents take the same time, no longer than a
// cycle, and the channel is so far ahead that it waits for the place of each: then each is
// gathered in time. The document before k is gathered at the given time, the place for k is
// freed at another.
func (h *channel) skip(k sim.Cycles, before, freed sim.Seconds) bool {
	if h.steady == 0 || freed < before {
		return false
	}
	h.foresee(k)
	last := h.faultless(k, min(h.drawn, h.s.track.last))
	if last < k {
		return false
	}
	if h.even.to != k-1 {
		h.even.from = k
	}
	h.even.to = last
	h.gathered, h.sure = last, last
	h.ready[h.slot(last)] = h.evenly(last)
	return true
}

// faultless returns the last document, from k on and up to the given one, before the first
// of which it is known that something is wrong with it.
func (h *channel) faultless(k, to sim.Cycles) sim.Cycles {
	for _, d := range h.faulty[h.first:] {
		if d.number >= k {
			return min(to, d.number-1)
		}
	}
	return to
}

// manyDocuments is more than any run feeds.
const manyDocuments = 1 << 50

// foresee decides about all documents before the next one with a sheet that is not good, if
// k is not decided yet.
func (h *channel) foresee(k sim.Cycles) {
	if k <= h.drawn {
		return
	}
	pages := int64(h.Pages.(sim.Always))
	n := min(h.sheets/pages, int64(min(h.s.track.last, h.turns)-h.drawn), manyDocuments)
	h.sheets -= n * pages
	h.drawn += sim.Cycles(n)
}

// evenly returns when a document is gathered that waited for its place.
func (h *channel) evenly(k sim.Cycles) sim.Seconds {
	return h.s.clocks.Ends(k-h.window+h.at) + h.steady
}

// recall writes down when those of the documents passed over were gathered that are still
// in the buffer. The line has stopped.
func (h *channel) recall() {
	fed := h.fed()
	for k := max(h.even.from, fed+1); k <= min(h.even.to, fed+h.window); k++ {
		h.ready[h.slot(k)] = h.evenly(k)
	}
	h.even.from, h.even.to = 0, 0
}
