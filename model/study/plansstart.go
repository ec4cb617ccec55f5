package study

import (
	"math"
	"slices"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/sim"
)

// latestStarts returns, for each replication, when the changeover of a job must begin at the latest so that the
// job is finished by its date, in working time. It is what the job took in that replication, put back from there:
//
//   - Its changeover, without the time that it waited while nobody was there who may do any piece of it. Put back,
//     it waits while nobody is there who may do some piece of it. (Who is at a piece when his shift ends finishes
//     it; that is left out, a few minutes either way.) It does not begin while its line is down; begun a minute
//     before that, it goes on.
//   - Its run, until the line is free, without the time in which the line was down. Put back, it stands while the
//     line is down.
//   - The wait for remakes at the bench beside the lines, as it was.
//
// All else is as it was where the job is in the plan: waits for people who are busy, or of whom nobody was there who
// may clear or fill. Where the job was in time, its own start is one that keeps the date, and it is no earlier.
func latestStarts(due float64, study *seasons.TogetherJob, down []model.Stretch) sim.Sample {
	all := make(sim.Sample, len(study.Finished))
	for r, finished := range study.Finished {
		begun, first, free := study.Begun[r], study.First[r], study.Free[r]
		run := before(due-(finished-free), workedIn(first, free, down), down)
		waits, _ := study.Barred.Waits(sim.Seconds(begun), sim.Seconds(first))
		start := before(run, first-begun-float64(waits), study.Barred.Some)
		for _, d := range down {
			if float64(d.From) <= start && start < float64(d.To) {
				start = float64(d.From) - 60
			}
		}
		if finished <= due {
			start = max(start, begun)
		}
		all[r] = start
	}
	return all
}

// startBy returns when work begins by the clock on the wall, to the minute: where that is when a shift ends, or
// a break begins, it is when people are there again.
func startBy(worked float64, h *seasons.Horizon) *PlansMoment {
	minute := sim.Seconds(math.Round(float64(h.At(sim.Seconds(worked)))/60) * 60)
	return &PlansMoment{h.From(h.Worked(minute))}
}

// before returns the latest time from which so much of a time until another is outside some stretches, which are
// in order, seconds.
func before(until, work float64, stretches []model.Stretch) float64 {
	for _, s := range slices.Backward(stretches) {
		from, left := float64(s.From), until-float64(s.To)
		switch {
		case from >= until:
			continue
		case left >= work:
			return until - work
		}
		work, until = work-max(0, left), from
	}
	return until - work
}
