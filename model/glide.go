package model

import (
	"math"

	"netrate/sim"
)

// glide computes when documents are gathered, from k on, while the line runs and nothing is
// wrong with any: what look does of one document, for a block of them. The document before k
// is gathered at the given time. It is the innermost loop of a line with a channel, so it
// keeps what it needs at hand and has no branch that is hard to foresee. It reports whether
// it went on at all.
func (h *channel) glide(k sim.Cycles, before sim.Seconds) bool {
	to := min(h.s.track.last, h.fed()+h.window+ahead, k+block-1)
	sheets := int64(math.MaxInt64)
	if k <= h.drawn {
		to = h.faultless(k, min(to, h.drawn))
	} else {
		h.leaf(k)
		to, sheets = min(to, h.paged, h.turns), h.sheets
	}
	first, left, late := k, sheets, sim.Cycles(0)
	pace, sheet, slack := h.s.clocks.Pace(), h.sheet, h.window-1
	pages, ready, mask := h.pages, h.ready[:len(h.pages)], len(h.pages)-1
	for place := k - h.window + h.at; k <= to; k, place = k+1, place+1 {
		n := pages[int(k)&mask]
		if left -= n; left < 0 {
			left += n
			break
		}
		before = later(before, pace.Ends(place)) + sim.Seconds(sim.Seconds(n)*sheet)
		ready[int(k)&mask] = before
		if before > pace.Ends(place+slack) {
			k, late = k+1, 1 // the line will starve
			break
		}
	}
	h.gathered, h.sure = k-1, k-1-late
	if h.gathered > h.drawn {
		h.drawn, h.sheets = h.gathered, left
	}
	return k > first
}

// later returns the later of two times, neither below 0: whole numbers of the same bits are
// in the same order, and of those the processor takes the larger without a branch.
func later(a, b sim.Seconds) sim.Seconds {
	return sim.Seconds(math.Float64frombits(uint64(max(
		int64(math.Float64bits(float64(a))), int64(math.Float64bits(float64(b)))))))
}
