package model

import "netrate/sim"

// holds reports whether the feeder lets the next set pass without an attempt.
func (f *feeder) holds() bool {
	l := f.lane
	return l != nil && (l.recovering && l.d > 0 || l.holding && l.d > l.rest)
}

// move takes pieces from the hopper by hand, or puts them back if n < 0. One is left at
// the least: the operator brings what is missing.
func (f *feeder) move(n int64) {
	cycle := f.s.clocks.Cycle()
	f.stock.extra += n
	if missing := 1 - f.stock.left(cycle); n > 0 && missing > 0 {
		f.stock.filled += missing
		f.s.observeNumber(StockFilled, f.index, missing)
	}
	f.stock.timer.Set(cycle + 1) // to look at it then
	f.rate.look()
}

// holdFor lets an emptied pocket pass for which there is no piece any more.
func (f *feeder) holdFor(set, cycle sim.Cycles) {
	f.s.track.find(set).owed &^= 1 << f.index
	f.held++
	f.stock.extra--
	f.lane.move(-1, cycle)
}

// catchUp gives a catch-up set what brings the lane into step, and condemns it.
func (f *feeder) catchUp(kind feeding, set, cycle sim.Cycles) (pieces int8) {
	l, t := f.lane, &f.s.track
	o := l.wrong(set, cycle)
	if f.holds() {
		f.held++
		o.fed(f.index, 0)
		switch {
		case t.condemned(o):
		case l.holding:
			t.spoil(o, f.index)
		default:
			f.s.condemn(o, f.index, f.ways[l.response])
		}
		return 0
	}
	if !t.condemned(o) {
		f.s.condemn(o, f.index, f.ways[l.response])
	}
	left := f.stock.left(cycle - 1)
	due := int8(min(int64(1-l.d), left))
	if kind == fedTwo && left == int64(due) {
		kind = fedGood
	}
	if kind == fedJam {
		f.row = 0
		f.jam(set, cycle)
		return 1
	}
	pieces = f.feedDue(kind, due, cycle)
	o.fed(f.index, pieces)
	return pieces
}

// feedDue makes the attempt of a catch-up set that is due a number of pieces and returns how
// many came.
func (f *feeder) feedDue(kind feeding, due int8, cycle sim.Cycles) (pieces int8) {
	l := f.lane
	if kind == fedNothing {
		f.missed()
		l.tries++
		seen := f.sees(cycle - f.at)
		switch {
		case !seen:
			l.over(cycle)
		case f.streak():
			f.second(CauseStreak)
		case l.tries >= l.Tries || l.second(cycle):
			f.second(CauseMisfeed)
		}
		return 0
	}
	f.row = 0
	switch kind {
	case fedTwo:
		if f.doubled(cycle - f.at) {
			f.second(CauseDouble)
		} else {
			l.over(cycle)
		}
		return due + 1
	case calledFalsely:
		f.calledFalsely(cycle - f.at)
		f.second(CauseDouble)
	case fedGood, fedNothing, fedJam:
	}
	return due
}

// second stops the line for a second fault in a catch-up set, which stays condemned.
func (f *feeder) second(cause Cause) {
	f.row = 0
	f.hand.second = true
	f.s.standstill.arise(f.hand, cause)
}
