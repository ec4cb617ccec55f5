package model

import (
	"slices"

	"netrate/sim"
)

// secondTry is what a known misfeed or double, or a false call, of a catch-up set leads to:
// the line stops, unless it is a misfeed, there may be another and no other lane recovers.
func (m *slowModel) secondTry(i int, a slowAttempt, s Stream, clear sim.Duration) {
	lane := m.units[i].lane
	if a.misfed {
		lane.tries++
		if lane.tries < s.Tries && !a.row && !m.second(i) {
			return
		}
	}
	m.faultStop(i, slowStopCause(a), faultWork(s, clear)).second = true
}

// realigns lets the operator who has cleared a stop put lanes in step: those of an alarm
// and, after a second fault, those that are in recovery now.
func (m *slowModel) realigns(t *slowTask) {
	var lanes []int
	for i, u := range m.units {
		if u.lane != nil && (slices.Contains(t.lanes, i) || t.second && u.lane.recovering) {
			lanes = append(lanes, i)
		}
	}
	off := m.takeOff(lanes)
	for _, i := range lanes {
		if lane := m.units[i].lane; lane.matched {
			m.putInStep(i, off, m.isOneShort(i))
			m.countLot(i)
			m.recovered(lane)
		}
	}
	for _, set := range off {
		m.leave(set, slowSpoiled)
	}
}

// takeOff returns the sets that are wrong by one of the lanes, not condemned and not
// inserted, to be taken off; the inserted ones it condemns to the exit gate.
func (m *slowModel) takeOff(lanes []int) []*slowSet {
	var off []*slowSet
	for _, set := range m.track {
		wrong := func(i int) bool { return m.wrong(set, i) }
		switch {
		case set == nil || set.gone() || set.condemned() || !slices.ContainsFunc(lanes, wrong):
		case set.inserted:
			m.condemn(set, Outsort)
		default:
			off = append(off, set)
		}
	}
	return off
}

// putInStep makes the next piece of lane i the one for the next set, but if the operator is one
// short. The pieces that have come too early are looked for in the sets taken off and in condemned
// ones.
func (m *slowModel) putInStep(i int, off []*slowSet, short bool) {
	unit := &m.units[i]
	lane := unit.lane
	if lane.documents {
		lane.off = slowShort(lane.off, short)
		return
	}
	next := m.nextSet(i)
	was := lane.out(next)
	for lane.out(next) < min(0, slowShort(was, short)) { // for sets that have passed
		m.throwAway(i)
	}
	for _, set := range m.track {
		if set == nil || set.gone() || set.inserted || !set.condemned() && !slices.Contains(off, set) {
			continue
		}
		for _, piece := range set.held[i] {
			if piece.number >= next {
				lane.hopper = append(lane.hopper, piece.number)
			}
		}
		set.held[i] = slices.DeleteFunc(set.held[i], func(p slowPiece) bool { return p.number >= next })
	}
	slices.Sort(lane.hopper)
	unit.left = int64(len(lane.hopper))
	lane.lost = nil
	for _, n := range append(slices.Clone(lane.hopper), lane.printed) {
		for ; next < n; next++ {
			if lane.has(next) {
				lane.lost = append(lane.lost, next)
			}
		}
		next = n + 1
	}
	if short && was > 0 {
		m.throwAway(i)
	}
}

// nextSet returns the set that is the next to reach station i; of a job that has none left,
// the one after the last.
func (m *slowModel) nextSet(i int) int64 {
	next := max(1, m.out.Cycles-int64(m.pitch(i))+1)
	if m.sets > 0 {
		return min(next, m.sets+1)
	}
	return next
}

// laneWork returns the time of an operator's work to realign lane i.
func (m *slowModel) laneWork(i int) sim.Duration {
	if h, ok := m.line.Stations[i].(*Channel); ok {
		return faultWork(h.Stream, h.Clear)
	}
	f := m.line.Stations[i].(*Feeder)
	return faultWork(f.Stream, f.Clear)
}
