package study

import (
	"netrate/model"
	"netrate/model/runs"
)

// Finish returns the hours until the job of a replication is finished.
func Finish(s *runs.Shift) float64 { return s.Finish }

// Closing returns the seconds in which a job goes on and the line is not at work: before
// further passes, and while remakes are made by hand.
func Closing(s *runs.Shift) float64 {
	if rest := float64(s.Finish*3600) - AtWork(s); rest > noTime {
		return rest
	}
	return 0
}

// noTime is less time than anything takes, and more than rounding makes.
const noTime = 1e-6

// AtWork returns the seconds in which the line was at work on a shift or a job.
func AtWork(s *runs.Shift) float64 {
	return s.Running + s.Waiting + s.Working + s.Restarting + s.Starved + s.Breaks
}

// JobOnPaper returns how many hours the sets of a line's job take on paper.
func JobOnPaper(l *model.Line) float64 {
	h := l.Analytic()
	return float64(l.Job.Sets) / (h.Speed * h.Efficiency)
}
