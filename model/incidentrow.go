package model

import (
	"fmt"
	"strings"

	"netrate/sim"
)

// row notes how the track stands.
func (n *incident) row(cycle, first sim.Cycles) {
	row := IncidentRow{Cycle: int64(cycle - first)}
	t := &n.s.track
	for i, at := range t.at {
		row.Cells = append(row.Cells, n.cell(cycle-at, i))
	}
	row.Notes = n.notes(cycle, first)
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
	cell.Words = n.holds(o, i)
	return cell
}

// holds says what a set holds of the lanes it has passed that is unusual.
func (n *incident) holds(o *odd, i int) string {
	var words []string
	for k, station := range n.s.track.lanes.stations {
		l := n.s.lanes[k]
		if station > i || !l.wrongIn(o) && o.off[k] == 0 {
			continue
		}
		switch pieces := o.pieces[station]; {
		case l.channel:
			words = append(words, l.Name+": sheets of another set")
		case !o.holdsAny(station):
			words = append(words, l.Name+": none")
		default:
			if o.noted>>station&1 == 0 {
				pieces = 1
			}
			words = append(words, l.Name+": "+n.numbers(o.set+sim.Cycles(o.off[k]), int(pieces)))
		}
	}
	return strings.Join(words, "; ")
}

// numbers lists so many pieces from the first.
func (n *incident) numbers(first sim.Cycles, pieces int) string {
	var list []string
	for k := range pieces {
		list = append(list, fmt.Sprint(int(first-n.set)+1+k))
	}
	return strings.Join(list, " and ")
}

// notes says what happened in a cycle.
func (n *incident) notes(cycle, first sim.Cycles) []string {
	var notes []string
	if cycle == first {
		notes = append(notes, fmt.Sprintf("%s: a %s at set 1", n.in.Stations[n.station], n.fault))
	}
	t := &n.s.track
	for k := range t.odds {
		o := &t.odds[k]
		if !t.left(o, cycle) || n.gone[o.set] {
			continue
		}
		n.gone[o.set] = true
		number, where := int64(o.set-n.set)+1, n.in.Stations[o.gate]
		switch {
		case o.fate == spoiled:
			notes = append(notes, fmt.Sprintf("set %d is taken off by hand", number))
		case t.gates[o.gate] != defective:
			notes = append(notes, fmt.Sprintf("set %d leaves at %s", number, where))
		case t.wrong(o):
			notes = append(notes, fmt.Sprintf("set %d is delivered, wrong", number))
		}
	}
	return append(notes, n.stops()...)
}

// stops says what has made the line stop, and what a reader has seen, since it was last
// called.
func (n *incident) stops() []string {
	var notes []string
	for i, r := range n.s.readers {
		if r.out.Faults[Mismatch] > n.alarms[i] {
			notes = append(notes, r.Name+" sees a mismatch")
		}
		n.alarms[i] = r.out.Faults[Mismatch]
	}
	for i := range n.out.Stations {
		for cause, t := range n.out.Stations[i].Stops {
			if t.Count > n.stopped[i][cause] {
				notes = append(notes, fmt.Sprintf("the line stops: %s, %s", n.in.Stations[i], Cause(cause).Name(n.s.line.Stations[i])))
			}
			n.stopped[i][cause] = t.Count
		}
	}
	return notes
}
