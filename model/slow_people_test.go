package model

import (
	"math"

	"netrate/sim"
)

// slowPeople is who is there, and when that changes.
type slowPeople struct {
	plan   Crew          // with its times from the start of the run
	wanted int           // operators that are to be there, breaks left out
	part   []sim.Seconds // when one operator more comes and when he goes, in this block
	more   bool          // he is there
	stage  int           // as in Crew.Stages
	block  sim.Seconds   // when this block is over
	rest   *Break        // under way; nil for none
	breaks int           // that have begun
	lines  []*slowModel  // that they attend to
	repair []*slowTask   // that wait for a technician
	techs  []slowOperator
	absent []int   // who is, by number
	away   [][]int // who is in each stage; nil for nobody
}

// slowRest stands where the stop would be that began a standstill, if it was a break.
var slowRest = &slowStop{station: -1}

// theyCome puts the crew and the technicians at the start of the shift.
func (m *slowModel) theyCome() {
	m.people.plan = m.line.Crew
	m.people.techs = make([]slowOperator, m.line.Crew.Technicians)
	m.stageBegins(0)
	m.present()
}

// stageBegins lets a stage of the shift begin, and its first block.
func (m *slowModel) stageBegins(i int) {
	m.people.stage = i
	m.people.wanted = m.people.plan.Stages()[i].Operators
	if m.people.away != nil {
		m.people.absent = m.people.away[i]
	}
	m.blockBegins()
}

// blockBegins draws when in this block one operator more is there.
func (m *slowModel) blockBegins() {
	p, stages := m.people, m.people.plan.Stages()
	p.part, p.more, p.block = nil, false, sim.Seconds(math.Inf(1))
	share := stages[p.stage].Part
	if share == 0 {
		return
	}
	p.block = m.now + m.line.Crew.Block
	if p.stage+1 < len(stages) {
		p.block = min(p.block, stages[p.stage+1].After)
	}
	length := p.block - m.now
	comes := m.now + sim.Seconds(m.dice.Float64())*length*sim.Seconds(1-share)
	p.part = []sim.Seconds{comes, comes + length*sim.Seconds(share)}
}

// nextChange returns when the crew next changes, or a break begins or ends, or a technician comes
// or is done.
func (m *slowModel) nextChange() sim.Seconds {
	p, stages, next := m.people, m.people.plan.Stages(), sim.Seconds(math.Inf(1))
	if p.stage+1 < len(stages) {
		next = stages[p.stage+1].After
	}
	next = min(next, p.block)
	for _, at := range p.part {
		next = min(next, at)
	}
	if p.breaks < len(m.people.plan.Breaks) {
		next = min(next, m.people.plan.Breaks[p.breaks].After)
	}
	if p.rest != nil {
		next = min(next, p.rest.End())
	}
	for _, o := range p.techs {
		next = min(next, o.next())
	}
	return next
}

// next returns when he arrives, or has finished.
func (o *slowOperator) next() sim.Seconds {
	switch {
	case o.task == nil || o.helps && o.joined:
		return sim.Seconds(math.Inf(1))
	case o.helps:
		return o.arrives
	case o.task.state == slowWalking:
		return o.arrives
	}
	return o.free
}

// peopleChange lets the crew change, and breaks begin and end, whose time has come.
func (m *slowModel) peopleChange() {
	p, crew := m.people, &m.people.plan
	if stages := crew.Stages(); p.stage+1 < len(stages) && m.now >= stages[p.stage+1].After {
		m.stageBegins(p.stage + 1)
	}
	if m.now >= p.block {
		m.blockBegins()
	}
	for len(p.part) > 0 && m.now >= p.part[0] {
		p.part, p.more = p.part[1:], !p.more
	}
	if p.rest != nil && m.now >= p.rest.End() {
		p.breakEnds()
	}
	if p.breaks < len(crew.Breaks) && m.now >= crew.Breaks[p.breaks].After {
		p.rest = &crew.Breaks[p.breaks]
		p.breaks++
		for _, line := range p.lines {
			line.breakBegins()
		}
	}
	m.present()
}

// breakBegins has a line that stands begin to stand for the break, if it is to.
func (m *slowModel) breakBegins() {
	if !m.rest().Stands || m.began == nil && !m.starving {
		return
	}
	if m.starving || len(m.open) == 0 { // nothing else is open: it waited for a document, or restarted
		m.began = slowRest
	}
	m.starving = false
	m.stood = true
}

// breakStops stops a line that runs at the end of a cycle that ends in a break.
func (m *slowModel) breakStops() {
	if r := m.rest(); r == nil || !r.Stands || m.now > r.End() || m.stood {
		return
	}
	m.stood = true
	m.began = slowRest // before whatever else has stopped it in this cycle
}

// breakEnds lets each line restart that nothing else keeps.
func (p *slowPeople) breakEnds() {
	p.rest = nil
	for _, m := range p.lines {
		m.breakIsOver()
	}
}

func (m *slowModel) breakIsOver() {
	if m.stood && len(m.open) == 0 {
		m.restarted = max(m.now, m.pace.rest) + m.line.Restart.Draw(m.times)
	}
	m.stood = false
}

// rest returns the break that there is for the line, or the time for which it is down; nil for none.
func (m *slowModel) rest() *Break {
	if m.down != nil {
		return m.down
	}
	return m.people.rest
}

// standsForBreak reports whether the line stands for a break.
func (m *slowModel) standsForBreak() bool { return m.rest() != nil && m.stood }

// present has operators come or go until there are as many as there should be, if those who
// should go are free.
func (m *slowModel) present() {
	p := m.people
	want := p.wanted
	if p.more {
		want++
	}
	if p.rest != nil {
		want = min(want, p.rest.Remain)
	}
	if m.line.Crew.People != nil {
		m.firstOnes(want)
		return
	}
	for len(m.crew.operators) < want {
		m.crew.operators = append(m.crew.operators, slowOperator{})
	}
	for i := len(m.crew.operators) - 1; i >= 0 && len(m.crew.operators) > want; i-- {
		if m.crew.operators[i].task == nil {
			m.crew.operators = append(m.crew.operators[:i], m.crew.operators[i+1:]...)
		}
	}
}

// breakdowns lets stations break down in the cycle that ends.
func (m *slowModel) breakdowns() {
	cycle := 3600 / m.speed
	for i, s := range m.line.Stations {
		b := s.Where().Breakdowns
		if b.Every == 0 || !m.chance(1-math.Exp(-cycle/float64(b.Every))) {
			continue
		}
		account := &m.out.Stations[i].Repair
		account.Calls++
		t := &slowTask{of: m, station: i, work: b.Repair, account: account}
		m.people.repair = append(m.people.repair, t)
		m.stop(i, CauseBreakdown, t)
	}
}

// techniciansMove lets each technician whose time has come arrive, or finish.
func (m *slowModel) techniciansMove() {
	for i := range m.people.techs {
		m.moves(&m.people.techs[i])
	}
}

// techniciansChoose sends technicians who are free, in the order of the breakdowns.
func (m *slowModel) techniciansChoose() {
	p := m.people
	for len(p.repair) > 0 {
		free := -1
		for i := range p.techs {
			if p.techs[i].task == nil {
				free = i
			}
		}
		switch {
		case free >= 0:
		case m.line.Crew.Technicians > 0:
			return
		default: // as many as are needed
			p.techs = append(p.techs, slowOperator{})
			free = len(p.techs) - 1
		}
		o, t := &p.techs[free], p.repair[0]
		p.repair = p.repair[1:]
		o.task, t.state = t, slowWalking
		o.arrives = m.now + t.of.line.Stations[t.station].Where().Breakdowns.Comes.Draw(m.times)
		o.free = o.arrives + t.work.Draw(m.times)
	}
}

// peopleSpend puts time that has passed to the accounts of all tasks.
func (m *slowModel) peopleSpend(passed sim.Seconds) {
	for _, t := range m.crew.waiting {
		t.account.Waiting += passed
	}
	for _, o := range m.crew.operators {
		o.spends(passed)
	}
	for _, t := range m.people.repair {
		t.account.Waiting += passed
	}
	for _, o := range m.people.techs {
		o.spends(passed)
	}
}

// spends puts time that has passed to the account of what he does.
func (o *slowOperator) spends(passed sim.Seconds) {
	switch {
	case o.task == nil:
	case o.helps && !o.joined || !o.helps && o.task.state == slowWalking:
		o.task.account.Walking += passed
	default:
		o.task.account.Working += passed
	}
}
