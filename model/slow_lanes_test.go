package model

import (
	"fmt"
	"slices"
)

// slowLane is a station whose pieces are personalised: a feeder with its hopper, or the
// document channel.
type slowLane struct {
	stream  Stream
	matched bool // it can come out of step

	documents bool // it is the channel

	hopper  []int64              // the pieces in it, the next one first; a channel has none
	printed int64                // the next piece that a refill brings
	lost    []int64              // pieces that are gone though their sets have yet to come
	has     func(set int64) bool // whether a set is to have a piece
	upTo    []int64              // how many of the sets up to each are, from set 0, as far as anybody has asked
	off     int64                // of a channel: how many sheets its next document is out of step

	recovering bool
	response   Response  // condemns the catch-up sets
	tries      int       // noticed misfeeds of catch-up sets in this recovery
	began      int64     // the cycle in which the last recovery began
	ended      int64     // and ended
	origin     slowCause // the misfeed or the double by which it last came out of step
}

// layLanes makes lanes of the stations that carry a stream, in step with the sets.
func (m *slowModel) layLanes() {
	for i, s := range m.line.Stations {
		switch s := s.(type) {
		case *Feeder:
			if s.Stream.Name != "" {
				lane := &slowLane{stream: s.Stream}
				if lane.has = func(int64) bool { return true }; s.Only != "" {
					lane.has = func(set int64) bool { return m.has(set)[s.Only] }
				}
				lane.printed = lane.after(0)
				m.units[i].lane = lane
				m.units[i].left = 0
				m.load(i, s.Hopper.Capacity)
			}
		case *Channel:
			m.units[i].lane = &slowLane{stream: s.Stream, documents: true, matched: true}
			m.channels = append(m.channels, newSlowChannel(i, s))
		}
	}
	for _, u := range m.units {
		if u.lane != nil && m.lanes() > 1 {
			u.lane.matched = true
		}
	}
}

func (m *slowModel) lanes() int {
	n := 0
	for _, u := range m.units {
		if u.lane != nil {
			n++
		}
	}
	return n
}

// onlyLane returns the only lane of the line if that is a feeder, or -1.
func (m *slowModel) onlyLane() int {
	only := -1
	for i, u := range m.units {
		switch {
		case u.lane == nil:
		case u.lane.matched:
			return -1
		default:
			only = i
		}
	}
	return only
}

// load brings new pieces into the hopper of a lane.
func (m *slowModel) load(i int, pieces int64) {
	lane := m.units[i].lane
	for range pieces {
		lane.hopper = append(lane.hopper, lane.printed)
		lane.printed = lane.after(lane.printed)
	}
	m.units[i].left = int64(len(lane.hopper))
}

// after returns the first set after the given one that is to have a piece of the lane.
func (l *slowLane) after(set int64) int64 {
	for set++; !l.has(set); set++ {
	}
	return set
}

// until returns how many of the sets up to the given one are to have a piece of the lane.
func (l *slowLane) until(set int64) int64 {
	if len(l.upTo) == 0 {
		l.upTo = []int64{0}
	}
	for int64(len(l.upTo)) <= set {
		n := l.upTo[len(l.upTo)-1]
		if l.has(int64(len(l.upTo))) {
			n++
		}
		l.upTo = append(l.upTo, n)
	}
	return l.upTo[set]
}

// next returns the piece that the lane feeds next, be it in the hopper or still to come.
func (l *slowLane) next() int64 {
	if len(l.hopper) > 0 {
		return l.hopper[0]
	}
	return l.printed
}

// out returns by how many pieces the lane is out of step when the given set is the next to
// reach it.
func (l *slowLane) out(set int64) int64 {
	switch {
	case !l.matched:
		return 0
	case l.documents:
		return l.off
	}
	return l.until(l.next()-1) - l.until(set-1) // the sets between that are to have a piece
}

// draw takes pieces out of the hopper of a lane.
func (m *slowModel) draw(i int, pieces int64) []slowPiece {
	lane := m.units[i].lane
	if pieces > int64(len(lane.hopper)) {
		panic(fmt.Sprintf("slow model: lane %d took a piece from an empty hopper", i))
	}
	var drawn []slowPiece
	for range pieces {
		drawn = append(drawn, slowPiece{number: lane.hopper[0]})
		lane.hopper = lane.hopper[1:]
	}
	m.units[i].left = int64(len(lane.hopper))
	return drawn
}

// feed puts the next pieces of a lane into a set.
func (m *slowModel) feed(i int, set *slowSet, pieces int64) {
	set.held[i] = append(set.held[i], m.draw(i, pieces)...)
}

// wrong reports whether the set, having reached lane i, holds a wrong piece of it, too many
// or none.
func (m *slowModel) wrong(set *slowSet, i int) bool {
	switch held := set.held[i]; {
	case m.at(set) < m.pitch(i):
		return false // not there yet
	case !set.isFor(m.line.Stations[i]):
		return false
	case len(held) != 1:
		return true
	default:
		return m.units[i].lane.matched && (held[0].number != set.number || held[0].off != 0 || held[0].mixed)
	}
}

// second reports whether a fault in this cycle is a second fault because a lane, other than
// the one given, is in recovery.
func (m *slowModel) second(but int) bool {
	for i, u := range m.units {
		if i != but && u.lane != nil && u.lane.began < m.out.Cycles &&
			(u.lane.recovering || u.lane.ended == m.out.Cycles) {
			return true
		}
	}
	return false
}

// recover puts a lane that is out of step into recovery.
func (m *slowModel) recover(i int, set int64, r Response) {
	lane := m.units[i].lane
	if lane.out(set) == 0 {
		return
	}
	if !lane.recovering {
		lane.recovering, lane.tries, lane.began = true, 0, m.out.Cycles
	}
	lane.response = r
}

func (m *slowModel) recovered(lane *slowLane) {
	lane.recovering, lane.ended = false, m.out.Cycles
}

// lane lets lane i do its work on a pocket.
func (m *slowModel) lane(i int, lane *slowLane, set *slowSet) {
	if h, ok := m.line.Stations[i].(*Channel); ok {
		m.feedDocument(i, h, set)
		return
	}
	f := m.line.Stations[i].(*Feeder)
	switch {
	case !set.isFor(f):
	case !set.gone() && lane.recovering:
		m.catchUp(i, f, set)
	case lane.holds(set.number):
		if !set.gone() && !set.condemned() {
			m.spoil(set, lane.origin)
		}
	case set.gone():
		m.takeOut(i, set, m.draw(i, 1))
	default:
		m.feedLane(i, f, set)
	}
}

// holds reports whether the piece for the set has been lost.
func (l *slowLane) holds(set int64) bool {
	return slices.Contains(l.lost, set)
}

// takeOut counts the pieces that come when the pocket of their set is empty with what has
// become of the set.
func (m *slowModel) takeOut(i int, set *slowSet, pieces []slowPiece) {
	*m.piecesOf(i, set.fate) += int64(len(pieces))
	if m.onlyLane() == i {
		m.remake(set, len(pieces))
	}
}

// feedLane feeds a set by a lane that is not in recovery.
func (m *slowModel) feedLane(i int, f *Feeder, set *slowSet) {
	lane := m.units[i].lane
	inStep, second := lane.out(set.number) == 0, m.second(i)
	if !inStep {
		set.blame(lane.origin)
	}
	a := m.attempt(i, f, 1)
	response := f.OnDouble
	if a.misfed {
		response = f.OnMisfeed
	}
	switch {
	case a.jammed:
		m.feed(i, set, 1)
		m.spoil(set, slowCause{i, Jam})
		m.faultStop(i, CauseJam, f.Clear).second = second
		return
	case a.known && (response == Stop || a.row || second):
		m.faultStop(i, slowStopCause(a), faultWork(f.Stream, f.Clear)).second = second
		if !m.botches(i, &a) {
			m.feed(i, set, 1) // put right: of two, one goes back
			return
		}
	}
	m.feed(i, set, a.pieces)
	m.faulty(i, a, set, inStep, response)
}

// faulty does what a misfeed, a double or a false call of a lane leads to where the set is
// not put right: it makes the set wrong, and the lane if it was in step; if it is known the
// set is condemned and the lane recovers.
func (m *slowModel) faulty(i int, a slowAttempt, set *slowSet, inStep bool, response Response) {
	fault := slowCause{i, a.fault()}
	if a.misfed || a.doubled {
		set.blame(fault)
		if inStep {
			m.units[i].lane.origin = fault
		}
	}
	if a.known && response != Ship {
		set.blame(fault)
		m.condemn(set, response)
		m.recover(i, set.number+1, response)
	}
}

// catchUp is what a lane in recovery does with a set: it holds, or it makes one attempt
// with all the pieces that are due.
func (m *slowModel) catchUp(i int, f *Feeder, set *slowSet) {
	lane := m.units[i].lane
	set.blame(lane.origin)
	m.condemn(set, lane.response)
	if d := lane.out(set.number); d < 0 {
		a := m.attempt(i, f, min(1-d, m.units[i].left))
		m.feed(i, set, a.pieces)
		switch {
		case a.jammed:
			m.spoil(set, lane.origin)
			m.faultStop(i, CauseJam, f.Clear).second = true
		case a.known:
			m.secondTry(i, a, f.Stream, f.Clear)
		case a.misfed || a.doubled:
			m.recovered(lane)
		}
	}
	if lane.recovering && lane.out(set.number+1) == 0 {
		m.recovered(lane)
	}
}
