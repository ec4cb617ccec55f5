package model

import "netrate/sim"

// row notes how the track stands.
func (n *incident) row(cycle, first sim.Cycles) {
	row := IncidentRow{Cycle: int64(cycle - first)}
	t := &n.s.track
	for i, at := range t.at {
		row.Cells = append(row.Cells, n.cell(cycle-at, i))
	}
	row.Events = n.events(cycle, first) // which lets go of the sets that have left
	n.in.Rows = append(n.in.Rows, row)
}

// cell returns how the pocket with a set is, seen at station i.
func (n *incident) cell(set sim.Cycles, i int) IncidentCell {
	cell := IncidentCell{Set: int64(set-n.set) + 1}
	t := &n.s.track
	o := t.find(set)
	switch {
	case o == nil:
		return cell
	case o.gone || o.gate < i:
		cell.State = Empty
		return cell
	case t.condemned(o):
		cell.State = Condemned
	case t.wrong(o):
		cell.State = Wrong
	}
	cell.Holds = n.holds(o, i)
	return cell
}

// holds returns what a set holds of the lanes it has passed that is unusual.
func (n *incident) holds(o *odd, i int) []IncidentHolding {
	var all []IncidentHolding
	for k, station := range n.s.track.lanes.stations {
		l := n.s.lanes[k]
		if station > i || !l.wrongIn(o) && o.off[k] == 0 {
			continue
		}
		h := IncidentHolding{Stream: l.Name, Sheets: l.channel}
		if !l.channel && o.holdsAny(station) {
			h.Pieces = int(o.pieces[station])
			if o.noted>>station&1 == 0 {
				h.Pieces = 1
			}
			h.First = int64(o.set+sim.Cycles(o.off[k])-n.set) + 1
		}
		all = append(all, h)
	}
	return all
}

// events returns what happened in a cycle.
func (n *incident) events(cycle, first sim.Cycles) []IncidentEvent {
	var all []IncidentEvent
	if cycle == first {
		all = append(all, IncidentEvent{What: Failed, Station: n.station, Set: 1, Fault: n.fault})
	}
	t := &n.s.track
	for k := range t.odds {
		o := &t.odds[k]
		if !t.left(o, cycle) || n.gone[o.set] {
			continue
		}
		n.gone[o.set] = true
		event := IncidentEvent{Station: o.gate, Set: int64(o.set-n.set) + 1}
		switch {
		case o.fate == Spoiled:
			event.What = TakenOff
		case t.gates[o.gate] != Defective:
			event.What = Left
		case t.wrong(o):
			event.What = DeliveredWrong
		default:
			continue
		}
		all = append(all, event)
	}
	return append(all, n.stops()...)
}

// stops returns what has made the line stop, and what a reader has seen, since it was last
// called.
func (n *incident) stops() []IncidentEvent {
	var all []IncidentEvent
	for i, r := range n.s.readers {
		if r.out.Faults[Mismatch] > n.alarms[i] {
			all = append(all, IncidentEvent{What: SawMismatch, Station: r.index})
		}
		n.alarms[i] = r.out.Faults[Mismatch]
	}
	for i := range n.out.Stations {
		for cause, t := range n.out.Stations[i].Stops {
			if t.Count > n.stopped[i][cause] {
				all = append(all, IncidentEvent{What: Stopped, Station: i, Cause: Cause(cause)})
			}
			n.stopped[i][cause] = t.Count
		}
	}
	return all
}
