package model

import (
	"netrate/sim"
	"netrate/sim/portable"
)

// Analytic is the sum an engineer does on paper: it takes every stop for a fault at its mean,
// one after the other, with an operator who sets off at once. What it leaves out is what
// the simulation adds: waiting for an operator or a technician who is busy, or on a break, or not there at that hour, stocks
// used up, stops that overlap, a second fault within one recovery, and the chance of it all. Of lots and
// days it takes the means, of a drift that over the running time: a bad day costs a little less than
// as good a one brings, as there are fewer cycles in it that can fail.
//
// Source: the line without buffers, E = 1 / (1 + Σ MTTR/MTBF) with MTBF in running time;
// Buzacott, Int. J. Prod. Res. 5 (1967) 183–200; Groover, Automation, Production Systems,
// and Computer-Integrated Manufacturing, Example 16A.2 (both citations from memory).
type Analytic struct {
	Speed      float64 // cycles an hour
	Efficiency float64 // running time over all time
	Good       float64 // share of the sets that are delivered good
	NetRate    float64 // good envelopes an hour: the product of the three
	Defective  float64 // share of the sets delivered that are defective
	Remakes    float64 // remakes for each set; 0 without personalised pieces
	Terms      []AnalyticTerm
}

// AnalyticTerm is one station's part in the sum. What follows a misfeed or a double that its
// lane did not notice is in the term of the reader whose alarm ends it.
type AnalyticTerm struct {
	Station string
	Reach   float64     // share of the sets that it handles
	Stops   float64     // stops for a fault in each set it handles
	Down    sim.Seconds // mean length of one: walk, clearing and restart
	Broken  sim.Seconds // that it is broken down for each cycle: until a technician has come and repaired it, and the line restarts
	Starved sim.Seconds // that the line waits in each cycle for a document, in the mean
	Lost    float64     // sets condemned or spoiled for each one it handles
	Flawed  float64     // sets that go on, defective, for each one it handles
	Remakes float64     // remakes for each set it handles
}

// Analytic returns the sum done on paper for the line, which must have passed Check.
func (l *Line) Analytic() Analytic {
	if len(l.Days.Drift) > 0 || l.Days.Level > 0 {
		without := *l
		without.Days = Days{}
		l = l.atMeanDrift(without.Analytic().Efficiency)
	}
	h := Analytic{Speed: l.RunSpeed(), Good: 1}
	perCycle, reach := 0.0, 1.0 // seconds stopped in each cycle; share of the sets that come this far
	// Of the shares of sets that are not defective, and not to be made again, the
	// logarithms: 1 less one in 10¹⁵ would be 1.
	right, kept := 0.0, 0.0
	for i := range l.Stations {
		t := l.term(i)
		t.Reach = reach
		perCycle += float64(reach*t.Stops*float64(t.Down)) + float64(t.Broken)
		reach *= max(0, 1-t.Lost)
		h.Good *= max(0, 1-t.Lost-t.Flawed)
		right += logLeft(t.Flawed, 1-t.Lost)
		kept += logLeft(t.Remakes, 1)
		h.Terms = append(h.Terms, t)
	}
	h.Efficiency = 1 / (1 + (perCycle+float64(l.starved(h.Terms)))*h.Speed/3600)
	h.NetRate = h.Speed * h.Efficiency * h.Good
	h.Defective, h.Remakes = 0-portable.Expm1(right), 0-portable.Expm1(kept) // 0, not -0
	return h
}

// term returns the term of station i, but for its reach.
func (l *Line) term(i int) AnalyticTerm {
	t := l.Stations[i].Estimate(l)
	t.Station = l.Stations[i].Where().Name
	if b := l.Stations[i].Downtime(); b.Every > 0 {
		t.Broken = sim.Seconds(b.chance(l.RunSpeed())) * (b.Comes.Mean() + b.Repair.Mean() + l.Restart.Mean())
	}
	if l.Personalised() {
		t.Remakes += t.Lost + t.Flawed
	}
	return t
}

// logLeft returns the logarithm of what is left of a whole without a part of it, as a share.
func logLeft(part, whole float64) float64 {
	if part == 0 {
		return 0
	}
	return portable.Log1p(-min(1, part/max(whole, part)))
}

// Down returns the mean length of a stop with the given clearing time: walk, clearing and
// restart, and what the slow cycles after every start take beyond others.
func (l *Line) Down(clear sim.Duration) sim.Seconds {
	return l.Crew.Walk.Mean() + clear.Mean() + l.Restart.Mean() + l.Starts()
}

// Stop adds stops of a mean length, p for each set.
func (t *AnalyticTerm) Stop(p float64, down sim.Seconds) {
	if p == 0 {
		return
	}
	total := t.Stops + float64(p)
	t.Down = (sim.Seconds(t.Down*sim.Seconds(t.Stops)) + sim.Seconds(down*sim.Seconds(p))) / sim.Seconds(total)
	t.Stops = total
}

// Answer adds faults that are known, p for each set, with the mean length of a stop for
// one. Those that are shipped are leaks: see [Leaking].
func (t *AnalyticTerm) Answer(p float64, r Response, down sim.Seconds) {
	whole := term{AnalyticTerm: *t, fault: down}
	whole.answer(p, r, 1, 0)
	*t = whole.AnalyticTerm
}
