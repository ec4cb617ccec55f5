package model

import (
	"cmp"
	"slices"

	"netrate/sim"
)

// sharedBench is the one bench at which the remakes of all jobs of several lines are made by hand. The
// remakes of a job come to be known when its pass ends, and no line waits for them: so when they are
// made is worked out at the end, of all jobs together.
type sharedBench struct {
	remakes []sharedRemake
}

// sharedRemake is some remakes of one job that came at once.
type sharedRemake struct {
	at   sim.Seconds
	line int
	work sim.Seconds // at all of them
	of   *JobRun
}

func (b *sharedBench) begin() { b.remakes = b.remakes[:0] }

// takes notes the remakes of a job of a line whose pass has ended.
func (b *sharedBench) takes(line int, of *JobRun, s *Sim) {
	each := sim.Seconds(3600 / s.line.Job.PerHour)
	for _, r := range s.jobs.bench.came() {
		b.remakes = append(b.remakes, sharedRemake{r.at, line, sim.Seconds(sim.Seconds(r.n) * each), of})
	}
}

// close makes all remakes, once the bench is done with those that lay there before, and says of each job
// when its last one is made.
func (b *sharedBench) close(busy sim.Seconds) {
	slices.SortStableFunc(b.remakes, func(x, y sharedRemake) int {
		return cmp.Or(cmp.Compare(x.at, y.at), cmp.Compare(x.line, y.line))
	})
	now := busy
	for _, r := range b.remakes {
		now = max(now, r.at) + r.work
		r.of.Finished = max(r.of.Free, now)
	}
	for _, r := range b.remakes {
		job := &r.of.Outcome.Job
		hand := r.of.Finished - r.of.Free
		job.Finish, job.Hand = r.of.Outcome.Time.Shift+job.Setup+hand, hand
	}
}
