package model

import (
	"fmt"
	"slices"
)

// slowSet is a set: what is in its pocket or, once it is gone, what was.
type slowSet struct {
	number   int64
	has      map[string]bool // its attributes
	due      []bool          // the stations with plain inserts that are to feed it
	pieces   []int64         // plain inserts and envelopes, by station
	held     [][]slowPiece   // personalised pieces, by lane
	divert   bool            // condemned, to leave at a track gate
	outsort  bool            // condemned, to leave at an exit gate
	alien    []bool          // of which stations it holds pieces of a wrong stock
	inserted bool            // handled by the inserter
	undone   bool            // a device has not done what it should
	fate     slowFate
	lostTo   *slowCause // the first fault that made it wrong, condemned or spoiled it
}

// slowPiece is one personalised piece.
type slowPiece struct {
	number int64 // the set it is for
	off    int64 // of a document: how many sheets its channel was out of step before it
	mixed  bool  // of a document: it has itself a sheet missing or too many
}

// slowCause is a fault of a station.
type slowCause struct {
	station int
	fault   Fault
}

// slowFate is what has become of a set.
type slowFate int

const (
	slowOnTrack slowFate = iota
	slowGood
	slowDefective
	slowDiverted
	slowOutsorted
	slowSpoiled
	slowOnLine // when the shift was over
)

func (s *slowSet) condemned() bool { return s.divert || s.outsort }

// slowOnly returns the attribute of the sets that a station is only for; "" if it is for all.
func slowOnly(s Station) string {
	switch s := s.(type) {
	case *Feeder:
		return s.Only
	case *Device:
		return s.Only
	}
	return ""
}

// isFor reports whether a station is for the set.
func (s *slowSet) isFor(station Station) bool {
	only := slowOnly(station)
	return only == "" || s.has[only]
}

// gone reports whether the pocket of the set is empty.
func (s *slowSet) gone() bool { return s.fate != slowOnTrack }

// blame notes a fault that made the set wrong, condemned or spoiled it; the first counts.
func (s *slowSet) blame(c slowCause) {
	if s.lostTo == nil {
		s.lostTo = &c
	}
}

// good reports whether the set holds exactly one piece of each station that is to feed it
// and its personalised pieces are all for the same person.
func (m *slowModel) good(s *slowSet) bool {
	if s.undone || slices.Contains(s.alien, true) {
		return false
	}
	var persons []int64
	for i, station := range m.line.Stations {
		switch _, feeder := station.(*Feeder); {
		case m.units[i].lane != nil && !s.isFor(station):
			if len(s.held[i]) > 0 {
				panic("slow model: a set got a piece of a stream that it is not to have")
			}
		case m.units[i].lane != nil:
			if len(s.held[i]) != 1 || s.held[i][0].off != 0 || s.held[i][0].mixed {
				return false // documents that are wrong are for nobody
			}
			if m.units[i].lane.matched {
				persons = append(persons, s.held[i][0].number)
			}
		case feeder && s.due[i] && s.pieces[i] != 1, feeder && !s.due[i] && s.pieces[i] != 0:
			return false
		}
	}
	for _, p := range persons {
		if p != persons[0] {
			return false
		}
	}
	return true
}

// condemn marks a set for the first gate ahead that the response says: a track gate or,
// where it has passed the last, the exit gate. A set with no gate ahead cannot be
// condemned, nor can one that is condemned already: it stays as it is.
func (m *slowModel) condemn(s *slowSet, r Response) {
	if s.condemned() {
		return
	}
	trackGate, exitGate := false, false
	for i, station := range m.line.Stations {
		ahead := m.pitch(i) > m.at(s)
		trackGate = trackGate || ahead && isTrackGate(station)
		exitGate = exitGate || ahead && isExitGate(station)
	}
	switch r {
	case Divert:
		s.divert = trackGate
		s.outsort = !trackGate && exitGate
	case Outsort:
		s.outsort = exitGate
	case Stop, Ship:
		panic(fmt.Sprintf("slow model: a set is condemned by the response %v", r))
	}
}

// at returns how many pitches a set has come from the first station.
func (m *slowModel) at(s *slowSet) int { return int(m.out.Cycles - s.number) }

// spoil destroys a set, for a cause.
func (m *slowModel) spoil(s *slowSet, c slowCause) {
	s.blame(c)
	m.leave(s, slowSpoiled)
}

// leave empties a pocket and counts its set and its pieces as what became of them.
func (m *slowModel) leave(s *slowSet, fate slowFate) {
	s.fate = fate
	*m.setsOf(fate)++
	for i := range m.units {
		*m.piecesOf(i, fate) += s.pieces[i] + int64(len(s.held[i]))
	}
	if fate == slowGood || fate == slowOnLine {
		return
	}
	if s.lostTo == nil {
		panic(fmt.Sprintf("slow model: set %d is lost and nobody knows why", s.number))
	}
	o := &m.out.Stations[s.lostTo.station]
	o.Lost[s.lostTo.fault]++
	if fate == slowDefective {
		o.Defective[s.lostTo.fault]++
	}
	if only := m.onlyLane(); only >= 0 {
		m.remake(s, len(s.held[only]))
	} else if m.lanes() > 0 {
		m.remake(s, 1)
	}
}

// remake counts remakes of a set that is lost, which arise now.
func (m *slowModel) remake(s *slowSet, n int) {
	m.out.Stations[s.lostTo.station].Remakes[s.lostTo.fault] += int64(n)
	for range n {
		m.arose = append(m.arose, m.now)
	}
}

func (m *slowModel) setsOf(f slowFate) *int64 {
	s := &m.out.Sets
	return [...]*int64{
		slowGood: &s.Good, slowDefective: &s.Defective, slowDiverted: &s.Diverted,
		slowOutsorted: &s.Outsorted, slowSpoiled: &s.Spoiled, slowOnLine: &s.OnLine,
	}[f]
}

func (m *slowModel) piecesOf(i int, f slowFate) *int64 {
	p := &m.out.Stations[i].Pieces
	return [...]*int64{
		slowGood: &p.Good, slowDefective: &p.Defective, slowDiverted: &p.Diverted,
		slowOutsorted: &p.Outsorted, slowSpoiled: &p.Spoiled, slowOnLine: &p.OnLine,
	}[f]
}
