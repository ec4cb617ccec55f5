package study

import (
	"netrate/model"
	"netrate/model/seasons"
)

// lateSets returns how many sets of a job are not done at its date, in the mean. In the midst of a job they are
// in proportion to the time from its first set until it is finished, without that in which its line is down.
func lateSets(job *seasons.PlanJob, study *seasons.TogetherJob, due float64, down []model.Stretch) Number {
	sum := 0.0
	for r, finished := range study.Finished {
		first := study.First[r]
		switch {
		case finished <= due:
		case first >= due:
			sum += float64(job.Sets)
		default:
			sum += float64(job.Sets) * workedIn(due, finished, down) / workedIn(first, finished, down)
		}
	}
	return Number(sum / float64(len(study.Finished)))
}

// workedIn returns how long a line is not down in a stretch of working time, seconds.
func workedIn(from, to float64, down []model.Stretch) float64 {
	worked := to - from
	for _, d := range down {
		worked -= max(0, min(to, float64(d.To))-max(from, float64(d.From)))
	}
	return worked
}
