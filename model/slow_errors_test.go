package model

import (
	"math"

	"netrate/sim"
)

// botches reports whether an operator who is to put a set right leaves it as it was: it then
// goes on as if nobody had noticed.
func (m *slowModel) botches(i int, a *slowAttempt) bool {
	if !a.misfed && !a.doubled || !m.chance(m.line.Crew.WrongRepair) {
		return false
	}
	m.out.Stations[i].Faults[WrongRepair]++
	a.known, a.botched = false, true
	return true
}

// isOneShort reports whether the operator who is to realign lane i will be one short: if so, what
// the lane then costs is lost to that.
func (m *slowModel) isOneShort(i int) bool {
	lane := m.units[i].lane
	if lane.out(m.nextSet(i)) == 0 || !m.chance(m.line.Crew.WrongRealign) {
		return false
	}
	m.out.Stations[i].Faults[WrongRealign]++
	lane.origin = slowCause{i, WrongRealign}
	return true
}

// slowShort returns by how much a lane that was out of step still is, in the end, when an operator
// has realigned it.
func slowShort(was int64, short bool) int64 {
	switch {
	case was == 0 || !short:
		return 0
	case was < 0:
		return -1
	}
	return 1
}

// throwAway takes a piece out of the hopper of a lane. One must be left: the operator brings it.
func (m *slowModel) throwAway(i int) {
	for len(m.units[i].lane.hopper) < 2 {
		m.load(i, 1)
		m.out.Stations[i].Pieces.Loaded++
	}
	m.draw(i, 1)
	m.out.Stations[i].Pieces.Spoiled++
}

// brought notes whether the pieces that an operator has brought to a hopper are the wrong ones.
func (m *slowModel) brought(i int) {
	unit, mixup := &m.units[i], slowMixup(m.line.Stations[i])
	if _, feeds := m.line.Stations[i].(*Feeder); !feeds && mixup.Chance == 0 {
		return
	}
	if unit.alien = m.chance(mixup.Chance); !unit.alien {
		return
	}
	m.out.Stations[i].Faults[WrongStock]++
	unit.noticed = sim.Seconds(math.Inf(1))
	if mixup.FoundAfter != nil {
		unit.noticed = m.now + mixup.FoundAfter.Draw(m.times)
	}
}

// slowMixup returns how often the wrong pieces are brought to a station.
func slowMixup(s Station) Mixup {
	switch s := s.(type) {
	case *Feeder:
		return s.WrongStock
	case *Inserter:
		return s.WrongStock
	}
	return Mixup{}
}

// seesAlien returns the stations of which the set holds wrong pieces that the reader would see.
func (m *slowModel) seesAlien(r *Reader, set *slowSet) []int {
	var feeders []int
	for i, s := range m.line.Stations {
		if set.alien[i] && slowMixup(s).FoundBy == r.Name {
			feeders = append(feeders, i)
		}
	}
	return feeders
}

func (m *slowModel) changeStocks(feeders []int) {
	for _, i := range feeders {
		m.changeStock(i)
	}
}

// changeStock stops the line for an operator to change the stock of station i, if it does not stand
// for that already.
func (m *slowModel) changeStock(i int) {
	unit := &m.units[i]
	if unit.changed == nil {
		unit.changed = m.faultStop(i, CauseWrongStock, unit.stock.Work)
		unit.changed.changes = true
	}
}

// changed has the sets with wrong pieces of station i taken off and, if its hopper still holds such,
// changes them.
func (m *slowModel) changed(i int) {
	unit := &m.units[i]
	unit.changed = nil
	for _, set := range m.track {
		switch {
		case set == nil || set.gone() || set.condemned() || !set.alien[i]:
		case set.inserted:
			m.condemn(set, Outsort)
		default:
			m.leave(set, slowSpoiled)
		}
	}
	if unit.alien {
		unit.alien = false
		m.out.Stations[i].Pieces.Spoiled += unit.left
		m.out.Stations[i].Pieces.Loaded += unit.stock.Capacity
		unit.left = unit.stock.Capacity
		m.countLot(i)
	}
}
