package model

import "netrate/sim"

// stock is a stock in use. Its level is not followed piece by piece: it is known at any
// cycle from what was filled and what was used, and looked at when it can first have
// fallen to the warning or to nothing.
type stock struct {
	s       *Sim
	spec    Stock
	extra   int64 // pieces used beyond one for each set that the station handles
	user    user  // says how many are used where that is not all; else nil
	only    *holders
	opening int64     // pieces or places when a replication begins
	before  *sim.Slot // what the station does first of what is due in one cycle; nil for nothing
	share   float64   // of the sets that use one
	told    bool      // look is called whenever one is used: there is nothing to wait for
	filled  int64     // pieces or places there ever were
	timer   *sim.Slot
	task    *sim.Task
	empty   stop

	brought func() // told when an operator has brought something; nil for nobody
}

// user is what uses up a stock in its own way.
type user interface {
	// used returns the pieces or places used by the end of the cycle.
	used(cycle sim.Cycles) int64
}

// install makes the stock part of a line; share is how much of it a cycle uses in the mean. The user
// is nil where each set takes one piece or place.
func (k *stock) install(s *Sim, station int, spec Stock, share float64, user user) {
	k.s, k.spec, k.share, k.user, k.only = s, spec, share, user, s.track.only(station)
	k.timer = s.clocks.Track.Timer(k.due)
	k.task = s.task(station, FillStock, spec.Work, k.fill)
	k.empty = stop{station: station, task: k.task}
	k.opening = s.line.opening(station, spec)
	s.stocks = append(s.stocks, k)
	if user == nil && spec.Capacity > 0 {
		k.timer.Together(station)
	}
}

func (k *stock) begin() { k.beginWith(k.opening) }

// beginWith makes the stock begin with so many pieces or places.
func (k *stock) beginWith(left int64) {
	k.filled, k.extra = left, 0
	if k.wait(0, left); k.spec.Capacity > 0 && left <= k.spec.Warn {
		k.timer.Set(1)
	}
}

// left returns what is left at the end of the cycle.
func (k *stock) left(cycle sim.Cycles) int64 { return k.filled - k.used(cycle) }

// used returns the pieces or places used by the end of the cycle.
func (k *stock) used(cycle sim.Cycles) int64 {
	if k.user != nil {
		return k.user.used(cycle)
	}
	return k.s.track.done(k.empty.station, k.only, cycle) + k.extra
}

// uses notes so many pieces more than the one of the set that is here, or fewer if more is below 0: so
// much sooner, or later, the stock can first have fallen as far as it matters.
func (k *stock) uses(more int64) {
	k.extra += more
	switch after := k.s.clocks.Track.Now() + sim.Cycles(max(1, more)); {
	case more == 0:
	case k.user == nil && k.timer.PutOff(sim.Cycles(-more), after):
	case more > 0:
		k.look()
	}
}

// close returns what is left at the end of a pass, and tells of it.
func (k *stock) close(cycle sim.Cycles) int64 {
	left := k.left(cycle)
	if k.spec.Capacity > 0 {
		k.s.observeNumber(StockLevel, k.empty.station, left)
	}
	return left
}

func (k *stock) due() {
	if k.before != nil && k.s.due(k.before) {
		k.timer.Set(k.s.clocks.Track.Now()) // again, behind what is due there
		return
	}
	k.look()
}

// look calls an operator or stops the line if it is time, and otherwise sets the timer
// for when it can next be.
func (k *stock) look() {
	if k.spec.Capacity == 0 {
		return
	}
	now := k.s.clocks.Track.Now()
	left := k.left(now)
	k.s.observeNumber(StockLevel, k.empty.station, left)
	if left <= k.spec.Warn {
		k.low(now, left)
	}
	k.wait(now, left)
}

// low calls an operator for a stock that has fallen to its warning, and stops the line if nothing is left.
func (k *stock) low(now sim.Cycles, left int64) {
	inTurn := k.s.line.Crew.Exhausted == InTurn
	if (left > 0 || inTurn) && k.task.Idle() {
		k.task.Call(stocks, k.urgency(now, left))
	}
	if left <= 0 && !k.empty.open {
		k.s.standstill.arise(&k.empty, CauseStock)
	}
}

// urgency ranks the stock among those that need an operator, the least first.
func (k *stock) urgency(now sim.Cycles, left int64) float64 {
	order, cycle, at := k.s.line.Crew.Order, sim.Seconds(1), sim.Seconds(now)
	if k.s.shared { // cycles of one line say nothing to another
		cycle, at = k.s.cycle, k.s.clocks.Shop.Now()
	}
	switch order {
	case AlongTheTrack:
		return float64(k.empty.station)
	case FirstCome:
		return float64(at)
	case MostUrgent:
	}
	return float64(at + sim.Seconds(sim.Seconds(float64(left)/k.share)*cycle))
}

// wait sets the timer for the first cycle at which the stock can fall further than it
// matters: not before as many cycles as it must lose.
func (k *stock) wait(now sim.Cycles, left int64) {
	matters := left // until there is nothing
	if left > k.spec.Warn {
		matters -= k.spec.Warn
	}
	switch {
	case k.told:
	case k.spec.Capacity == 0 || left <= 0:
		k.timer.Stop()
	default:
		k.timer.Set(now + sim.Cycles(matters))
	}
}

// fill makes the stock full: the operator has done his work.
func (k *stock) fill() {
	now := k.s.clocks.Track.Now() // up to date in a call of Shop
	if missing := k.add(now, k.left(now)); missing > 0 && k.brought != nil {
		k.brought()
	}
	if k.empty.open {
		k.s.standstill.over(&k.empty)
	}
}

// add makes a stock of which something is left full, and returns what was missing.
func (k *stock) add(now sim.Cycles, left int64) (missing int64) {
	missing = max(0, k.spec.Capacity-left) // pieces that were put back may have overfilled it
	k.filled += missing
	if k.s.observer != nil {
		k.s.tellPlain(StockFilled, k.empty.station, missing)
		k.s.tellPlain(StockLevel, k.empty.station, left+missing)
	}
	k.wait(now, left+missing)
	return missing
}
