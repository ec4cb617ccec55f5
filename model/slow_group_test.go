package model

import (
	"fmt"

	"netrate/sim"
)

// slowGroup returns the outcomes of one shift of several lines with one crew, which begins afresh.
func slowGroup(h *LineGroup, seed uint64, replication int) []Outcome {
	random := newSlowRandom(seed, replication)
	var lines []*slowModel
	for _, l := range h.Lines {
		m := newSlow(l.AttendedBy(h.Crew), random, 0)
		m.shared = true
		m.openLots(nil)
		lines = append(lines, m)
	}
	first := lines[0]
	for _, m := range lines[1:] {
		m.crew, m.people = first.crew, first.people
		first.people.lines = append(first.people.lines, m)
	}
	for _, m := range lines {
		m.channelMoves()
	}
	for first.now < first.limit {
		next := first.limit
		for _, m := range lines {
			next = min(next, m.nextMoment())
		}
		slowMoment(lines, next)
	}
	var outs []Outcome
	for _, m := range lines {
		m.close()
		outs = append(outs, m.out)
	}
	return outs
}

// slowMoment lets the time pass on all lines up to a moment, and lets happen what is due then.
func slowMoment(lines []*slowModel, at sim.Seconds) {
	people := lines[0]
	people.peopleSpend(at - people.now)
	for _, m := range lines {
		m.elapse(at)
	}
	for _, m := range lines {
		m.channelMoves()
		m.cycleEnds()
	}
	people.peopleChange()
	people.crewMoves()
	people.techniciansMove()
	for _, m := range lines {
		m.channelMoves()
		m.restartEnds()
		m.looksForDocument()
	}
	people.crewChooses()
	people.techniciansChoose()
}

// rankOfSeveral returns what the order kept by a crew of several lines makes of the stock of station
// i, which calls now.
func (m *slowModel) rankOfSeveral(i int) float64 {
	switch m.line.Crew.Order {
	case MostUrgent: // when it would be used up, by the clock on the wall
		return float64(m.now) + float64(m.units[i].left)/m.units[i].share*3600/m.speed
	case AlongTheTrack:
		return float64(i)
	case FirstCome:
		return float64(m.now)
	}
	panic(fmt.Sprintf("slow model: order %v", m.line.Crew.Order))
}
