package model

import "netrate/sim"

// slowRun returns the outcome of one replication: a shift, or a job with all its passes.
func slowRun(l *Line, seed uint64, replication int) Outcome {
	return slowWatched(l, seed, replication, nil)
}

// slowWatched is slowRun in sight of a watch, which may be nil.
func slowWatched(l *Line, seed uint64, replication int, watch func(*slowSet)) Outcome {
	random := newSlowRandom(seed, replication)
	if l.Job.Sets == 0 {
		return slowShift(l, random, watch)
	}
	return (&slowJob{line: l, random: random, watch: watch}).run()
}

// run returns the outcome of the job with all its passes.
func (j *slowJob) run() Outcome {
	l := j.line
	out := j.pass(l.Job.Sets)
	remakes := out.Remakes()
	out.Job.Passes = 1
	switch l.Job.Closing {
	case Open:
	case ByHand:
		out.Job.ByHand = remakes
		out.Job.Hand = sim.Seconds(float64(remakes) * 3600 / l.Job.PerHour)
	case Beside:
		out.Job.ByHand = remakes
		free := j.busy // when the bench is
		for _, at := range j.arose {
			free = max(free, at) + sim.Seconds(3600/l.Job.PerHour)
		}
		out.Job.Hand = max(0, free-out.Time.Shift)
	case SecondPass:
		for remakes > 0 {
			out.Job.Setup += l.Job.Setup.Draw(j.random.times)
			again := j.pass(remakes)
			remakes = again.Remakes()
			out.Add(&again)
			out.Job.Passes++
		}
	}
	out.Job.Finish = out.Time.Shift + out.Job.Setup + out.Job.Hand
	return out
}
