package main

import "netrate/model"

// period returns what one replication of a line is: a shift, or a job.
func period(l *model.Line) string {
	if l.Job.Sets > 0 {
		return "job"
	}
	return "shift"
}

// extent returns how long a shift of the line is, or how large a job.
func extent(l *model.Line) string {
	if l.Job.Sets > 0 {
		return plural(l.Job.Sets, "set")
	}
	return hours(l.Shift)
}

// sampled returns how many shifts or jobs of a line were simulated: "1,024 shifts of 8 h".
func sample(s *model.Study) string {
	return plural(len(s.Shifts), period(s.Line)) + " of " + extent(s.Line)
}

// whole returns the mean length of a shift or, until it is finished, of a job, in seconds.
func whole(s *model.Study) float64 {
	if s.Line.Job.Sets == 0 {
		return float64(s.Line.Shift)
	}
	return float64(s.Total.Job.Finish) / float64(len(s.Shifts))
}
