package model

import (
	"fmt"
	"math"

	"netrate/sim"
)

// maxPasses is how many passes a job may take: with more, hardly anything is closed.
const maxPasses = 100

// passRandom tells the random numbers of one pass from that of the next: an odd number, 2⁶⁴ over the
// golden ratio.
const passRandom = 0x9e3779b97f4a7c15

// jobs runs a line to the end of a job, pass after pass.
type jobs struct {
	s      *Sim
	pass   Outcome
	setup  sim.Seconds // before the pass that is next
	ended  func()      // called when the last set has left
	done   *sim.Slot   // when that is
	random *sim.Stream
	again  bool // a pass that is not the first of its job
	goesOn bool // a job goes on with the lots of the one before it
	day    int  // that the next job is of; -1 for one of its own
	bench  bench
	kept   kept // what was left in the hoppers

	seed        uint64 // of the job in hand
	replication int
	sets        int64 // of the pass that is next
	out         *Outcome
}

func newJobs(s *Sim) *jobs {
	j := &jobs{s: s, day: -1, ended: s.clocks.End, random: s.stream("job", "setup"), kept: newKept(s)}
	j.done = s.clocks.Track.Timer(func() { j.ended() })
	return j
}

// run runs one job of a number of sets into out, as Sim.Run does.
func (j *jobs) run(seed uint64, replication int, sets int64, out *Outcome) error {
	j.opens(seed, replication, sets, out)
	for {
		j.begins()
		j.s.clocks.Run(math.MaxFloat64)
		if again, _, err := j.ends(); !again || err != nil {
			return err
		}
	}
}

// opens puts a job before the line.
func (j *jobs) opens(seed uint64, replication int, sets int64, out *Outcome) {
	j.clear(out)
	j.setup = 0
	j.seed, j.replication, j.sets, j.out = seed, replication, sets, out
	j.kept.opens()
}

// begins lets the line begin the pass that is next. Each pass has random streams of its own; that of
// the first is the random numbers of a shift.
func (j *jobs) begins() {
	s, passes := j.s, j.out.Job.Passes
	j.again = passes > 0
	s.track.last = sim.Cycles(j.sets)
	j.bench.begin()
	s.begin(j.seed^uint64(passes)*passRandom, j.replication, &j.pass)
	j.kept.begins()
	j.done.Set(s.track.last + s.track.end)
	s.start()
}

// ends closes a pass, and says whether there is another, and for how long the line is held: by the
// setup before it, or until the last remakes are made by hand.
func (j *jobs) ends() (again bool, held sim.Seconds, err error) {
	job, out := &j.s.line.Job, j.out
	j.s.end()
	j.kept.ends()
	if err := j.pass.Balance(); err != nil {
		return false, 0, fmt.Errorf("seed %d, replication %d: %w", j.seed, j.replication, err)
	}
	out.Add(&j.pass)
	out.Job.Passes++
	j.sets = j.pass.Remakes()
	switch {
	case j.sets == 0 || job.Closing == Open:
	case job.Closing.Manual():
		held = j.byHand(j.sets)
		out.Job.ByHand, out.Job.Hand = j.sets, held
	case out.Job.Passes == maxPasses:
		return false, 0, fmt.Errorf("seed %d, replication %d: after %d passes %d remakes are still open: this line cannot close a job", j.seed, j.replication, maxPasses, j.sets)
	default:
		again, held = true, job.Setup.Draw(j.random)
		j.setup = held
		out.Job.Setup += held
	}
	out.Job.Finish = out.Time.Shift + out.Job.Setup + out.Job.Hand
	return again, held, nil
}

// byHand returns how long remakes are made by hand once the line is done.
func (j *jobs) byHand(remakes int64) sim.Seconds {
	job := &j.s.line.Job
	if job.Closing == Beside {
		return max(0, j.bench.done(sim.Seconds(3600/job.PerHour))-j.s.clocks.Shop.Now())
	}
	return sim.Seconds(float64(remakes) * 3600 / job.PerHour)
}

// clear makes an outcome zero.
func (j *jobs) clear(out *Outcome) {
	stations := out.Stations
	if len(stations) != len(j.s.units) {
		stations = make([]StationOutcome, len(j.s.units))
	}
	clear(stations)
	*out = Outcome{Stations: stations}
}

// KeepLots says whether the next job goes on with the lots of the one before it, where that has
// left them, or begins somewhere in lots of its own. It panics if the line works for a shift.
func (s *Sim) KeepLots(keep bool) {
	if s.jobs == nil {
		panic("model: lots of a job are kept on a line that works for a shift")
	}
	s.jobs.goesOn = keep
}

// OnDay says of which day the next jobs are: those of one day and seed have its factor in common, in
// all their passes and also on different lines; -1 for a day of its own for each pass, as at first. It
// panics if the line works for a shift.
func (s *Sim) OnDay(day int) {
	if s.jobs == nil {
		panic("model: a day of a job on a line that works for a shift")
	}
	s.jobs.day = day
}

// BenchBusy says until when, from the start of the next job, the bench beside the line is at the remakes
// of jobs before; 0, as at first, for a bench that is free. It panics if the line works for a shift.
func (s *Sim) BenchBusy(until sim.Seconds) {
	if s.jobs == nil {
		panic("model: the bench of a job is busy on a line that works for a shift")
	}
	s.jobs.bench.busy = until
}

// keeps reports whether the lots are those of the pass or the job before.
func (s *Sim) keeps() bool { return s.jobs != nil && (s.jobs.again || s.jobs.goesOn) }
