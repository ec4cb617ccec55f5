package runs

import (
	"context"
	"errors"
	"fmt"

	"netrate/model"
	"netrate/model/setup"
	"netrate/sim"
)

// Mix is the work of a line that makes several products: it is set up for each, and so much
// of what it delivers is of each.
type Mix struct {
	Line   *model.Line    // as it is when it is set up for none
	Setups []*setup.Setup // for each job, in the order of their names
	Shares []float64      // of the good envelopes, in the same order; 1 together
}

// MixedJob is one job of a mix.
type MixedJob struct {
	Study *Study     // of the line set up for the job, whose name the line has
	Share float64    // of the good envelopes
	Time  sim.Sample // its part of each shift of the mix
}

// NewMix returns the work of a line at jobs, which are among the products, each with its share
// of the good envelopes; or a sentence for each reason why the line cannot run one of them.
//
// Each job has random streams of its own, named by the job: a station has other random numbers in another job of
// the line, and the same in the same job of another line. A single job has the random numbers of the
// line that knows of no jobs.
func NewMix(l *model.Line, products []*setup.Product, jobs []string, shares []float64) (*Mix, error) {
	m := &Mix{Line: l, Shares: shares}
	made := map[string]*setup.Product{}
	for _, p := range products {
		made[p.Name] = p
	}
	var errs []error
	because := func(job, reason string) { errs = append(errs, fmt.Errorf("job %s: %s", job, reason)) }
	if l.Job.Sets > 0 {
		errs = append(errs, errors.New("yearly volumes of jobs are made in shifts, and the work is a job of a number of sets"))
	}
	for _, job := range jobs {
		product := made[job]
		if product == nil {
			because(job, "there is none")
			continue
		}
		line, fit := setup.Fitted(l, product)
		for _, reason := range fit.Reasons {
			because(job, reason)
		}
		if line != nil {
			if line.Name = job; len(jobs) > 1 {
				line.Random = job
			}
			m.Setups = append(m.Setups, &setup.Setup{Product: product, Line: line, Fit: fit})
		}
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	return m, nil
}

// AtMeans returns the same mix with each uncertain input of the line at the mean of its prior.
func (m *Mix) AtMeans() *Mix {
	var lines []*model.Line
	for _, l := range m.Lines() {
		lines = append(lines, l.AtMeans())
	}
	means := m.With(lines)
	means.Line = m.Line.AtMeans()
	return means
}

// With returns the same mix with other lines, one for each job, that are set up in the same way.
func (m *Mix) With(lines []*model.Line) *Mix {
	other := &Mix{Line: m.Line, Shares: m.Shares}
	for j, s := range m.Setups {
		one := *s
		one.Line = lines[j]
		other.Setups = append(other.Setups, &one)
	}
	return other
}

// Lines returns the line as it is set up for each job.
func (m *Mix) Lines() (all []*model.Line) {
	for _, s := range m.Setups {
		all = append(all, s.Line)
	}
	return all
}

// TogetherMixed runs the same shifts of all jobs of several lines, as [Together] does, and
// returns a study of the work of each line: see [Mixed].
func TogetherMixed(ctx context.Context, mixes []*Mix, plan sim.Plan, watch func(replication int)) ([]*Study, error) {
	var works []Work
	for _, m := range mixes {
		works = append(works, Work{Mix: m})
	}
	var counting func(int, [][]*Study)
	if watch != nil {
		counting = func(replication int, _ [][]*Study) { watch(replication) }
	}
	each, err := TogetherWork(ctx, works, plan, nil, counting)
	if err != nil {
		return nil, err
	}
	var studies []*Study
	for i, w := range works {
		studies = append(studies, w.Joined("", each[i]))
	}
	return studies, nil
}

// Mixed returns the studies of the jobs of a line as one study of the line at all its work,
// of which each job has its share of the good envelopes.
//
// Shift k of it is a shift in which each job has its part of the time: so much that it makes
// its share at the rate of its own shift k. With shares w and rates r that part and the net
// rate are
//
//	t_jk = (w_j/r_jk) / Σ_i (w_i/r_ik)    R_k = Σ_j t_jk r_jk = 1 / Σ_i (w_i/r_ik)
//
// and every other figure is Σ_j t_jk times that of job j in its shift k. So the stretches of
// time add up to the shift, and the sets by fate to those that were started; only they are
// no whole numbers. A job that delivers nothing in its shift never makes its share: it has
// all the time, and the net rate is 0.
//
// For want of whole numbers the study has no Total; nor has it incidents or the course of a
// shift. These are reported for each job: see [Study.Jobs]. Its line is the one given, to be
// looked at and not to be run.
//
// The studies must be of shifts of one length, as many of each.
func Mixed(l *model.Line, jobs []*Study, shares []float64) *Study {
	first := jobs[0]
	all := &Study{Line: l, Plan: first.Plan, Ending: first.Ending, Each: first.Each, Shifts: make([]Shift, len(first.Shifts))}
	for j, s := range jobs {
		all.jobs = append(all.jobs, MixedJob{Study: s, Share: shares[j], Time: make(sim.Sample, len(all.Shifts))})
	}
	for k := range all.Shifts {
		takeTurns(all.jobs, k)
		for _, j := range all.jobs {
			part := j.Study.Shifts[k].times(j.Time[k])
			all.Shifts[k].add(&part)
		}
	}
	return all
}

// Jobs returns the jobs that the study is mixed of; nil if it is not.
func (s *Study) Jobs() []MixedJob { return s.jobs }

// takeTurns works out the part of the time that each job has of shift k.
func takeTurns(jobs []MixedJob, k int) {
	all, still := 0.0, 0.0 // hours for one good envelope; jobs that make none
	for _, j := range jobs {
		if rate := j.Study.Shifts[k].NetRate; rate > 0 {
			all += j.Share / rate
		} else {
			still++
		}
	}
	for _, j := range jobs {
		switch rate := j.Study.Shifts[k].NetRate; {
		case still == 0:
			j.Time[k] = j.Share / rate / all
		case !(rate > 0):
			j.Time[k] = 1 / still
		}
	}
}

// lossesMixed returns the losses of jobs, each in its part of the time.
func lossesMixed(jobs []MixedJob) (rated float64, losses []Loss, net float64) {
	for i := range jobs {
		if len(jobs[i].Time) == 0 {
			return 0, nil, 0
		}
		from, steps, to := lossesOf(jobs[i].Study.Line, jobs[i].spent())
		rated, losses, net = rated+from, lossesAdded(losses, steps), net+to
	}
	return rated, losses, net
}

// spent returns what became of the time that the job had, of all hours.
func (j *MixedJob) spent() *spent {
	var sum Shift
	for k := range j.Time {
		part := j.Study.Shifts[k].times(j.Time[k])
		sum.add(&part)
	}
	n := float64(len(j.Time))
	x := &spent{
		hours: n * float64(j.Study.Line.Shift) / 3600, part: j.Time.Mean(),
		running: sum.Running, waiting: sum.Waiting, restarting: sum.Restarting,
		clearing: sum.Working - sum.Refilling - sum.Repairing, refilling: sum.Refilling, starved: sum.Starved,
		repairing: sum.Repairing, breaks: sum.Breaks,
		started: sum.Good + sum.Defective + sum.Diverted + sum.Outsorted + sum.Spoiled + sum.OnLine,
		onLine:  sum.OnLine, diverted: sum.Diverted, outsorted: sum.Outsorted, spoiled: sum.Spoiled,
		defective: sum.Defective, good: sum.Good,
	}
	return x.slowly(j.Study.Total.Time.Slow, j.Time.Mean())
}
