package model

import (
	"errors"
	"fmt"

	"netrate/sim"
)

// Sim runs replications of one line, one after the other. It makes everything it needs
// when it is made, so that a replication allocates nothing. It serves one goroutine.
type Sim struct {
	line        *Line
	owner       string // what the random numbers of this line is named by, beside the station; may be ""
	known       string // the name that people know the line by, where it is set up for a job; else ""
	shared      bool   // the crew attends to other lines too
	cycle       sim.Seconds
	begun       sim.Seconds // when the pass in hand began, by the clock of all lines at jobs; else 0
	clocks      sim.Clocks
	crew        *sim.Pool
	roster      *roster   // nil if the crew never changes, or attends to other lines too
	technicians *sim.Pool // nil if nothing breaks down
	breakdowns  []*breakdown
	track       track
	standstill  standstill
	pace        *pace // nil if the line never runs slower than its speed
	units       []Unit
	gates       []*gate     // those that hear of the sets that come; nil elsewhere
	ways        [][Ship]way // of a set condemned at each station
	lanes       []*lane
	readers     []*reader
	menders     []*mender
	mixups      []*mixup   // of the stations whose stock may be wrong; nil for the others
	channels    []*channel // along the track
	jobs        *jobs      // nil if the line works for a shift
	bench       *bench     // where remakes are made beside the line; nil if there is none
	days        *days      // nil if they are all alike
	factors     []*factor  // of the stations whose rates change, but for channels
	streams     []*sim.Stream
	out         *Outcome // of the replication in hand
	tasks       []task   // for the crew
	stocks      []*stock
	choosers    []*feeder // those that feed only some sets
	observer    Observer  // told of all that happens; nil for nobody
	before      *before   // the shift; nil for a line that begins afresh
}

// New returns the line ready to run, or everything that is wrong with it.
func New(l *Line) (*Sim, error) {
	if problems := l.Check(); len(problems) > 0 {
		return nil, errors.Join(problems...)
	}
	s := &Sim{line: l, owner: l.Random}
	s.crew = sim.NewPool(&s.clocks.Shop)
	s.install()
	s.roster = newRoster(&l.Crew, s.crew, &s.clocks.Shop, s)
	return s, nil
}

// install makes all that the line needs to run with its crew.
func (s *Sim) install() {
	l := s.line
	s.cycle, s.track = sim.Seconds(3600/l.RunSpeed()), newTrack(s)
	s.crew.Hold()
	s.staff()
	s.standstill.install(s)
	for i := range l.Stations {
		s.ways = append(s.ways, l.ways(i))
	}
	if l.Days.Given() {
		s.days = newDays(s)
	}
	s.pace = newPace(s)
	s.gates, s.mixups = make([]*gate, len(l.Stations)), make([]*mixup, len(l.Stations))
	for i, station := range l.Stations {
		s.units = append(s.units, station.Install(newSeat(s, i)))
	}
	s.pace.fills()
	s.installBreakdowns()
	s.clocks.AfterCycle = s.crew.Dispatch
	if len(s.channels) > 0 || len(s.readers) > 0 || s.pace != nil || s.technicians != nil {
		s.clocks.AfterCycle = s.afterCycle
	}
	if l.Job.Sets > 0 {
		s.jobs = newJobs(s)
		if l.Job.Closing == Beside {
			s.bench = &s.jobs.bench
		}
	}
	if l.Begins.Before > 0 {
		s.before = newBefore(s)
	}
}

// Run runs one replication into out, whose memory is used again. The same seed and
// replication always give the same outcome.
//
// An error says which ledger of which replication does not balance; it is a mistake of
// this package.
func (s *Sim) Run(seed uint64, replication int, out *Outcome) error {
	if s.jobs != nil {
		return s.jobs.run(seed, replication, s.line.Job.Sets, out)
	}
	s.open(seed, replication, out)
	return s.finish(seed, replication, out)
}

// RunJob runs one replication of a line that works for a job, of another number of sets than
// the line says. It panics if the line works for a shift.
func (s *Sim) RunJob(seed uint64, replication int, sets int64, out *Outcome) error {
	if s.jobs == nil {
		panic("model: a job of a line that works for a shift")
	}
	return s.jobs.run(seed, replication, sets, out)
}

// finish runs the rest of the shift and balances its ledgers.
func (s *Sim) finish(seed uint64, replication int, out *Outcome) error {
	s.clocks.Run(s.opened() + s.line.Shift)
	s.end()
	if err := out.Balance(); err != nil {
		return fmt.Errorf("seed %d, replication %d: %w", seed, replication, err)
	}
	return nil
}

// start lets the line run from now on.
func (s *Sim) start() {
	if s.pace != nil {
		s.pace.start()
	}
	s.clocks.Start()
	s.bench.paces(s)
	s.observe(LineStarts, 0)
	for _, h := range s.channels {
		h.look()
	}
}

// afterCycle is what is done when all stations have done their work in a cycle: readers
// read, then it is seen whether there is a document for the next cycle, then operators
// choose.
func (s *Sim) afterCycle() {
	for _, r := range s.readers {
		if r.reading {
			r.read()
		}
	}
	if s.pace != nil && s.pace.turns {
		s.pace.turn()
	}
	if len(s.channels) > 0 {
		s.channelsAfterCycle()
	}
	s.crew.Dispatch()
	if s.technicians != nil {
		s.technicians.Dispatch()
	}
}

// suspect tells the readers that a set may show them something.
func (s *Sim) suspect(set sim.Cycles) {
	for _, r := range s.readers {
		r.expect(set)
	}
}

func (s *Sim) begin(seed uint64, replication int, out *Outcome) {
	for _, r := range s.streams {
		r.Seed(seed, replication)
	}
	if s.days != nil && s.jobs != nil && s.jobs.day >= 0 {
		s.days.random.Seed(s.jobs.seed, s.jobs.day) // of the job's seed: all its passes are of that day
	}
	if s.before != nil {
		s.before.begin()
	}
	s.clear(out)
}

// clear puts the line at the start of a replication, as its random numbers go on.
func (s *Sim) clear(out *Outcome) {
	if len(out.Stations) != len(s.units) {
		out.Stations = make([]StationOutcome, len(s.units))
		for i, station := range s.line.Stations {
			out.Stations[i].Name = station.Where().Name
		}
	}
	for i := range out.Stations {
		out.Stations[i] = StationOutcome{Name: out.Stations[i].Name}
	}
	out.Job = JobOutcome{}
	s.out = out
	s.clocks.Reset(s.cycle)
	s.clocks.Shop.AdvanceTo(s.begun)
	if !s.shared { // else the line group has done so
		s.crew.Reset(s.line.Crew.Operators)
		if s.technicians != nil {
			s.technicians.Reset(s.line.Crew.technicians())
		}
	}
	s.track.begin()
	s.standstill.begin()
	if s.pace != nil {
		s.pace.begin()
	}
	for _, l := range s.lanes {
		l.begin()
	}
	if s.days != nil {
		s.days.begin()
	}
	for _, m := range s.menders {
		m.errors = 0
	}
	for _, u := range s.units {
		u.Begin()
	}
	for _, x := range s.breakdowns {
		x.begin()
	}
	if s.observer != nil {
		s.tellBegins()
	}
	if s.roster != nil {
		s.roster.begin()
	}
}

func (s *Sim) end() {
	s.standstill.book()
	cycle := s.clocks.Cycle()
	s.track.finish(cycle)
	s.count(cycle)
	s.observeNumber(PassEnds, 0, s.out.Sets.Started)
	if s.before != nil {
		s.before.takeOff(s.out)
	}
}

// count writes down what has come of it all by the end of the cycle.
func (s *Sim) count(cycle sim.Cycles) {
	lost := s.track.sets
	s.out.Cycles, s.out.LongestRun, s.out.LeftOver = int64(cycle), s.track.run.longest, s.standstill.leftOver()
	s.out.Time = Time{Shift: s.clocks.Shop.Now() - s.begun, Running: s.clocks.Ran(), Breaks: s.standstill.breaks}
	if s.pace != nil {
		s.pace.book()
		s.out.Time.Slow = s.pace.slow
	}
	s.out.Sets = Sets{
		Started:   int64(min(cycle, s.track.last)),
		Good:      s.track.handled(len(s.units)-1, cycle) - lost[Defective],
		Defective: lost[Defective],
		Diverted:  lost[Diverted],
		Outsorted: lost[Outsorted],
		Spoiled:   lost[Spoiled],
		OnLine:    lost[OnLine],
	}
	for i, u := range s.units {
		u.End(cycle, &s.out.Stations[i])
		o := &s.out.Stations[i]
		o.Lost, o.Remakes = s.track.losses[i], s.track.remakes[i]
		o.Defective, o.Runs = s.track.defects[i], s.track.run.begun[i]
	}
	for _, x := range s.breakdowns {
		s.out.Stations[x.station].Repair = x.task.Account()
	}
}

// due reports whether a timer is still to run in this very cycle.
func (s *Sim) due(t *sim.Slot) bool {
	at, waiting := t.At()
	return waiting && at <= s.clocks.Track.Now()
}

// stream returns a new random stream, seeded for each replication.
func (s *Sim) stream(owner, purpose string) *sim.Stream {
	if s.owner != "" {
		owner = s.owner + ", " + owner
	}
	r := sim.NewStream(owner, purpose)
	s.streams = append(s.streams, r)
	return r
}

// fixer returns the stop for faults at a station: an operator clears them.
func (s *Sim) fixer(station int, clear sim.Duration, own *Clearings) *stop {
	p := &stop{station: station}
	work := func() sim.Duration { return own.Of(p.cause.clears(), usually(clear)) }
	p.task = s.timed(station, ClearFault, work, func() { s.standstill.over(p) })
	return p
}

// pieces returns what became of the pieces of a station's hopper, but for those in good
// sets.
func (s *Sim) pieces(station int, k *stock, cycle sim.Cycles) Pieces {
	f := s.track.pieces[station]
	return Pieces{
		Loaded:    k.filled,
		Defective: f[Defective],
		Diverted:  f[Diverted],
		Outsorted: f[Outsorted],
		Spoiled:   f[Spoiled],
		OnLine:    f[OnLine],
		Left:      k.close(cycle),
	}
}
