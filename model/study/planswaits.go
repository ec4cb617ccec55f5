package study

import (
	"netrate/model/seasons"
	"netrate/sim"
)

// PlansWait is how a line waits for its changeover while nobody is there who may do any piece of it. It is no part of
// the changeover, which begins, or goes on, when somebody comes who may.
type PlansWait struct {
	From  PlansMoment `json:"from_p50"` // of those replications in which it waits
	Hours Number      `json:"hours"`    // of working time, in the mean of those
	Share Number      `json:"share"`    // of the replications in which it waits

	Within Number `json:"within_changeover_h"` // of these hours, those after the changeover has begun
}

// changeStarts returns when the changeover of a job begins, replication by replication: when the crew is called for
// it, or later if nobody is there then who may do any piece of it.
func changeStarts(study *seasons.TogetherJob) sim.Sample {
	all := make(sim.Sample, len(study.Begun))
	for r, begun := range study.Begun {
		_, before := study.Barred.Waits(sim.Seconds(begun), sim.Seconds(study.First[r]))
		all[r] = begun + float64(before)
	}
	return all
}

// plansWait returns how a job waits for somebody who may change over; nil if it does in no replication.
func plansWait(study *seasons.TogetherJob, from func(float64) PlansMoment) *PlansWait {
	var since sim.Sample
	sum, within := sim.Seconds(0), sim.Seconds(0)
	for r, begun := range study.Begun {
		waits, before := study.Barred.Waits(sim.Seconds(begun), sim.Seconds(study.First[r]))
		if !(waits > 0) {
			continue
		}
		sum, within = sum+waits, within+waits-before
		for _, s := range study.Barred.All {
			if float64(s.To) > begun {
				since = append(since, max(begun, float64(s.From)))
				break
			}
		}
	}
	if len(since) == 0 {
		return nil
	}
	n := float64(len(since))
	return &PlansWait{From: from(since.Quantile(0.5)), Hours: Number(float64(sum) / n / 3600), Share: Number(n / float64(len(study.Begun))), Within: Number(float64(within) / n / 3600)}
}

// waitingTimes returns when the line waits for somebody who may change it over to a job, in hours of working time, from
// the median of when it is called for on to that of its first set.
func waitingTimes(study *seasons.TogetherJob) (all [][2]float64) {
	begun, first := study.Begun.Quantile(0.5), study.First.Quantile(0.5)
	for _, s := range study.Barred.All {
		if from, to := max(begun, float64(s.From)), float64(s.To); from < to && to <= first {
			all = append(all, [2]float64{from / 3600, to / 3600})
		}
	}
	return all
}

// Waiting returns when the line waits for somebody who may change it over to the job, in hours of working time, by
// medians.
func (x *PlansJob) Waiting() [][2]float64 { return x.waiting }
