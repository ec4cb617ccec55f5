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
//   - slow_set_test.go: what is in a set, and what becomes of it
//   - slow_station_test.go: what each kind of station does with a set
//   - slow_crew_test.go: stops, stocks and the people who attend to them
//   - slow_lanes_test.go: personalised pieces, recovery in line, second faults
//   - slow_realign_test.go: recovery by hand
//   - slow_channel_test.go: documents, gathered and fed
//   - slow_reader_test.go: readers
//   - slow_people_test.go: who is there, breaks, breakdowns and technicians
//   - slow_lots_test.go: lots of pieces, days and drift
//   - slow_job_test.go: a job, pass after pass
//   - slow_begins_test.go: what is there when a shift begins
//   - slow_pace_test.go: cycles that take longer than others
//   - slow_group_test.go: lines that share a crew
//   - slow_atjobs_test.go: such lines at lists of jobs

// slowModel is one shift of a line, or one pass of a job.
type slowModel struct {
	line  *Line
	out   Outcome
	dice  *rand.Rand  // one draw for each question of chance
	times *sim.Stream // durations
	speed float64     // cycles an hour

	begun  sim.Seconds // of a pass, by the clock of all lines; else 0
	now    sim.Seconds
	since  sim.Seconds // when the line last began to run
	ran    int64       // cycles completed since then
	limit  sim.Seconds // when the shift ends; without end for a job
	sets   int64       // of the job; 0 for a shift
	track  []*slowSet  // by pitches from the first station; nil is a pocket before the first set or after the last
	units  []slowUnit  // as the stations
	crew   *slowCrew   // those of all lines that share them
	people *slowPeople // the same
	shared bool        // it has its crew in common with others
	known  string      // the name that people know the line by; "" for that which it has
	stood  bool        // the line stands for the break, or has stood and not run since
	down   *Break      // while the line is down, at lists of jobs; nil if it is not

	channels []*slowChannel // along the track
	head     *slowChannel   // for which the line starves
	between  bool           // a cycle is over and the next has not begun
	starving bool           // for want of a document

	watch func(s *slowSet) // sees every set that is delivered; may be nil

	open      []*slowStop // stops that are not yet over, in the order in which they arose
	began     *slowStop   // began this standstill; nil while the line runs
	restarted sim.Seconds // when the restart delay ends, once the last stop is over

	days []float64 // the factors of the days up to now

	having []map[string]bool // which attributes each set has, from the first, as far as anybody has asked

	row    int64         // sets delivered defective up to now, one right after another
	arose  []sim.Seconds // when each remake did
	pace   slowPace
	before *Outcome // of all that came before the shift; nil if it began afresh
}

// slowUnit is what a station remembers from cycle to cycle.
type slowUnit struct {
	stock   Stock
	hopper  bool // the stock is pieces, not room in a bin or on a belt
	share   float64
	left    int64
	row     int       // misfeeds in a row
	filling *slowTask // the task of the stock, from the call until it is done
	lane    *slowLane // nil for a station whose pieces are all alike
	lot     *slowLot  // nil for a station without lots

	alien   bool        // what the hopper holds is the wrong stock
	noticed sim.Seconds // when an operator sees that
	changed *slowTask   // the task to change it, from the call until it is done
}

// slowRandom is what one replication draws from.
type slowRandom struct {
	dice  *rand.Rand
	times *sim.Stream
}

func newSlowRandom(seed uint64, replication int) slowRandom {
	var key [32]byte
	binary.LittleEndian.PutUint64(key[0:], seed)
	binary.LittleEndian.PutUint64(key[8:], uint64(replication))
	random := slowRandom{rand.New(rand.NewChaCha8(key)), sim.NewStream("slow model", "durations")}
	random.times.Seed(seed, replication)
	return random
}

// run lets the time pass until the shift or the pass is over, and returns what it came to.
func (m *slowModel) run() Outcome {
	m.works()
	m.close()
	return m.out
}

// works lets the time pass up to the limit.
func (m *slowModel) works() {
	m.channelMoves() // the first document that was not there is begun
	for !m.over() {
		to := min(m.nextMoment(), m.limit)
		m.peopleSpend(to - m.now)
		m.elapse(to)
		m.channelMoves()
		m.cycleEnds()
		m.peopleChange()
		m.crewMoves()
		m.techniciansMove()
		m.channelMoves()
		m.restartEnds()
		m.looksForDocument()
		m.crewChooses()
		m.techniciansChoose()
	}
}

// over reports whether the shift has ended, or the last set of the job or its empty pocket
// has come to the delivery.
func (m *slowModel) over() bool {
	if m.sets > 0 {
		return m.out.Cycles == m.sets+int64(len(m.track)-1)
	}
	return m.now >= m.limit
}

// newSlow returns a line at the start of a shift, or of a pass of a number of sets.
func newSlow(l *Line, random slowRandom, sets int64) *slowModel {
	m := &slowModel{
		line:  l,
		limit: l.Shift,
		sets:  sets,
		dice:  random.dice,
		times: random.times,
		speed: slowSpeed(l),
		units: make([]slowUnit, len(l.Stations)),
		crew:  &slowCrew{},
	}
	m.people = &slowPeople{lines: []*slowModel{m}}
	if sets > 0 {
		m.limit = sim.Seconds(math.Inf(1))
	}
	m.out.Stations = make([]StationOutcome, len(l.Stations))
	first, last := l.Stations[0].Where().At, l.Stations[len(l.Stations)-1].Where().At
	m.track = make([]*slowSet, last-first+1)
	for i, s := range l.Stations {
		m.units[i] = slowStock(s)
		for _, a := range l.Attributes {
			if a.Name == slowOnly(s) {
				m.units[i].share *= a.Share // of the sets, in the mean
			}
		}
		m.out.Stations[i].Name = s.Where().Name
		if m.units[i].hopper {
			m.out.Stations[i].Pieces.Loaded = m.units[i].left
		}
	}
	m.layLanes()
	m.theyCome()
	m.atLevel()
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
	return m.since + sim.Seconds(m.ran+1)*sim.Seconds(3600/m.speed) + m.pace.extra + m.slowCycle(m.ran+1)
}

// nextMoment returns when something next happens on the line or among the crew.
func (m *slowModel) nextMoment() sim.Seconds {
	next := sim.Seconds(math.Inf(1))
	switch {
	case m.starving:
	case m.began == nil:
		next = m.cycleEnd()
	case len(m.open) == 0 && !m.standsForBreak():
		next = m.restarted
	}
	for _, c := range m.channels {
		if c.gathering() {
			next = min(next, c.ready)
		}
	}
	for _, o := range m.crew.operators {
		next = min(next, o.next())
	}
	return min(next, m.nextChange())
}

// elapse lets the time pass up to a moment before which nothing happens, and puts it
// to the account of the line's state and of every task's.
func (m *slowModel) elapse(to sim.Seconds) {
	passed := to - m.now
	m.now = to
	switch {
	case m.standsForBreak():
		m.out.Time.Breaks += passed
	case m.starving:
		m.starves(passed)
	case m.began == nil:
		m.out.Time.Running += passed
		m.runsSlowly(passed)
	case len(m.open) == 0 && m.began == slowRest:
		m.out.Time.Breaks += passed
	case len(m.open) == 0:
		m.total(m.began).Restarting += passed
	case m.open[0].task.state == slowWorking:
		m.total(m.open[0]).Working += passed
	default:
		m.total(m.open[0]).Waiting += passed
	}
}

// total returns the account of the line's time that a stop belongs to.
func (m *slowModel) total(s *slowStop) *StopTotal {
	return &m.out.Stations[s.station].Stops[s.cause]
}

// cycleEnds moves every pocket one pitch on if a cycle ends now, and lets each station
// do its work on the set that this has brought to it; then the readers read.
func (m *slowModel) cycleEnds() {
	if m.began != nil || m.starving || m.now < m.cycleEnd() {
		return
	}
	m.ran++
	m.pace.extra += m.slowCycle(m.ran)
	m.out.Cycles++
	m.between = true
	copy(m.track[1:], m.track)
	m.track[0] = m.start(m.out.Cycles)
	for i, s := range m.line.Stations {
		if set := m.track[m.pitch(i)]; set != nil {
			m.handle(i, s, set)
		}
		m.countLot(i)
		m.lookAtStock(i)
		if m.units[i].alien && m.now >= m.units[i].noticed {
			m.changeStock(i)
		}
	}
	for i, s := range m.line.Stations {
		if r, ok := s.(*Reader); ok {
			m.reader(i, r, m.track[m.pitch(i)])
		}
	}
	m.breakdowns()
	m.orderStops()
	m.cycleOver()
	m.breakStops()
}

// start returns set number n, or nil if the job has no such set.
func (m *slowModel) start(n int64) *slowSet {
	if m.sets > 0 && n > m.sets {
		return nil
	}
	m.out.Sets.Started++
	return &slowSet{
		number: n,
		has:    m.has(n),
		due:    make([]bool, len(m.units)),
		pieces: make([]int64, len(m.units)),
		alien:  make([]bool, len(m.units)),
		held:   make([][]slowPiece, len(m.units)),
	}
}

// has returns which attributes a set has, drawn for one set after the other. Those of sets that the
// job does not have are drawn too: pieces may be printed for them.
func (m *slowModel) has(set int64) map[string]bool {
	for int64(len(m.having)) < set {
		has := map[string]bool{}
		for _, a := range m.line.Attributes {
			has[a.Name] = m.chance(a.Share)
		}
		m.having = append(m.having, has)
	}
	return m.having[set-1]
}

// pitch returns how many pitches after the first station the station i stands.
func (m *slowModel) pitch(i int) int {
	return m.line.Stations[i].Where().At - m.line.Stations[0].Where().At
}

// restartEnds sets the line running if its restart delay is over.
func (m *slowModel) restartEnds() {
	if m.began == nil || len(m.open) > 0 || m.standsForBreak() || m.now < m.restarted {
		return
	}
	m.began = nil
	m.between = true
	m.starts()
}

// looksForDocument lets the next cycle begin if it needs no document or the document is
// there; if not, the line starves until it is.
func (m *slowModel) looksForDocument() {
	if !m.between || m.began != nil {
		return
	}
	lacks := m.channelThatLacks()
	switch {
	case lacks == nil && m.starving:
		m.starving, m.between = false, false
		m.starts()
	case lacks == nil:
		m.between = false
	case !m.starving || m.head != lacks:
		m.starving, m.head = true, lacks
		m.lacking()
	}
}

// close writes down what is left at the end of the shift or of the pass.
func (m *slowModel) close() {
	m.out.Time.Shift = m.now - m.begun
	m.out.LeftOver = m.leftOver()
	for _, set := range m.track {
		if set != nil && !set.gone() {
			m.leave(set, slowOnLine)
		}
	}
	for i, u := range m.units {
		if u.hopper {
			m.out.Stations[i].Pieces.Left = u.left
		}
	}
	m.sinceHandover()
}
