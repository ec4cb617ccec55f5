package model

import (
	"fmt"
	"slices"

	"netrate/sim"
)

// slowStop is one reason for the line to stand.
type slowStop struct {
	station int
	cause   Cause
	order   int // in which the stops arose
	task    *slowTask
}

type slowState int

const (
	slowWaiting slowState = iota // for an operator to take it up
	slowWalking                  // he is on his way
	slowWorking                  // he is at work
)

// slowTask is one thing for an operator to do.
type slowTask struct {
	of      *slowModel // the line
	station int
	work    sim.Duration
	account *sim.Account
	state   slowState
	fills   bool      // it makes good the station's stock
	rank    float64   // of such a task: the lowest goes first
	stop    *slowStop // the stop it ends; nil if the line does not stand for it
	inTurn  bool      // though the line stands for it, it keeps its place among the stocks
	lanes   []int     // to be realigned when it is done
	second  bool      // the same for those in recovery then: it clears a second fault
	changes bool      // it changes a wrong stock
	changed func()    // it is a piece of a changeover: what its end does
	known   string    // of a piece of a changeover, the line by its name
	piece   string    // and the station that it is of; "" for none
	done    func()    // of a channel that has stopped: what its end does; nil for all else
}

// slowOperator is one of the crew. He is free if he has no task.
type slowOperator struct {
	task    *slowTask
	arrives sim.Seconds
	free    sim.Seconds // when he has finished; of one who helps, when the other has
	number  int         // among those that are stated one by one
	away    bool        // from the station at which he stays
	helps   bool        // the one who does the task
	joined  bool        // and is there
}

type slowCrew struct {
	operators []slowOperator
	waiting   []*slowTask // in order of call
	arisen    int         // stops so far
}

// faultStop stops the line for a fault at station i, which an operator must clear, and
// returns his task.
func (m *slowModel) faultStop(i int, cause Cause, work sim.Duration) *slowTask {
	m.units[i].row = 0
	work = slowOwnTime(m.line.Stations[i], cause, work)
	t := m.call(&slowTask{station: i, work: work, account: &m.out.Stations[i].Clearing})
	m.stop(i, cause, t)
	return t
}

// slowOwnTime returns how long an operator works at a stop for the cause, where otherwise is
// the time if the station has none for just that fault.
func slowOwnTime(s Station, cause Cause, otherwise sim.Duration) sim.Duration {
	var own Clearings
	switch s := s.(type) {
	case *Feeder:
		own = s.Clearings
	case *Channel:
		own = s.Clearings
	case *Inserter:
		own = s.Clearings
	case *Reader:
		own = s.Clearings
	case *Device:
		own = s.Clearings
	}
	fault := Fault(cause)
	if cause == CauseStreak {
		fault = Misfeed
	}
	if own[fault] == nil {
		return otherwise
	}
	return own[fault]
}

// orderStops puts the stops that arose in the cycle that has ended in order along the
// track: readers have read last, wherever they stand. A line that ran has no others.
func (m *slowModel) orderStops() {
	if len(m.open) == 0 {
		return
	}
	m.crew.arisen -= len(m.open)
	slices.SortStableFunc(m.open, func(a, b *slowStop) int { return a.station - b.station })
	for _, s := range m.open {
		s.order = m.crew.arisen
		m.crew.arisen++
	}
	m.began = m.open[0]
}

// stopChannel calls an operator to a channel that has stopped: a task for a stop, though
// the line goes on.
func (m *slowModel) stopChannel(i int, cause Cause, work sim.Duration, done func()) *slowStop {
	t := m.call(&slowTask{station: i, work: work, account: &m.out.Stations[i].Clearing, done: done})
	t.stop = &slowStop{station: i, cause: cause, order: m.crew.arisen, task: t}
	m.crew.arisen++
	return t.stop
}

// stop stops the line until the task is done.
func (m *slowModel) stop(i int, cause Cause, task *slowTask) {
	s := &slowStop{station: i, cause: cause, order: m.crew.arisen, task: task}
	task.stop = s
	m.crew.arisen++
	m.open = append(m.open, s)
	m.total(s).Count++
	if m.began == nil {
		m.began = s
	}
}

// lookAtStock calls an operator if the stock of station i runs low, and stops the line
// if it is used up.
func (m *slowModel) lookAtStock(i int) {
	unit := &m.units[i]
	if unit.stock.Capacity == 0 {
		return
	}
	if unit.left <= unit.stock.Warn && unit.filling == nil {
		unit.filling = m.call(&slowTask{
			station: i, work: unit.stock.Work, account: &m.out.Stations[i].Stock, fills: true,
			rank: m.rank(i),
		})
	}
	if unit.left == 0 {
		m.stop(i, CauseStock, unit.filling)
		unit.filling.inTurn = m.line.Crew.Exhausted == InTurn
	}
}

// rank returns what the order kept by the crew makes of the stock of station i, which
// calls now.
func (m *slowModel) rank(i int) float64 {
	if m.shared {
		return m.rankOfSeveral(i)
	}
	switch m.line.Crew.Order {
	case MostUrgent: // the cycle in which it would be used up
		return float64(m.out.Cycles) + float64(m.units[i].left)/m.units[i].share
	case AlongTheTrack:
		return float64(i)
	case FirstCome:
		return float64(m.out.Cycles)
	}
	panic(fmt.Sprintf("slow model: order %v", m.line.Crew.Order))
}

// call puts a task at the end of those that wait.
func (m *slowModel) call(t *slowTask) *slowTask {
	t.of = m
	t.account.Calls++
	m.crew.waiting = append(m.crew.waiting, t)
	return t
}

// crewChooses sends free operators to tasks as long as there are both.
func (m *slowModel) crewChooses() {
	if m.line.Crew.People != nil {
		m.theyChoose()
		m.helpersChoose()
		return
	}
	for i := range m.crew.operators {
		o := &m.crew.operators[i]
		if o.task != nil || len(m.crew.waiting) == 0 {
			continue
		}
		next := m.crew.next()
		o.task = m.crew.waiting[next]
		m.crew.waiting = slices.Delete(m.crew.waiting, next, next+1)
		o.task.state = slowWalking
		o.arrives = o.task.of.arrives(o.task, m.walkTo(o.task))
		o.free = o.arrives + o.task.work.Draw(m.times)
	}
	m.helpersChoose()
}

// walkTo returns how long somebody walks to a task. Nobody does for a changeover.
func (m *slowModel) walkTo(t *slowTask) sim.Seconds {
	if t.changed != nil {
		return 0
	}
	return m.line.Crew.Walk.Draw(m.times)
}

// next returns the place, among the waiting tasks, of the one to be taken up first.
func (c *slowCrew) next() int {
	best := 0
	for i, t := range c.waiting {
		if t.before(c.waiting[best]) {
			best = i
		}
	}
	return best
}

// before reports whether a task goes before another that was called earlier.
func (t *slowTask) before(u *slowTask) bool {
	if t.changed != nil || u.changed != nil { // after all else
		return t.changed == nil
	}
	first, second := t.stop != nil && !t.inTurn, u.stop != nil && !u.inTurn
	switch {
	case first && second:
		return t.stop.order < u.stop.order
	case !first && !second:
		return t.rank < u.rank
	}
	return first
}

// crewMoves lets each operator whose time has come arrive, or finish.
func (m *slowModel) crewMoves() {
	for i := range m.crew.operators {
		m.moves(&m.crew.operators[i])
	}
	m.present() // who was to go and has finished goes
}

// moves lets an operator whose time has come arrive, or finish.
func (m *slowModel) moves(o *slowOperator) {
	if o.helps {
		m.joins(o)
		return
	}
	if o.task != nil && m.now >= o.arrives {
		o.task.state = slowWorking
	}
	if o.task != nil && m.now >= o.free {
		m.helpEnds(o.task)
		o.task.of.finish(o.task)
		o.task = nil
	}
}

// finish does what an operator's work was for.
func (m *slowModel) finish(t *slowTask) {
	if t.fills {
		m.fill(t.station)
	}
	t.account.Done++
	switch {
	case t.changed != nil:
		t.changed()
		return
	case t.stop == nil:
		return
	case t.done != nil:
		t.done()
		return
	}
	m.realigns(t)
	if t.changes {
		m.changed(t.station)
	}
	m.open = slices.DeleteFunc(m.open, func(s *slowStop) bool { return s == t.stop })
	if len(m.open) == 0 && !m.standsForBreak() {
		m.restarted = max(m.now, m.pace.rest) + m.line.Restart.Draw(m.times)
	}
}

// leftOver returns what is left to do for faults.
func (m *slowModel) leftOver() (left LeftOver) {
	for _, s := range m.open {
		if s.cause == CauseStock {
			continue
		}
		for _, o := range slices.Concat(m.crew.operators, m.people.techs) {
			if o.task == s.task && !o.helps {
				left.Work += o.free - m.now
			}
		}
	}
	switch {
	case m.began == nil || m.began == slowRest || m.began.cause == CauseStock:
	case len(m.open) == 0 && !m.standsForBreak():
		left.Restart = m.restarted - m.now
	default:
		left.Restart = m.line.Restart.Mean()
	}
	return left
}

// fill makes the stock of station i full again.
func (m *slowModel) fill(i int) {
	unit := &m.units[i]
	unit.filling = nil
	if unit.left < unit.stock.Capacity {
		m.brings(i)
	}
	missing := max(0, unit.stock.Capacity-unit.left)
	if unit.hopper {
		m.out.Stations[i].Pieces.Loaded += missing
	}
	if missing > 0 && unit.lane == nil {
		m.brought(i)
	}
	if unit.lane != nil && !unit.lane.documents {
		m.load(i, missing)
		return
	}
	unit.left += missing
}
