package runs

import "netrate/model"

// Loss is one step down from what a line could do to what it delivers.
type Loss struct {
	Name    string
	PerHour float64 // envelopes an hour; below 0 where the step goes up
}

// Losses returns how the line comes from its rated speed to its net rate, in envelopes an
// hour of the shift, means of all shifts: rated less all losses is net, to rounding. Of a
// job they are an hour until it is finished. Some losses are reported only where they can
// be: those of a document channel and of a job.
//
// Of several lines together each step is the sum of theirs. Of several jobs it is the sum of
// those of the jobs, each in its part of the time, and so is the rated speed.
//
// The rated speed of the line is the lowest of its stations', or the speed it runs at if
// none has one.
func (s *Study) Losses() (rated float64, losses []Loss, net float64) {
	switch {
	case s.lines != nil:
		return lossesTogether(s.lines)
	case s.jobs != nil:
		return lossesMixed(s.jobs)
	}
	spent := s.spent()
	if spent.hours == 0 {
		return fastest(s.Line), nil, 0
	}
	return lossesOf(s.Line, spent)
}

// spent is what became of some hours and of the sets started in them.
type spent struct {
	hours, part                  float64 // all hours, and the share of them that is accounted for
	running, waiting, restarting float64 // seconds of that share, and so are the next
	clearing, refilling          float64
	starting, afterJam, repeated float64 // of the running time
	repairing, breaks            float64
	starved, setup, hand         float64
	started, onLine              float64 // sets, and so are the others
	diverted, outsorted, spoiled float64
	defective, good, byHand      float64
}

// slowly adds to what was spent what slow cycles took of it, where a study counts for a part.
func (x *spent) slowly(t model.SlowTime, part float64) *spent {
	x.starting, x.afterJam, x.repeated = float64(t.Starting)*part, float64(t.AfterJam)*part, float64(t.Repeated)*part
	return x
}

func (s *Study) spent() *spent {
	o := &s.Total
	hours := float64(o.Time.Shift) / 3600
	if s.Line.Job.Sets > 0 {
		hours = float64(o.Job.Finish) / 3600
	}
	stopped, refilling, repairing := o.Stopped(), o.Refilling(), o.Repairing()
	x := &spent{
		hours: hours, part: 1,
		running: float64(o.Time.Running), waiting: float64(stopped.Waiting), restarting: float64(stopped.Restarting),
		clearing: float64(stopped.Working - refilling - repairing), refilling: float64(refilling),
		repairing: float64(repairing), breaks: float64(o.Time.Breaks),
		starved: float64(stopped.Starved), setup: float64(o.Job.Setup), hand: float64(o.Job.Hand),
		started: float64(o.Sets.Started), onLine: float64(o.Sets.OnLine),
		diverted: float64(o.Sets.Diverted), outsorted: float64(o.Sets.Outsorted), spoiled: float64(o.Sets.Spoiled),
		defective: float64(o.Sets.Defective), good: float64(o.Sets.Good), byHand: float64(o.Job.ByHand),
	}
	return x.slowly(o.Time.Slow, 1)
}

// lossesOf returns what a line loses in an hour of those that were spent.
func lossesOf(l *model.Line, x *spent) (rated float64, losses []Loss, net float64) {
	speed := l.RunSpeed()
	rated = float64(fastest(l) * x.part)
	seconds := func(t float64) float64 { return t / 3600 * speed / x.hours }
	add := func(can bool, name string, perHour float64) {
		if can {
			losses = append(losses, Loss{name, perHour})
		}
	}
	add(true, "slower speed asked for", rated-float64(speed*x.part))
	add(true, "waiting and walking", seconds(x.waiting))
	add(true, "clearing faults", seconds(x.clearing))
	add(true, "refilling and emptying", seconds(x.refilling))
	add(l.BreaksDown(), "repairs by a technician", seconds(x.repairing))
	add(l.Crew.StandsForBreaks(), "breaks, the line at rest", seconds(x.breaks))
	add(true, "restarting", seconds(x.restarting))
	add(l.Slow.Starting.Cycles > 0, "starting slowly", seconds(x.starting))
	add(l.Slow.AfterJam.Cycles > 0, "slow after jams", seconds(x.afterJam))
	add(l.Slow.Repeated.Stops > 0, "slowed down by the crew", seconds(x.repeated))
	add(l.First(model.Gathers) >= 0, "channel too slow", seconds(x.starved))
	add(l.Job.Closing == model.SecondPass, "setting up second passes", seconds(x.setup))
	add(l.Job.Closing.Manual(), "closing by hand, the line at rest", seconds(x.hand))
	add(true, "start and end of the shift", seconds(x.running-x.starting-x.afterJam-x.repeated)-x.started/x.hours+x.onLine/x.hours)
	add(true, "diverted", x.diverted/x.hours)
	add(true, "outsorted", x.outsorted/x.hours)
	add(true, "spoiled", x.spoiled/x.hours)
	add(true, "delivered defective", x.defective/x.hours)
	add(l.Job.Closing.Manual(), "closed by hand", -x.byHand/x.hours)
	return rated, losses, (x.good + x.byHand) / x.hours
}

// fastest returns the lowest rated speed of the stations.
func fastest(l *model.Line) float64 {
	asked := *l
	asked.Speed = 0
	if rated := asked.RunSpeed(); rated > 0 {
		return rated
	}
	return l.RunSpeed()
}
