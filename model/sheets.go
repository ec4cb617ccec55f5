package model

import (
	"math"

	"netrate/sim"
)

// beginSheets draws when a sheet is next not good, at the start of a replication.
func (h *channel) beginSheets() {
	h.turns, h.ends = manyDocuments, false
	if h.lots != nil {
		h.lots.begin(h.s.keeps())
	}
	if h.s.days != nil { // the odds are those of the day of the first document
		h.turns, h.ends, h.sheets = h.drawn, true, 0
		return
	}
	h.rates(1)
	h.nextSheets(0)
}

// rates gives the channel the odds of the open lot and of a day.
func (h *channel) rates(day float64) {
	if h.lots == nil && h.s.days == nil {
		return
	}
	h.day = day
	if h.lots != nil {
		day *= h.lots.factor
	}
	h.odds = h.sheetOddsTimes(min(day, h.most))
	h.gap = sim.NewGap(min(1, h.odds[calledFalsely]))
}

// turn takes the day, or the step of its drift, in which document k is fed.
func (h *channel) turn(k sim.Cycles) {
	day, last := h.s.days.at(k + h.at)
	h.turns = min(last-h.at, manyDocuments)
	if h.lots != nil {
		h.lots.left += h.sheets
		if !h.ends {
			h.lots.left++
		}
	}
	h.rates(day)
	h.drawSheets()
}

// drawSheets draws how many good sheets come before one that is not, or before the next lot.
func (h *channel) drawSheets() {
	gap := int64(math.MaxInt64)
	if h.odds[calledFalsely] > 0 {
		gap = h.gap.Draw(h.random.gaps)
	}
	switch {
	case h.lots == nil:
		h.sheets, h.ends = gap-1, false
	case gap <= h.lots.left:
		h.sheets, h.ends = gap-1, false
		h.lots.left -= gap
	default:
		h.sheets, h.ends = h.lots.left, true
		h.lots.left = 0
	}
}

// passSheets passes over the sheets of a document. It returns how many of them are left at the
// first that is not good, that one included; 0 if all are.
func (h *channel) passSheets(n int64) (rest int64) {
	for h.sheets < n {
		n -= h.sheets
		if h.sheets = 0; !h.ends {
			return n
		}
		h.lots.pass(0)
		h.rates(h.day)
		h.drawSheets()
	}
	h.sheets -= n
	return 0
}

// nextSheets passes over the rest of the sheets of a document with one that is not good, which
// come as they should, and draws when one is next not good.
func (h *channel) nextSheets(rest int64) {
	if h.lots != nil {
		h.lots.left -= rest
		if h.lots.left <= 0 {
			h.lots.pass(0)
			h.rates(h.day)
		}
	}
	h.drawSheets()
}

// closeSheets notes what is left of the lot at the end of a pass.
func (h *channel) closeSheets() {
	if h.lots == nil {
		return
	}
	h.lots.kept = h.lots.left + h.sheets
	if !h.ends {
		h.lots.kept++
	}
}
