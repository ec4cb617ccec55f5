package study

import (
	"context"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/sim"
	"netrate/sim/tape"
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

// How often a start is tried: in so many of the replications of the plan for all jobs together, but in so many for
// each job at least, and at so many times.
const (
	startRuns      = 1000
	leastStartRuns = 100
	mostStarts     = 12
)

// startStep is what starts are multiples of by the clock on the wall, seconds: so many replications do not tell them
// any better.
const startStep = 5 * 60

// startGrace is by how much later a job is begun than is said, seconds: where that is when people come or go, it shall
// be after they did.
const startGrace = 1

// startBys finds of each job with a date the latest time such that, if it does not begin before that, the date is kept
// 9 times in 10. What was found stays when ctx is done first; the error is then that of ctx.
func (x *PlansPlan) startBys(ctx context.Context, plan sim.Plan) error {
	var movable []*PlansJob
	for _, j := range x.Jobs() {
		if j.InTime == nil || j.Running {
			continue
		}
		if j.TooLate = j.InTime.Share < 0.9; !j.TooLate {
			movable = append(movable, j)
		}
	}
	if len(movable) == 0 {
		return nil
	}
	plan.Max = min(plan.Max, max(leastStartRuns, startRuns/len(movable)))
	plan.Min = plan.Max
	for _, j := range movable {
		s := x.starts(j, plan)
		if err := s.find(tape.Here(ctx)); err != nil {
			return err
		}
		j.StartBy, j.StartKept = &PlansMoment{s.h.From(sim.Seconds(s.holds))}, &s.kept
	}
	return nil
}

// starts is the search for the latest start of a job.
type starts struct {
	plan sim.Plan
	work *seasons.Together
	h    *seasons.Horizon
	job  int
	due  float64 // as all times here, working time, seconds
	down []model.Stretch

	holds, fails float64 // by the clock on the wall in steps: the latest start that keeps the date 9 times in 10, and the earliest after it that does not
	kept         PlansOften
	forecast     float64
	beside       float64 // by how much a start is tried beside those that are known where the forecast is between none of them
}

// starts returns the search before anything is tried: begun as early as ever in the plan the job is as it is there.
func (x *PlansPlan) starts(j *PlansJob, plan sim.Plan) *starts {
	s := &starts{plan: plan, work: x.Made.Together(), h: x.Made.Horizon, job: j.Index, kept: *j.InTime}
	for i, line := range x.Made.Order {
		if slices.Contains(line, j.Index) {
			s.down = x.Lines[i].down
		}
	}
	study := &x.Study.Jobs[j.Index]
	s.due = float64(s.h.Worked(j.Due.At))
	s.holds, s.fails = s.step(study.Begun.Sorted()[0]), s.due
	s.forecast = latestStarts(s.due, study, s.down).Quantile(0.1)
	return s
}

// find tries times between one that holds and one that does not, until there is none between them or it is
// enough: first what the trial before forecasts, then halves. So the time that is found holds, and so does whatever was
// tried before it. Whether all times before it hold is not looked at: begun earlier, a job may be at the end of a shift
// where it stands, begun later in the next.
func (s *starts) find(ctx context.Context) error {
	for n := range mostStarts {
		at := s.next(n)
		if at <= s.holds || at >= s.fails {
			return nil
		}
		study, err := seasons.RunTogether(ctx, s.work.NotBefore(s.job, sim.Seconds(at+startGrace)), s.plan, nil)
		switch {
		case err != nil:
			return err
		case study.Ending == sim.Cancelled:
			return context.Cause(ctx)
		}
		job := &study.Jobs[s.job]
		in := make([]bool, study.Done)
		for r, finished := range job.Finished {
			in[r] = finished <= s.due
		}
		if often := plansOften(in); often.Share >= 0.9 {
			s.holds, s.kept = at, often
		} else {
			s.fails = at
		}
		s.forecast = latestStarts(s.due, job, s.down).Quantile(0.1)
	}
	return nil
}

// next returns the time that is tried next, the first being 0; one that is tried already if there is none between.
func (s *starts) next(n int) float64 {
	at := s.step(s.forecast)
	switch {
	case n >= mostStarts/2:
		at = s.step((s.holds + s.fails) / 2)
	case at <= s.holds:
		s.beside = max(startStep, 2*s.beside)
		at = s.step(s.holds + s.beside)
	case at >= s.fails:
		s.beside = max(startStep, 2*s.beside)
		at = s.step(s.fails - s.beside)
	}
	if at <= s.holds || at >= s.fails {
		at = s.step((s.holds + s.fails) / 2)
	}
	if at <= s.holds { // the half of a step, or cut by a break
		at = s.step(s.holds + startStep)
	}
	return at
}

// step returns the working time at the last full step by the clock on the wall.
func (s *starts) step(worked float64) float64 {
	at := float64(s.h.From(sim.Seconds(worked)))
	return float64(s.h.Worked(sim.Seconds(math.Floor(at/startStep+1e-6) * startStep)))
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
