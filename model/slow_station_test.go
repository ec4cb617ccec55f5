package model

import (
	"fmt"
	"math"

	"netrate/sim"
)

// chance reports true with probability p.
func (m *slowModel) chance(p float64) bool { return m.dice.Float64() < p }

// slowStock returns a station as it is at the start of a shift: its hopper full, its
// bin or belt empty.
func slowStock(s Station) slowUnit {
	switch s := s.(type) {
	case *Feeder:
		return slowUnit{stock: s.Hopper, left: s.Hopper.Capacity, hopper: true, share: s.Share}
	case *Channel:
		return slowUnit{stock: s.Hopper, left: s.Hopper.Capacity, hopper: s.Hopper.Capacity > 0, share: 1}
	case *Inserter:
		return slowUnit{stock: s.Hopper, left: s.Hopper.Capacity, hopper: s.Hopper.Capacity > 0, share: 1}
	case *TrackGate:
		return slowUnit{stock: s.Bin, left: s.Bin.Capacity, share: 1}
	case *ExitGate:
		return slowUnit{stock: s.Bin, left: s.Bin.Capacity, share: 1}
	case *Delivery:
		return slowUnit{stock: s.Belt, left: s.Belt.Capacity, share: 1}
	case *Reader:
		return slowUnit{}
	case *Device:
		return slowUnit{stock: s.Stock, left: s.Stock.Capacity, hopper: s.Stock.Capacity > 0, share: 1}
	}
	panic(fmt.Sprintf("slow model: a station of type %T", s))
}

// handle lets station i do its work on the pocket in front of it. An empty pocket is
// no work but for a lane, and readers read later.
func (m *slowModel) handle(i int, s Station, set *slowSet) {
	if lane := m.units[i].lane; lane != nil {
		m.lane(i, lane, set)
		return
	}
	if set.gone() {
		return
	}
	switch s := s.(type) {
	case *Feeder:
		if set.isFor(s) && !set.condemned() && m.chance(s.Share) {
			m.feeder(i, s, set)
		}
	case *Device:
		if set.isFor(s) && !set.condemned() {
			m.device(i, s, set)
		}
	case *Inserter:
		m.inserter(i, s, set)
	case *TrackGate:
		if set.divert {
			m.remove(i, set, slowDiverted)
		}
	case *ExitGate:
		if set.outsort {
			m.remove(i, set, slowOutsorted)
		}
	case *Delivery:
		m.deliver(i, set)
	}
}

// slowAttempt is what one attempt of a feeder came to: one of the three faults, or a good
// feed.
type slowAttempt struct {
	misfed, doubled, jammed bool
	known                   bool  // the misfeed or the double is noticed, or a good feed called a double
	row                     bool  // enough misfeeds in a row to stop the line
	botched                 bool  // an operator was to put it right, and left it as it was
	pieces                  int64 // that came
}

// fault returns what the feeder takes the attempt for, if it takes it for a fault.
func (a slowAttempt) fault() Fault {
	if a.botched {
		return WrongRepair
	}
	if a.misfed {
		return Misfeed
	}
	return Double
}

// attempt has a feeder try to feed the given number of pieces, and counts what comes of
// it. A double brings one more, if the hopper of the feeder holds it.
func (m *slowModel) attempt(i int, f *Feeder, pieces int64) slowAttempt {
	unit, o := &m.units[i], &m.out.Stations[i]
	o.Attempts++
	factor := slowGrowth(m.speedNow(), f.Rated, f.Growth) * f.Material
	factor *= m.factor(i, m.out.Cycles, (f.Misfeed+f.Double+f.Jam)*factor, (f.Double+f.Jam)*factor, f.Streak.Again)
	misfeed, double, jam := f.Misfeed*factor, f.Double*factor, f.Jam*factor
	if f.Streak.Given && unit.row > 0 {
		misfeed = f.Streak.Again
	}
	draw := m.dice.Float64()
	if draw < misfeed {
		o.Faults[Misfeed]++
		unit.row++
		a := slowAttempt{misfed: true, known: m.chance(f.Noticed)}
		a.row = a.known && f.Streak.StopAfter > 0 && unit.row >= f.Streak.StopAfter
		if !a.known {
			o.Unnoticed++
		}
		return a
	}
	unit.row = 0
	a := slowAttempt{pieces: pieces}
	switch {
	case draw < misfeed+double && unit.left == pieces: // the last pieces cannot come with one more
	case draw < misfeed+double:
		o.Faults[Double]++
		a.doubled, a.pieces, a.known = true, pieces+1, m.chance(f.Caught)
		if !a.known {
			o.Missed++
		}
	case draw < misfeed+double+jam:
		o.Faults[Jam]++
		a.jammed, a.pieces = true, 1
	case m.chance(f.FalseCalls):
		o.FalseCalls++
		a.known = true
	}
	return a
}

// feeder feeds a set that is to have a plain insert.
func (m *slowModel) feeder(i int, f *Feeder, set *slowSet) {
	set.due[i] = true
	a := m.attempt(i, f, 1)
	if m.units[i].alien && !a.misfed {
		set.blame(slowCause{i, WrongStock})
	}
	defer func() {
		if m.units[i].alien && set.pieces[i] > 0 {
			set.blame(slowCause{i, WrongStock})
			set.alien[i] = true
		}
	}()
	response := f.OnDouble
	if a.misfed {
		response = f.OnMisfeed
	}
	switch {
	case a.jammed:
		m.take(i, set, 1)
		m.spoil(set, slowCause{i, Jam})
		m.faultStop(i, CauseJam, f.Clear)
	case a.known && (response == Stop || a.row):
		m.faultStop(i, slowStopCause(a), f.Clear)
		if m.botches(i, &a) {
			m.take(i, set, a.pieces)
			set.blame(slowCause{i, WrongRepair})
			return
		}
		m.take(i, set, 1) // put right: of two, one goes back
	default:
		m.take(i, set, a.pieces)
		if a.misfed || a.doubled || a.known && response != Ship {
			set.blame(slowCause{i, a.fault()})
		}
		if a.known && response != Ship {
			m.condemn(set, response)
		}
	}
}

// slowStopCause returns the cause of the stop for a misfeed or for what is taken for a
// double.
func slowStopCause(a slowAttempt) Cause {
	switch {
	case a.row:
		return CauseStreak
	case a.misfed:
		return CauseMisfeed
	}
	return CauseDouble
}

// inserter puts a set into an envelope, its own or, personalised, that of the set. One
// that is to leave at a track gate is not its work.
func (m *slowModel) inserter(i int, in *Inserter, set *slowSet) {
	if set.divert {
		return
	}
	o := &m.out.Stations[i]
	o.Attempts++
	set.inserted = true
	if m.units[i].hopper {
		m.take(i, set, 1) // in each of the outcomes, by the machine or by hand
	}
	if m.units[i].alien {
		set.alien[i] = true
		set.blame(slowCause{i, WrongStock})
	}
	factor := slowGrowth(m.speedNow(), in.Rated, in.Growth)
	factor *= m.factor(i, m.out.Cycles, (in.EnvelopeMisfeed+in.Flap+in.Jam)*factor, 0, 0)
	misfeed, flap, jam := in.EnvelopeMisfeed*factor, in.Flap*factor, in.Jam*factor
	draw := m.dice.Float64()
	switch {
	case draw < misfeed:
		o.Faults[EnvelopeMisfeed]++
		m.faultStop(i, CauseEnvelopeMisfeed, in.Clear)
	case draw < misfeed+flap:
		o.Faults[Flap]++
		if in.OnFlap == Stop {
			m.faultStop(i, CauseFlap, in.Clear)
		} else {
			set.blame(slowCause{i, Flap})
			m.condemn(set, in.OnFlap)
		}
	case draw < misfeed+flap+jam:
		o.Faults[InsertionJam]++
		m.spoil(set, slowCause{i, InsertionJam})
		m.faultStop(i, CauseInsertionJam, in.Clear)
	}
}

// device does its one thing to a set.
func (m *slowModel) device(i int, d *Device, set *slowSet) {
	o := &m.out.Stations[i]
	o.Attempts++
	take := func() {
		if m.units[i].hopper {
			m.take(i, set, 1)
		}
	}
	factor := slowGrowth(m.speedNow(), d.Rated, d.Growth)
	factor *= m.factor(i, m.out.Cycles, (d.Misfeed+d.Jam)*factor, 0, 0)
	switch draw := m.dice.Float64(); {
	case draw < d.Misfeed*factor:
		o.Faults[Misfeed]++
		noticed := m.chance(d.Noticed)
		if !noticed {
			o.Unnoticed++
		}
		switch {
		case noticed && d.OnMisfeed == Stop:
			take()
			m.faultStop(i, CauseMisfeed, d.Clear)
		case noticed && d.OnMisfeed != Ship:
			set.blame(slowCause{i, Misfeed})
			m.condemn(set, d.OnMisfeed)
		default:
			set.blame(slowCause{i, Misfeed})
			set.undone = true
		}
	case draw < (d.Misfeed+d.Jam)*factor:
		o.Faults[Jam]++
		take()
		m.spoil(set, slowCause{i, Jam})
		m.faultStop(i, CauseJam, d.Clear)
	default:
		take()
	}
}

// deliver puts whatever arrives onto the belt.
func (m *slowModel) deliver(i int, set *slowSet) {
	if set.condemned() {
		panic("slow model: a condemned set came to the delivery")
	}
	fate := slowDefective
	m.row++
	if m.good(set) {
		fate, m.row = slowGood, 0
	}
	m.remove(i, set, fate)
	if m.row == 1 {
		m.out.Stations[set.lostTo.station].Runs[set.lostTo.fault]++
	}
	m.out.LongestRun = max(m.out.LongestRun, m.row)
	if m.watch != nil {
		m.watch(set)
	}
}

// slowGrowth returns what the speed multiplies fault probabilities by.
func slowGrowth(speed, rated, growth float64) float64 {
	if rated == 0 {
		return 1 // without a rated speed there is nothing to compare with
	}
	return math.Pow(speed/rated, growth)
}

// take moves pieces from the hopper of station i into a set.
func (m *slowModel) take(i int, set *slowSet, pieces int64) {
	m.units[i].left -= pieces
	set.pieces[i] += pieces
	if m.units[i].left < 0 {
		panic(fmt.Sprintf("slow model: station %d took a piece from an empty hopper", i))
	}
}

// remove takes a set out at station i, where it needs a place in the bin or on the belt.
func (m *slowModel) remove(i int, set *slowSet, fate slowFate) {
	m.out.Stations[i].Removed++
	if m.units[i].stock.Capacity > 0 {
		m.units[i].left--
	}
	m.leave(set, fate)
}

// faultWork returns the time of an operator's work at a stop for a misfeed or a double.
func faultWork(s Stream, otherwise sim.Duration) sim.Duration {
	if s.Realign != nil {
		return s.Realign
	}
	return otherwise
}
