package study

import (
	"math"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/sim"
)

// PlansHand is remakes that are made by hand, by somebody who is not of the crew.
type PlansHand struct {
	Beside  bool           `json:"beside"` // at one bench beside the lines; else a line waits for its own
	Hours   Mean           `json:"work_h"`
	Last    Number         `json:"bench_is_last"` // share of the replications in which the last job is finished after the last line is free
	After   Number         `json:"after_lines_h"` // working time from when the last line is free until the last job is finished, in the median
	OnBench []PlansOnBench `json:"lie_there,omitempty"`
}

// PlansOnBench is remakes of a job that lie at the bench when the plan begins.
type PlansOnBench struct {
	Name    string       `json:"name"`
	Remakes int64        `json:"remakes"`
	Made    PlansMoment  `json:"made"`          // the last of them
	Due     *PlansMoment `json:"due,omitempty"` // of the job, if nothing else is left of it; nil where it has no date, or is in the plan
	Late    Number       `json:"late_h"`        // by then
}

// plansHand returns the remakes of a plan that are made by hand; nil where none are. To lateness and to
// which dates are kept in each replication it adds those of the jobs of which nothing else is left.
func plansHand(m *seasons.Made, s *seasons.TogetherStudy, late sim.Sample, kept []bool) *PlansHand {
	p := m.Plan
	if !p.Closing.Closing.Manual() || len(p.NotRemade()) == len(p.Jobs) && len(p.OnBench) == 0 {
		return nil
	}
	after := make(sim.Sample, s.Done)
	x := &PlansHand{Beside: p.Closing.Closing == model.Beside, Hours: plansMean(hoursOf(s.ByHand))}
	for r := range after {
		if after[r] = max(0, s.Finished[r]-s.Free[r]); after[r] > 0 {
			x.Last += 1 / Number(s.Done)
		}
	}
	x.After = Number(after.Quantile(0.5) / 3600)
	isOver := datesOver(p)
	for i, done := range p.BenchDone() {
		open := &p.OnBench[i]
		one := PlansOnBench{Name: open.Job.Name, Remakes: open.Remakes, Made: PlansMoment{m.Horizon.At(done)}}
		if job := &open.Job; job.Sets == 0 && !math.IsInf(float64(job.Due), 1) {
			one.Due = &PlansMoment{job.Due}
			if hours := float64(one.Made.At-job.Due) / 3600; hours > 0 {
				one.Late = Number(hours)
				for r := range kept {
					kept[r] = kept[r] && isOver(job.Due)
					late[r] += float64(job.Priority * hours)
				}
			}
		}
		x.OnBench = append(x.OnBench, one)
	}
	return x
}

// hoursOf returns seconds as hours.
func hoursOf(seconds sim.Sample) sim.Sample {
	all := make(sim.Sample, len(seconds))
	for i, x := range seconds {
		all[i] = x / 3600
	}
	return all
}

// plansBusy returns how long a line is at its jobs, in hours of working time, without that in which it is down.
func plansBusy(s *seasons.TogetherStudy, jobs []int, down []model.Stretch) Mean {
	return plansMean(busyHours(s, jobs, down))
}

// busyHours returns those hours of each replication.
func busyHours(s *seasons.TogetherStudy, jobs []int, down []model.Stretch) sim.Sample {
	busy := make(sim.Sample, s.Done)
	for _, j := range jobs {
		for r := range busy {
			busy[r] += workedIn(s.Jobs[j].Begun[r], s.Jobs[j].Free[r], down) / 3600
		}
	}
	return busy
}

// plansThere returns how long a line can be at work until the last job is finished, in the mean, hours.
func plansThere(s *seasons.TogetherStudy, down []model.Stretch) Number {
	sum := 0.0
	for _, last := range s.Finished {
		sum += workedIn(0, last, down) / 3600
	}
	return Number(sum / float64(len(s.Finished)))
}

// PlansWeek is a week of a season of several lines.
type PlansWeek struct {
	Name     string      `json:"name"`
	Jobs     int         `json:"jobs"`
	Sets     int64       `json:"sets"`
	InTime   PlansOften  `json:"in_time"`  // all its jobs are finished when it ends
	Finished PlansSpread `json:"finished"` // the last of its jobs
	Over     Number      `json:"over_h"`   // working time beyond its end until then, in the mean
}

// weeks returns the weeks of a season in order; nil of a plan that is none.
func (x *PlansPlan) weeks() []PlansWeek {
	p, h := x.Made.Plan, x.Made.Horizon
	var all []PlansWeek
	for week := 1; ; week++ {
		own := PlansWeek{}
		finished, end := make(sim.Sample, x.Study.Done), 0.0
		more := false
		for j := range p.Jobs {
			job := &p.Jobs[j]
			more = more || job.Week > week
			if job.Week != week {
				continue
			}
			own.Name, own.Jobs, own.Sets, end = p.Weeks[week-1], own.Jobs+1, own.Sets+job.Sets, float64(h.Worked(job.Due))
			for r, at := range x.Study.Jobs[j].Finished {
				finished[r] = max(finished[r], at)
			}
		}
		if own.Jobs > 0 {
			in, over := make([]bool, len(finished)), make(sim.Sample, len(finished))
			for r, at := range finished {
				in[r], over[r] = at <= end, max(0, at-end)/3600
			}
			own.InTime, own.Over = plansOften(in), Number(over.Mean())
			own.Finished = plansSpread(finished, func(worked float64) PlansMoment { return PlansMoment{h.At(sim.Seconds(worked))} })
			all = append(all, own)
		}
		if !more {
			return all
		}
	}
}
