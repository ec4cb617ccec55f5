package model

import "netrate/sim"

// mender is the people who put sets right at a station, or read there, as far as they err.
type mender struct {
	s       *Sim
	station int
	chance  float64
	random  *sim.Stream
	errors  int64
}

func (s *Sim) mender(station int) *mender {
	m := &mender{s: s, station: station, chance: s.line.Crew.WrongRepair}
	m.random = s.ifAny(m.chance, station, "wrong repair")
	s.menders = append(s.menders, m)
	return m
}

// ifAny returns a random stream of a station for what has the given probability; nil if it never
// happens.
func (s *Sim) ifAny(chance float64, station int, purpose string) *sim.Stream {
	if !(chance > 0) {
		return nil
	}
	return s.stream(s.line.Stations[station].Where().Name, purpose)
}

// errs reports whether an operator who is to put a set right leaves it as it was.
func (m *mender) errs(set sim.Cycles) bool {
	if m.random == nil || !m.random.Chance(m.chance) {
		return false
	}
	m.errors++
	m.s.observeFault(m.station, WrongRepair, set, false)
	return true
}

// misreads reports whether the reader takes a set that is wrong for one in order.
func (r *reader) misreads(set sim.Cycles) bool {
	if r.wrong == nil || !r.wrong.Chance(r.Misread) {
		return false
	}
	r.out.Faults[Misread]++
	r.s.observeFault(r.index, Misread, set, false)
	return true
}

// isOneShort reports whether the operator who realigns the lane errs, if it is out of step. What
// it costs from now on is then lost to that.
func (l *lane) isOneShort() bool {
	if l.d == 0 || l.random == nil || !l.random.Chance(l.wrongly) {
		return false
	}
	l.errors++
	l.origin = WrongRealign
	l.s.observeFault(l.station, WrongRealign, l.s.clocks.Cycle()-l.at+1, false)
	return true
}

// shortBy returns by how much a lane that was out of step still is when it has been realigned.
func shortBy(was int32, short bool) int32 {
	switch {
	case was == 0 || !short:
		return 0
	case was < 0:
		return -1
	default:
		return 1
	}
}

// throwAway takes pieces out of the hopper of the lane.
func (l *lane) throwAway(pieces int32) {
	if pieces == 0 {
		return
	}
	l.take(int64(pieces))
	l.s.track.pieces[l.station][Spoiled] += int64(pieces)
	l.s.observeNumber(PiecesDiscarded, l.station, int64(pieces))
}

// report writes down the errors of people at a station, which may have a lane.
func (m *mender) report(l *lane, out *StationOutcome) {
	if out.Faults[WrongRepair] = m.errors; l != nil {
		out.Faults[WrongRealign] = l.errors
	}
}
