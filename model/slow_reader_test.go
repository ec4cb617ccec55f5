package model

import "slices"

// reader reads a set, unless it is condemned or its pocket is empty.
func (m *slowModel) reader(i int, r *Reader, set *slowSet) {
	if set == nil || set.gone() || set.condemned() {
		return
	}
	for _, lane := range m.lanesOfStream(r.Reads) {
		if !set.isFor(m.line.Stations[lane]) {
			return // it is not to have the stream
		}
	}
	o := &m.out.Stations[i]
	o.Attempts++
	draw := m.dice.Float64()
	noRead, falseAlarm := draw < r.NoRead, r.NoRead <= draw && draw < r.NoRead+r.FalseAlarm
	wrong, alien := m.sees(r, set), m.seesAlien(r, set)
	sees := len(alien) > 0 || wrong
	switch {
	case noRead:
		o.Faults[NoRead]++
		if sees && r.OnNoRead == Stop && m.chance(m.line.Crew.WrongRepair) {
			o.Faults[WrongRepair]++
			sees = false
		}
		if !sees || r.OnNoRead != Stop {
			m.alone(i, NoRead, r.OnNoRead, r, set, false)
			return
		}
		if wrong { // the operator saw it
			m.alarmStop(i, r)
		}
		m.changeStocks(alien)
	case sees && m.chance(r.Misread):
		o.Faults[Misread]++
	case sees:
		switch {
		case !wrong:
		case r.OnMismatch == Stop || m.second(-1):
			m.alarmStop(i, r)
		default:
			m.alarm(i, r)
		}
		m.changeStocks(alien)
	case falseAlarm:
		o.Faults[FalseAlarm]++
		m.alone(i, FalseAlarm, r.OnMismatch, r, set, m.second(-1))
	}
}

// sees reports whether the reader, if it reads the set, sees something wrong.
func (m *slowModel) sees(r *Reader, set *slowSet) bool {
	read, matched := m.lanesOfStream(r.Reads), m.lanesOfStream(r.Match)
	matched = slices.DeleteFunc(matched, func(i int) bool { return !set.isFor(m.line.Stations[i]) })
	if r.Reads == "" {
		return false // it looks for wrong stock only
	}
	none := func(i int) bool { return len(set.held[i]) == 0 }
	other := func(i int) bool { // the first piece is for another set
		p := set.held[i][0]
		return m.units[i].lane.matched && (p.number != set.number || p.off != 0)
	}
	if slices.ContainsFunc(read, none) {
		return true
	}
	if r.Sequence && slices.ContainsFunc(read, other) {
		return true
	}
	if r.Match == "" {
		return false
	}
	if slices.ContainsFunc(matched, none) {
		return true
	}
	first, all := set.held[read[0]][0], slices.Concat(read, matched)
	return len(all) > 1 && slices.ContainsFunc(all, func(i int) bool {
		p := set.held[i][0]
		return p.off != 0 || p.number != first.number
	})
}

// lanesOfStream returns the lanes that carry a stream.
func (m *slowModel) lanesOfStream(name string) []int {
	var lanes []int
	for i, u := range m.units {
		if u.lane != nil && u.lane.stream.Name == name {
			lanes = append(lanes, i)
		}
	}
	return lanes
}

// alone answers a no-read or a false alarm, which is about the one set only.
func (m *slowModel) alone(i int, f Fault, response Response, r *Reader, set *slowSet, second bool) {
	switch {
	case response == Stop || second:
		cause := CauseNoRead
		if f == FalseAlarm {
			cause = CauseFalseAlarm
		}
		m.faultStop(i, cause, r.Clear).second = second
	case response != Ship:
		set.blame(slowCause{i, f})
		m.condemn(set, response)
	}
}

// alarmStop answers an alarm by a stop, at which the operator realigns lanes.
func (m *slowModel) alarmStop(i int, r *Reader) {
	m.out.Stations[i].Faults[Mismatch]++
	read := m.lanesOfStream(r.Reads)
	t := m.faultStop(i, CauseMismatch, m.laneWork(read[0]))
	t.lanes = slices.Concat(read, m.lanesOfStream(r.Match))
	t.second = true // he realigns every lane in recovery too
}

// alarm answers an alarm in line: what is wrong on the track is condemned, and lanes out of
// step recover.
func (m *slowModel) alarm(i int, r *Reader) {
	m.out.Stations[i].Faults[Mismatch]++
	for _, lane := range slices.Concat(m.lanesOfStream(r.Reads), m.lanesOfStream(r.Match)) {
		for _, set := range m.track {
			if set != nil && !set.gone() && m.wrong(set, lane) {
				m.condemn(set, r.OnMismatch)
			}
		}
		m.recover(lane, m.nextSet(lane), r.OnMismatch)
	}
}
