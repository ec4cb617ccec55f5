package model

import (
	"encoding/binary"
	"math"
	"math/rand/v2"

	"netrate/sim"
)

// This is the slow model: the rules of the package, followed one cycle, one pocket,
// one draw and one operator at a time. It shares with the engine the specification,
// the Outcome and the drawing of durations, and nothing else. It is written to be
// checked against the rules line by line; the engine is then checked against it.
//
//   - slow_test.go: the moments of a shift, the track, and where the time goes
//   - slow_station_test.go: what each kind of station does with a set
//   - slow_crew_test.go: stops, stocks and the people who attend to them

// slowSet is the contents of one pocket.
type slowSet struct {
	pieces    []int64 // taken from the hopper of each station
	divert    bool    // condemned, to leave at a track gate
	outsort   bool    // condemned, to leave at an exit gate
	defective bool    // not as it should be, though perhaps nobody knows
}

func (s *slowSet) condemned() bool { return s.divert || s.outsort }

// slowModel is one shift of a line.
type slowModel struct {
	line  *Line
	out   Outcome
	dice  *rand.Rand  // one draw for each question of chance
	times *sim.Stream // durations
	speed float64     // cycles an hour

	now   sim.Seconds
	since sim.Seconds // when the line last began to run
	ran   int64       // cycles completed since then
	track []*slowSet  // by pitches from the first station; nil is an empty pocket
	units []slowUnit  // as the stations
	crew  slowCrew

	open      []*slowStop // stops that are not yet over, in the order in which they arose
	began     *slowStop   // began this standstill; nil while the line runs
	restarted sim.Seconds // when the restart delay ends, once the last stop is over
	arisen    int         // stops so far
}

// slowUnit is what a station remembers from cycle to cycle.
type slowUnit struct {
	stock   Stock
	hopper  bool // the stock is pieces, not room in a bin or on a belt
	share   float64
	left    int64
	row     int       // misfeeds in a row
	filling *slowTask // the task of the stock, from the call until it is done
}

// slowRun returns the outcome of one shift.
func slowRun(l *Line, seed uint64, replication int) Outcome {
	m := newSlow(l, seed, replication)
	for m.now < l.Shift {
		m.elapse(min(m.nextMoment(), l.Shift))
		m.cycleEnds()
		m.crewMoves()
		m.restartEnds()
		m.crewChooses()
	}
	m.close()
	return m.out
}

func newSlow(l *Line, seed uint64, replication int) *slowModel {
	var key [32]byte
	binary.LittleEndian.PutUint64(key[0:], seed)
	binary.LittleEndian.PutUint64(key[8:], uint64(replication))
	m := &slowModel{
		line:  l,
		dice:  rand.New(rand.NewChaCha8(key)),
		times: sim.NewStream("slow model", "durations"),
		speed: slowSpeed(l),
		units: make([]slowUnit, len(l.Stations)),
		crew:  slowCrew{operators: make([]slowOperator, l.Crew.Operators)},
	}
	m.times.Seed(seed, replication)
	m.out.Stations = make([]StationOutcome, len(l.Stations))
	first, last := l.Stations[0].Where().At, l.Stations[len(l.Stations)-1].Where().At
	m.track = make([]*slowSet, last-first+1)
	for i, s := range l.Stations {
		m.units[i] = slowStock(s)
		m.out.Stations[i].Name = s.Where().Name
		if m.units[i].hopper {
			m.out.Stations[i].Pieces.Loaded = m.units[i].left
		}
	}
	return m
}

// slowSpeed returns the lowest of the speed asked for and the rated speeds.
func slowSpeed(l *Line) float64 {
	lowest := math.Inf(1)
	if l.Speed > 0 {
		lowest = l.Speed
	}
	for _, s := range l.Stations {
		if rated := s.Where().Rated; rated > 0 {
			lowest = math.Min(lowest, rated)
		}
	}
	return lowest
}

// cycleEnd returns when the cycle in hand ends, if the line goes on running.
func (m *slowModel) cycleEnd() sim.Seconds {
	return m.since + sim.Seconds(m.ran+1)*sim.Seconds(3600/m.speed)
}

// nextMoment returns when something next happens on the line or among the crew.
func (m *slowModel) nextMoment() sim.Seconds {
	next := sim.Seconds(math.Inf(1))
	switch {
	case m.began == nil:
		next = m.cycleEnd()
	case len(m.open) == 0:
		next = m.restarted
	}
	for _, o := range m.crew.operators {
		switch {
		case o.task == nil:
		case o.task.state == slowWalking:
			next = min(next, o.arrives)
		default:
			next = min(next, o.free)
		}
	}
	return next
}

// elapse lets the time pass up to a moment before which nothing happens, and puts it
// to the account of the line's state and of every task's.
func (m *slowModel) elapse(to sim.Seconds) {
	passed := to - m.now
	m.now = to
	switch {
	case m.began == nil:
		m.out.Time.Running += passed
	case len(m.open) == 0:
		m.total(m.began).Restarting += passed
	case m.open[0].task.state == slowWorking:
		m.total(m.open[0]).Working += passed
	default:
		m.total(m.open[0]).Waiting += passed
	}
	for _, t := range m.crew.waiting {
		t.account.Waiting += passed
	}
	for _, o := range m.crew.operators {
		switch {
		case o.task == nil:
		case o.task.state == slowWalking:
			o.task.account.Walking += passed
		default:
			o.task.account.Working += passed
		}
	}
}

// total returns the account of the line's time that a stop belongs to.
func (m *slowModel) total(s *slowStop) *StopTotal {
	return &m.out.Stations[s.station].Stops[s.cause]
}

// cycleEnds moves every pocket one pitch on if a cycle ends now, and lets each station
// do its work on the set that this has brought to it.
func (m *slowModel) cycleEnds() {
	if m.began != nil || m.now < m.cycleEnd() {
		return
	}
	m.ran++
	m.out.Cycles++
	m.out.Sets.Started++
	copy(m.track[1:], m.track)
	m.track[0] = &slowSet{pieces: make([]int64, len(m.units))}
	first := m.line.Stations[0].Where().At
	for i, s := range m.line.Stations {
		m.handle(i, s, &m.track[s.Where().At-first])
		m.lookAtStock(i)
	}
}

// restartEnds sets the line running if its restart delay is over.
func (m *slowModel) restartEnds() {
	if m.began == nil || len(m.open) > 0 || m.now < m.restarted {
		return
	}
	m.began = nil
	m.since, m.ran = m.now, 0
}

// close writes down what is left at the end of the shift.
func (m *slowModel) close() {
	m.out.Time.Shift = m.line.Shift
	for p, set := range m.track {
		if set != nil {
			m.leave(&m.track[p], &m.out.Sets.OnLine, func(p *Pieces) *int64 { return &p.OnLine })
		}
	}
	for i, u := range m.units {
		if u.hopper {
			m.out.Stations[i].Pieces.Left = u.left
		}
	}
}
