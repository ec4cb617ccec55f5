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
	done   *sim.Slot   // when the last set has left
	random *sim.Stream
	again  bool // a pass that is not the first of its job
	goesOn bool // a job goes on with the lots of the one before it
	bench  bench
}

func newJobs(s *Sim) *jobs {
	return &jobs{s: s, done: s.clocks.Track.Timer(s.clocks.End), random: s.stream("job", "setup")}
}

// run runs one job of a number of sets into out, as Sim.Run does.
func (j *jobs) run(seed uint64, replication int, sets int64, out *Outcome) error {
	job := &j.s.line.Job
	j.clear(out)
	j.setup = 0
	for {
		random := seed ^ uint64(out.Job.Passes)*passRandom
		j.again = out.Job.Passes > 0
		if err := j.once(random, replication, sets); err != nil {
			return err
		}
		out.Add(&j.pass)
		out.Job.Passes++
		sets = j.pass.Remakes()
		if sets == 0 || job.Closing == Open {
			break
		}
		if job.Closing.Manual() {
			out.Job.ByHand, out.Job.Hand = sets, j.byHand(sets)
			break
		}
		if out.Job.Passes == maxPasses {
			return fmt.Errorf("seed %d, replication %d: after %d passes %d remakes are still open: this line cannot close a job", seed, replication, maxPasses, sets)
		}
		j.setup = job.Setup.Draw(j.random)
		out.Job.Setup += j.setup
	}
	out.Job.Finish = out.Time.Shift + out.Job.Setup + out.Job.Hand
	return nil
}

// byHand returns how long remakes are made by hand once the line is done.
func (j *jobs) byHand(remakes int64) sim.Seconds {
	job := &j.s.line.Job
	if job.Closing == Beside {
		return max(0, j.bench.done(sim.Seconds(3600/job.PerHour))-j.pass.Time.Shift)
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

// once runs one pass of a number of sets. Each pass has random streams of its own; that of the first is
// the random numbers of a shift.
func (j *jobs) once(seed uint64, replication int, sets int64) error {
	s := j.s
	s.track.last = sim.Cycles(sets)
	j.bench.begin()
	s.begin(seed, replication, &j.pass)
	j.done.Set(s.track.last + s.track.end)
	s.start()
	s.clocks.Run(math.MaxFloat64)
	s.end()
	if err := j.pass.Balance(); err != nil {
		return fmt.Errorf("seed %d, replication %d: %w", seed, replication, err)
	}
	return nil
}

// KeepLots says whether the next job goes on with the lots of the one before it, where that has
// left them, or begins somewhere in lots of its own. It panics if the line works for a shift.
func (s *Sim) KeepLots(keep bool) {
	if s.jobs == nil {
		panic("model: lots of a job are kept on a line that works for a shift")
	}
	s.jobs.goesOn = keep
}

// keeps reports whether the lots are those of the pass or the job before.
func (s *Sim) keeps() bool { return s.jobs != nil && (s.jobs.again || s.jobs.goesOn) }
