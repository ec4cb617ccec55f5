package study

import (
	"netrate/model"
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

// barredIn returns when nobody is there who may do any piece of a changeover, as far as that is a wait in a
// replication: who is at a piece when his shift ends finishes it, and the stretch in which he does is none.
func barredIn(study *seasons.TogetherJob, replication int) []model.Stretch {
	all := study.Barred.All
	for len(all) > 0 && float64(all[len(all)-1].To) > study.First[replication] {
		all = all[:len(all)-1]
	}
	return all
}

// changeStarts returns when the changeover of a job begins, replication by replication: when the crew is called for
// it, or later if nobody is there then who may do any piece of it.
func changeStarts(study *seasons.TogetherJob) sim.Sample {
	all := make(sim.Sample, len(study.Begun))
	for r, begun := range study.Begun {
		for _, s := range barredIn(study, r) {
			if float64(s.From) <= begun && begun < float64(s.To) {
				begun = float64(s.To)
			}
		}
		all[r] = begun
	}
	return all
}

// plansWait returns how a job waits for somebody who may change over; nil if it does in no replication.
func plansWait(study *seasons.TogetherJob, from func(float64) PlansMoment) *PlansWait {
	var since sim.Sample
	sum, before, starts := 0.0, 0.0, changeStarts(study)
	for r, begun := range study.Begun {
		first := study.First[r]
		barred := barredIn(study, r)
		waits := first - begun - workedIn(begun, first, barred)
		if !(waits > 0) {
			continue
		}
		sum, before = sum+waits, before+starts[r]-begun
		for _, s := range barred {
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
	return &PlansWait{From: from(since.Quantile(0.5)), Hours: Number(sum / n / 3600), Share: Number(n / float64(len(study.Begun))), Within: Number((sum - before) / n / 3600)}
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
