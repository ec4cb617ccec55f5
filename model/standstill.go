package model

import (
	"math"

	"netrate/sim"
)

// standstill is the line at rest: which stops are open, and whose each moment is.
type standstill struct {
	s        *Sim
	starving *stop   // of the channel, while the line stands for want of a document
	open     []*stop // in the order in which they arose
	first    *stop   // the one that began this standstill
	since    sim.Seconds
	again    sim.Seconds // when the restart delay is over
	restart  *sim.Alarm
	random   *sim.Stream

	slowing sim.Seconds // how long the line takes to come to rest
	rest    sim.Seconds // when it is at rest, or was

	pausing stop      // stands for a break as if for a stop: the first of all
	resting bool      // the line stands for a break
	pause   *sim.Slot // when it begins to; nil if there is no such break
	breaks  sim.Seconds
}

// stop is one reason to stand, made once for each station and reused.
type stop struct {
	station int
	cause   Cause
	task    *sim.Task // what ends it
	open    bool
	rank    float64 // by the cycle in which it arose, then along the track
	lanes   uint8   // those that the operator realigns when he has cleared it, a bit each
	second  bool    // a second fault: he realigns those in recovery too
}

// The classes of tasks for the crew.
const (
	stops  = iota // the line stands for it
	stocks        // the line runs, for now
)

func (st *standstill) install(s *Sim) {
	st.s = s
	st.restart = s.clocks.Shop.Timer(st.run)
	st.random = s.stream("line", "restart")
	st.pausing.rank = -1
	st.slowing = s.line.Slow.Stopping.costs(s.cycle)
}

func (st *standstill) begin() {
	for _, p := range st.open {
		p.open, p.lanes, p.second = false, 0, false
	}
	st.starving = nil
	st.open = st.open[:0]
	st.resting, st.breaks, st.rest = false, 0, 0
}

// arise opens a stop at the end of the present cycle.
func (st *standstill) arise(p *stop, cause Cause) {
	if st.s.clocks.Running() {
		st.s.clocks.Halt()
		st.s.observe(LineHalts, p.station)
		st.first, st.since = p, st.s.clocks.Shop.Now()
		st.rest = st.since + st.slowing
	}
	p.cause, p.open = cause, true
	p.rank = float64(float64(st.s.clocks.Track.Now())*maxStations) + float64(p.station)
	if cause == CauseBreakdown { // the last of its station
		p.rank += 0.5
	}
	if p.rank < st.first.rank {
		st.first = p
	}
	st.insert(p)
	st.total(p).Count++
	st.s.pace.stopped(p.station, cause)
	st.s.observeStop(StopArises, p.station, cause)
	switch {
	case cause == CauseStock && st.s.line.Crew.Exhausted == InTurn: // its task keeps its place
	case p.task.Idle():
		p.task.Call(stops, 0)
	default:
		p.task.Hasten(stops, 0)
	}
}

// insert puts a stop among the open ones by its rank; of one station's, the later last.
func (st *standstill) insert(p *stop) {
	i := len(st.open)
	st.open = append(st.open, p)
	for ; i > 0 && st.open[i-1].rank > p.rank; i-- {
		st.open[i] = st.open[i-1]
	}
	st.open[i] = p
}

// over closes a stop; the last one to close lets the line restart.
func (st *standstill) over(p *stop) {
	st.book()
	st.realign(p)
	p.open = false
	st.s.observeStop(StopEnds, p.station, p.cause)
	for i, q := range st.open {
		if q == p {
			st.open = append(st.open[:i], st.open[i+1:]...)
			break
		}
	}
	if len(st.open) == 0 && !st.resting {
		st.restarts()
	}
}

// restarts lets the line run after the restart delay.
func (st *standstill) restarts() {
	st.again = max(st.s.clocks.Shop.Now(), st.rest) + st.s.line.Restart.Draw(st.random)
	st.restart.Set(st.again)
}

// realign puts in step the lanes that the operator has seen to with a stop.
func (st *standstill) realign(p *stop) {
	if p.second {
		p.lanes |= st.s.inRecovery()
	}
	st.s.realign(p.lanes)
	p.lanes, p.second = 0, false
}

func (st *standstill) run() {
	st.book()
	if h := st.s.lacking(); h != nil {
		st.starve(h)
		for _, h := range st.s.channels {
			h.wake()
		}
		return
	}
	st.s.start()
}

// book gives the time since it was last called to the stop whose time it was.
func (st *standstill) book() {
	if st.s.clocks.Running() {
		return
	}
	now, head := st.s.clocks.Shop.Now(), st.starving
	if head == nil && len(st.open) > 0 {
		head = st.open[0]
	}
	switch {
	case st.resting || head == nil && st.first == &st.pausing:
		st.breaks += now - st.since
		st.s.observeBreak(st.since, now)
	case head == nil:
		st.total(st.first).Restarting += now - st.since
		st.s.observeStood(st.first, Restarting, st.since, now)
	case head.cause == CauseStarved:
		st.total(head).Starved += now - st.since
		st.s.observeStood(head, Starving, st.since, now)
	default:
		arrival := min(max(head.task.Arrival(), st.since), now)
		st.total(head).Waiting += arrival - st.since
		st.total(head).Working += now - arrival
		st.s.observeStood(head, Waiting, st.since, arrival)
		st.s.observeStood(head, Working, arrival, now)
	}
	st.since = now
}

func (st *standstill) total(p *stop) *StopTotal { return &st.s.out.Stations[p.station].Stops[p.cause] }

// leftOver returns what is left to do for faults for which the line stands.
func (st *standstill) leftOver() (left LeftOver) {
	if st.s.clocks.Running() || st.starving != nil {
		return left
	}
	now := st.s.clocks.Shop.Now()
	for _, p := range st.open {
		if p.cause != CauseStock && !math.IsInf(float64(p.task.Arrival()), 1) {
			left.Work += p.task.Ends() - now
		}
	}
	switch {
	case st.first.cause == CauseStock || st.first == &st.pausing:
	case len(st.open) == 0 && !st.resting:
		left.Restart = st.again - now
	default:
		left.Restart = st.s.line.Restart.Mean()
	}
	return left
}
