package model

import (
	"math"

	"netrate/sim"
)

// slowPace is when the line is slower than its speed.
type slowPace struct {
	extra    sim.Seconds // what the slow cycles since the last start took beyond others
	jammed   bool        // a jam was open in the standstill before it, or is in this one
	afterJam bool        // it was
	stops    []sim.Seconds
	eased    bool        // the crew has slowed the line down
	at       int         // the station for which it has
	filled   bool        // somebody has filled its hopper since
	rest     sim.Seconds // when the line is at rest, or was
}

// share returns at what share of its speed the line runs the n-th cycle after a start, and whose
// account the time beyond others belongs to.
func (m *slowModel) share(n int64) (share float64, account *sim.Seconds) {
	s, t := m.line.Slow, &m.out.Time.Slow
	share, account = 1, &t.Starting
	if float64(n) <= s.Starting.Cycles {
		share = s.Starting.Share
	}
	if m.pace.afterJam && float64(n) <= s.AfterJam.Cycles && s.AfterJam.Share < share {
		share, account = s.AfterJam.Share, &t.AfterJam
	}
	if m.pace.eased && n <= m.easedCycles() && s.Repeated.Share < share {
		share, account = s.Repeated.Share, &t.Repeated
	}
	return share, account
}

// easedCycles returns how many cycles the time takes for which the crew lets the line run slower.
func (m *slowModel) easedCycles() int64 {
	r := m.line.Slow.Repeated
	return int64(math.Ceil(float64(r.For)*m.speed*r.Share/3600 - 1e-9))
}

// slowCycle returns what the n-th cycle after a start takes beyond others.
func (m *slowModel) slowCycle(n int64) sim.Seconds {
	share, _ := m.share(n)
	return sim.Seconds(3600 / m.speed * (1/share - 1))
}

// runsSlowly puts running time to the account of why it is slow.
func (m *slowModel) runsSlowly(passed sim.Seconds) {
	share, account := m.share(m.ran + 1)
	*account += passed * sim.Seconds(1-share)
}

// speedNow returns the speed of the cycle that has just ended.
func (m *slowModel) speedNow() float64 {
	share, _ := m.share(m.ran)
	return m.speed * share
}

// starts lets the line start now.
func (m *slowModel) starts() {
	m.pace.afterJam, m.pace.jammed = m.pace.jammed, false
	m.pace.eases()
	m.since, m.ran, m.pace.extra = m.now, 0, 0
}

// cycleOver is what the crew makes of a cycle that has ended, and of the stops that arose in it.
func (m *slowModel) cycleOver() {
	p := &m.pace
	if p.eased && m.ran >= m.easedCycles() {
		p.eased = false
	}
	p.eases()
	eased, last := p.eased, p.at
	p.eased = false
	for _, s := range m.open {
		if m.remembers(s.cause) {
			last = s.station
		}
	}
	if p.eased {
		p.at = last
	}
	p.eased = p.eased || eased
	if s := m.line.Slow.Stopping; len(m.open) > 0 && s.Cycles > 0 {
		p.rest = m.now + sim.Seconds(math.Max(1, math.Round(s.Cycles))*(3600/m.speed)*(1/s.Share-1))
	}
}

// eases lets the line run at its speed again if the hopper is filled for which it did not.
func (p *slowPace) eases() {
	if p.filled {
		p.eased, p.filled = false, false
	}
}

// brings is when somebody has brought pieces to a station, or emptied its bin.
func (m *slowModel) brings(station int) {
	p := &m.pace
	p.filled = p.filled || m.line.Slow.Repeated.Refill && p.eased && p.at == station
}

// remembers is what the crew makes of a stop, and reports whether it is one for a fault.
func (m *slowModel) remembers(cause Cause) bool {
	r, p := m.line.Slow.Repeated, &m.pace
	p.jammed = p.jammed || cause == CauseJam || cause == CauseInsertionJam
	if r.Stops == 0 || cause == CauseStock || cause == CauseStarved || cause == CauseBreakdown {
		return false
	}
	p.stops = append(p.stops, m.now)
	recent := 0
	for _, at := range p.stops {
		if m.now-at <= r.Within {
			recent++
		}
	}
	p.eased = p.eased || recent >= r.Stops
	return true
}

// arrives returns when an operator who takes so long to come is at a task.
func (m *slowModel) arrives(t *slowTask, walk sim.Seconds) sim.Seconds {
	if t.fills {
		return m.now + walk
	}
	return max(m.now+walk, m.pace.rest)
}
