package model

// Loss is one step down from what a line could do to what it delivers.
type Loss struct {
	Name    string
	PerHour float64 // envelopes an hour; below 0 where the step goes up
}

// Losses returns how the line comes from its rated speed to its net rate, in envelopes an
// hour of the shift, means of all shifts: rated less all losses is net, to rounding.
//
// The rated speed of the line is the lowest of its stations', or the speed it runs at if
// none has one.
func (s *Study) Losses() (rated float64, losses []Loss, net float64) {
	l, o := s.Line, &s.Total
	speed := l.RunSpeed()
	rated = l.rated()
	hours := float64(o.Time.Shift) / 3600
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
	return rated, []Loss{
		{"slower speed asked for", rated - speed},
		{"waiting for an operator", seconds(float64(faults.Waiting + used.Waiting))},
		{"clearing faults", seconds(float64(faults.Working))},
		{"refilling and emptying", seconds(float64(used.Working))},
		{"restarting", seconds(float64(faults.Restarting + used.Restarting))},
		{"start and end of the shift", running - sets(o.Sets.Started) + sets(o.Sets.OnLine)},
		{"diverted", sets(o.Sets.Diverted)},
		{"outsorted", sets(o.Sets.Outsorted)},
		{"spoiled", sets(o.Sets.Spoiled)},
		{"delivered defective", sets(o.Sets.Defective)},
	}, sets(o.Sets.Good)
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
