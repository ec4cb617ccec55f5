package model

import "slices"

// Loss is one step down from what a line could do to what it delivers.
type Loss struct {
	Name    string
	PerHour float64 // envelopes an hour; below 0 where the step goes up
}

// Losses returns how the line comes from its rated speed to its net rate, in envelopes an
// hour of the shift, means of all shifts: rated less all losses is net, to rounding. Of a
// job they are an hour until it is finished. Some losses are told of only where they can
// be: those of a document channel and of a job.
//
// Of several lines together each step is the sum of theirs.
//
// The rated speed of the line is the lowest of its stations', or the speed it runs at if
// none has one.
func (s *Study) Losses() (rated float64, losses []Loss, net float64) {
	if s.lines != nil {
		return lossesTogether(s.lines)
	}
	l, o := s.Line, &s.Total
	speed := l.RunSpeed()
	rated = l.rated()
	hours := float64(o.Time.Shift) / 3600
	if l.Job.Sets > 0 {
		hours = float64(o.Job.Finish) / 3600
	}
	if hours == 0 {
		return rated, nil, 0
	}
	var faults, used StopTotal
	for i := range o.Stations {
		for cause, t := range o.Stations[i].Stops {
			if Cause(cause) == CauseStock {
				used.add(t)
			} else {
				faults.add(t)
			}
		}
	}
	seconds := func(t float64) float64 { return t / 3600 * speed / hours }
	sets := func(n int64) float64 { return float64(n) / hours }
	running := seconds(float64(o.Time.Running))
	channel := slices.ContainsFunc(l.Stations, isChannel)
	add := func(can bool, name string, perHour float64) {
		if can {
			losses = append(losses, Loss{name, perHour})
		}
	}
	add(true, "slower speed asked for", rated-speed)
	add(true, "waiting for an operator", seconds(float64(faults.Waiting+used.Waiting)))
	add(true, "clearing faults", seconds(float64(faults.Working)))
	add(true, "refilling and emptying", seconds(float64(used.Working)))
	add(true, "restarting", seconds(float64(faults.Restarting+used.Restarting)))
	add(channel, "waiting for documents", seconds(float64(faults.Starved)))
	add(l.Job.Closing == SecondPass, "setting up second passes", seconds(float64(o.Job.Setup)))
	add(l.Job.Closing == ByHand, "closing by hand, the line at rest", seconds(float64(o.Job.Hand)))
	add(true, "start and end of the shift", running-sets(o.Sets.Started)+sets(o.Sets.OnLine))
	add(true, "diverted", sets(o.Sets.Diverted))
	add(true, "outsorted", sets(o.Sets.Outsorted))
	add(true, "spoiled", sets(o.Sets.Spoiled))
	add(true, "delivered defective", sets(o.Sets.Defective))
	add(l.Job.Closing == ByHand, "closed by hand", -sets(o.Job.ByHand))
	return rated, losses, sets(o.Sets.Good + o.Job.ByHand)
}

// rated returns the lowest rated speed of the stations.
func (l *Line) rated() float64 {
	asked := *l
	asked.Speed = 0
	if rated := asked.RunSpeed(); rated > 0 {
		return rated
	}
	return l.RunSpeed()
}
