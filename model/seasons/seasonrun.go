package seasons

import (
	"fmt"

	"netrate/model"
	"netrate/model/setup"
	"netrate/sim"
)

// seasonRun is one replication of a season: how long each of its jobs took.
type seasonRun struct {
	change []sim.Seconds // before each job, from when it is called for until its first set
	waits  []sim.Seconds // of change, until somebody comes who may begin it; of no job unless people are stated
	length []sim.Seconds // until the line is free
	bench  []sim.Seconds // from then until the job is finished; of no job unless remakes are made beside the line
	stood  []sim.Seconds // of length, while remakes are made by hand; of no job unless the line waits for them
	lacks  []float64     // sets of each job of which no envelope is delivered
	used   []Used        // of each week; of none if it is not kept
	total  model.Outcome
}

// begin forgets what a replication before came to.
func (r *seasonRun) begin(p *seasonPlan) {
	r.change, r.length, r.bench, r.total = r.change[:0], r.length[:0], r.bench[:0], model.Outcome{}
	r.stood, r.lacks, r.waits = r.stood[:0], r.lacks[:0], r.waits[:0]
	if p.Priced != nil && r.used == nil {
		r.used = make([]Used, len(p.Weeks))
	}
	for w := range r.used {
		r.used[w].clear()
	}
}

// counts adds what a job came to besides its times.
func (r *seasonRun) counts(p *seasonPlan, job int, o *model.Outcome) {
	addSums(&r.total, o)
	j := &p.jobs[job]
	r.lacks = append(r.lacks, lacks(j.Sets, o))
	if p.Closing.Closing == model.ByHand {
		r.stood = append(r.stood, o.Job.Hand)
	}
	if p.Priced != nil {
		r.used[j.Week].add(p.setups[j.Product].Line, o, p.Priced)
	}
}

// lacks returns of how many of the sets of a job no envelope is delivered, good or not: what is lost and not
// made again.
func lacks(sets int64, o *model.Outcome) float64 {
	return float64(sets - o.Sets.Good - o.Sets.Defective - o.Job.ByHand)
}

// seasonRunner runs replications of a season, one after the other.
type seasonRunner struct {
	plan *seasonPlan
	seed uint64
	sims []*model.Sim // of each product
	job  model.Outcome
	made []bool // of each product, whether a job of it was run in this replication: the next goes on with its lots
}

func (p *seasonPlan) runner(seed uint64) *seasonRunner {
	return &seasonRunner{plan: p, seed: seed, sims: make([]*model.Sim, len(p.setups)), made: make([]bool, len(p.setups))}
}

// make makes the line ready for each product, with what is uncertain as a draw has it.
func (r *seasonRunner) make(draw int) (err error) {
	for i, setup := range r.plan.setups {
		if setup == nil {
			continue
		}
		if r.sims[i], err = model.New(r.plan.drawn(setup, r.seed, draw)); err != nil {
			return r.plan.impossible(draw, err)
		}
	}
	return nil
}

// run runs one replication.
func (r *seasonRunner) run(replication int, out *seasonRun) error {
	p := r.plan
	if p.varies {
		if err := r.make(replication); err != nil {
			return err
		}
	}
	out.begin(p)
	clear(r.made)
	from, now, busy := -1, sim.Seconds(0), sim.Seconds(0) // on the clock of working time: of the line, and the bench until it is free
	for k := range p.jobs {
		j := &p.jobs[k]
		out.change = append(out.change, setup.Total(p.items[from+1][j.Product], p.Line.Crew.AtLeastOne(), r.seed, replication*len(p.jobs)+k))
		s := r.sims[j.Product]
		s.KeepLots(r.made[j.Product])
		r.made[j.Product] = true
		if stay := p.stays[from+1][j.Product]; stay != nil {
			s.TakeOver(r.sims[from], stay)
		}
		now = max(now, sim.Seconds(j.Week)*p.hours) + out.change[k]
		s.BenchBusy(max(0, busy-now))
		if err := s.RunJob(r.seed, replication*len(p.Weeks)+j.Week, j.Sets, &r.job); err != nil {
			return fmt.Errorf("%s of %s: %w", p.Products[j.Product].Name, p.Weeks[j.Week].Name, err)
		}
		length, hand := r.job.Job.Finish, sim.Seconds(0)
		if p.Closing.Closing == model.Beside {
			hand = r.job.Job.Hand
			length -= hand
			out.bench = append(out.bench, hand)
		}
		out.length = append(out.length, length)
		if now += length; hand > 0 {
			busy = now + hand
		}
		out.counts(p, k, &r.job)
		from = j.Product
	}
	return nil
}

// fold adds a replication and returns the hours that all its work took.
func (s *SeasonStudy) fold(p *seasonPlan, r *seasonRun) float64 {
	s.Done++
	addSums(&s.Total, &r.total)
	work := make([]sim.Seconds, len(p.Weeks))
	backlog := make([]float64, len(p.Weeks))
	now := sim.Seconds(0) // on the clock of working time, of the line
	for k := range s.Jobs {
		j := &s.Jobs[k]
		called := max(now, sim.Seconds(j.Week)*p.hours)
		first := called + r.change[k]
		now = first + r.length[k]
		work[j.Week] += now - called
		finished, length := now, r.length[k]
		if len(r.bench) > 0 {
			finished, length = now+r.bench[k], length+r.bench[k]
			j.Free = append(j.Free, float64(now)/3600)
		}
		for w := j.Week; w < len(p.Weeks); w++ {
			lacking := left(float64(j.Sets), first, finished, sim.Seconds(sim.Seconds(w+1)*p.hours))
			if backlog[w] += lacking; w == j.Week {
				j.Late += lacking
			}
		}
		j.Lacks += r.lacks[k]
		if len(r.stood) > 0 {
			j.Stood = append(j.Stood, float64(r.stood[k])/3600)
		}
		begun, change := called, r.change[k]
		if len(r.waits) > 0 {
			begun, change = called+r.waits[k], change-r.waits[k]
			j.Waits = append(j.Waits, float64(r.waits[k])/3600)
		}
		j.Change = append(j.Change, float64(change)/3600)
		j.Hours = append(j.Hours, float64(length)/3600)
		j.Begun = append(j.Begun, float64(begun)/3600)
		j.Finished = append(j.Finished, float64(finished)/3600)
	}
	all := 0.0
	for w := range s.Weeks {
		h := float64(work[w]) / 3600
		all += h
		s.Weeks[w].Work = append(s.Weeks[w].Work, h)
		s.Weeks[w].Backlog = append(s.Weeks[w].Backlog, backlog[w])
		s.Weeks[w].Overtime = append(s.Weeks[w].Overtime, max(0, h-s.Hours))
		if len(r.used) > 0 {
			s.Weeks[w].Used = append(s.Weeks[w].Used, r.used[w].kept())
		}
	}
	return all
}

// left returns how many of the sets of a job are not done at the given time: in the midst
// of it in proportion to the time.
func left(sets float64, from, to, at sim.Seconds) float64 {
	switch {
	case at >= to:
		return 0
	case at <= from:
		return sets
	}
	return sets * float64(to-at) / float64(to-from)
}

// addSums adds an outcome of any line: all but what is of single stations.
func addSums(o *model.Outcome, b *model.Outcome) {
	o.Cycles += b.Cycles
	o.Sets.Add(b.Sets)
	o.Time.Shift += b.Time.Shift
	o.Time.Running += b.Time.Running
	o.Job.Add(b.Job)
}
