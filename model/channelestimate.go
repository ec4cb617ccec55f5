package model

import (
	"netrate/sim"
	"netrate/sim/portable"
)

// document returns how long a document takes to gather, in the mean.
func (h *Channel) document() sim.Seconds { return sim.Seconds(h.Pages.Mean() * 3600 / h.Sheets) }

// faults returns the probabilities that the first sheet of a document that is not good is a
// misfeed, a double, a jam, or called falsely. A document is taken to have the mean number of
// sheets: how they vary matters only where two of one document are not good.
func (h *Channel) faults() (misfeed, double, jam, falseCall float64) {
	falseCall = float64((1 - h.Misfeed - h.Double - h.Jam) * h.FalseCalls)
	bad := h.Misfeed + h.Double + h.Jam + falseCall
	if bad == 0 {
		return 0, 0, 0, 0
	}
	each := -portable.Expm1(h.Pages.Mean()*portable.Log1p(-min(1, bad))) / bad
	return h.Misfeed * each, h.Double * each, h.Jam * each, falseCall * each
}

// buffered returns how long a full buffer of documents takes to gather, in the mean.
func (h *Channel) buffered() sim.Seconds { return sim.Seconds(h.Buffer) * h.document() }

// Estimate takes a channel that stops to have had a full buffer, if it is the faster one.
func (h *Channel) Estimate(l *Line) AnalyticTerm {
	i, cycle := l.index(h), sim.Seconds(3600/l.RunSpeed())
	misfeed, double, jam, falseCall := h.faults()
	// A channel that stops has a full buffer, if it is the faster one: the line stands once
	// that is used up, and runs as soon as the document is there, without a restart delay.
	cover := sim.Seconds(0)
	if h.document() < cycle {
		cover = sim.Seconds(sim.Seconds(h.Buffer)*cycle) - h.document()
	}
	down := func(f Fault) sim.Seconds {
		return max(0, l.Crew.Walk.Mean()+h.Clearings.Of(f, usually(h.Clear)).Mean()-cover)
	}
	var t term
	t.Starved = max(0, h.document()-cycle)
	t.Stop(jam, down(Jam))
	t.Lost = jam
	t.fault = down(Misfeed)
	t.answer(misfeed*h.Noticed, h.OnMisfeed, 2, 0)
	t.fault = down(Double)
	t.answer(double*h.Caught, h.OnDouble, 2, 0)
	t.answer(falseCall, h.OnDouble, 1, 0)
	l.goOn(i, &t)
	return t.AnalyticTerm
}
