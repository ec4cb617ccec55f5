package study

import (
	"math"
	"slices"

	"netrate/sim"
)

// PlansChange is what another order brings against the one that holds, with the same random numbers: the
// plan that is shown planned anew, where its order is given; else, where something is done, the plan that is
// shown against going on in the order as it was. Both have the same choice. A positive number is a gain; none is known
// where a job is not finished.
type PlansChange struct {
	InTime Mean     `json:"more_in_time"`   // jobs whose date is kept
	Hours  Mean     `json:"sooner_h"`       // by which the last job is finished sooner, by the clock on the wall
	Late   Mean     `json:"less_late_h"`    // hours of lateness, each times its priority
	Less   Mean     `json:"costs_less"`     // what is chosen and lateness; lateness counts where it has a price
	Moved  []string `json:"on_other_lines"` // jobs
	Same   bool     `json:"same_order"`     // each line does the same jobs in the same order
}

// plansChange sets another order against the one that holds, which may have fewer replications.
func plansChange(was, is *PlansPlan) *PlansChange {
	sooner, late := plansLess(was.finished(), is.finished()), plansLess(was.lateness(), is.lateness())
	c := &PlansChange{Moved: []string{}, Same: true}
	c.Hours, c.Late, c.InTime = plansMean(sooner), plansMean(late), plansMean(plansLess(is.inTime(), was.inTime()))
	c.Less = plansMean(plansSaved(was, is))
	line := map[string]string{}
	for i, x := range was.Lines {
		c.Same = c.Same && slices.EqualFunc(x.Jobs, is.Lines[i].Jobs, func(a, b PlansJob) bool { return a.Name == b.Name })
		for _, j := range x.Jobs {
			line[j.Name] = x.Name
		}
	}
	for _, x := range is.Lines {
		for _, j := range x.Jobs {
			if line[j.Name] != x.Name {
				c.Moved = append(c.Moved, j.Name)
			}
		}
	}
	return c
}

// plansSaved returns by how much less another plan costs, replication by replication: what is chosen, and lateness
// where it has a price.
func plansSaved(was, is *PlansPlan) sim.Sample {
	less := plansLess(was.lateness(), is.lateness())
	for r, hours := range less {
		less[r] = float64(was.Cost - is.Cost)
		if price := was.Made.Plan.Late; price > 0 {
			less[r] += float64(price * hours)
		}
	}
	return less
}

// finished returns when the last job of each replication is finished, in hours by the clock on the wall.
func (x *PlansPlan) finished() sim.Sample {
	at := make(sim.Sample, x.Study.Done)
	for r, worked := range x.Study.Finished {
		at[r] = float64(x.Made.Horizon.At(sim.Seconds(worked))) / 3600
	}
	return at
}

// lateness returns the hours of lateness, each times its priority, of each replication.
func (x *PlansPlan) lateness() sim.Sample {
	late, kept := make(sim.Sample, x.Study.Done), make([]bool, x.Study.Done)
	for _, j := range x.Jobs() {
		if j.Due != nil {
			own := *j
			own.dated(&x.Made.Plan.Jobs[j.Index], x.Made.Horizon, &x.Study.Jobs[j.Index], late, kept)
		}
	}
	return late
}

// inTime returns how many dates are kept in each replication, of those that are not over.
func (x *PlansPlan) inTime() sim.Sample {
	n := make(sim.Sample, x.Study.Done)
	for _, j := range x.Jobs() {
		if j.Due == nil || j.DateOver {
			continue
		}
		due := float64(x.Made.Horizon.Worked(j.Due.At))
		for r, finished := range x.Study.Jobs[j.Index].Finished {
			if finished <= due {
				n[r]++
			}
		}
	}
	return n
}

// OnPaper returns the plan in another order, of each line the numbers of its jobs, with dates on paper
// alone: begin and end, which stand for the median and for nine in ten. The order must be one that can be.
func (x *PlansPlan) OnPaper(order [][]int) *PlansPlan {
	p, h := x.Made.Plan, x.Made.Horizon
	own := &PlansPlan{Name: x.Name, Given: true, Made: x.Made}
	for i, dates := range x.Made.OnPaper(order) {
		line := PlansLine{Name: p.Lines[i].Name, Jobs: []PlansJob{}}
		for k, d := range dates {
			job := &p.Jobs[order[i][k]]
			from, to := PlansMoment{h.From(d.From)}, PlansMoment{h.At(d.To)}
			one := PlansJob{
				Name: job.Name, Product: p.Products[job.Product].Name, Sets: job.Sets, Index: order[i][k],
				Begun: PlansSpread{from, from, from, from}, First: from, Finished: PlansSpread{to, to, to, to},
			}
			if !math.IsInf(float64(job.Due), 1) {
				one.Due = &PlansMoment{job.Due}
			}
			line.Jobs = append(line.Jobs, one)
		}
		own.Lines = append(own.Lines, line)
	}
	return own
}

// plansLess returns by how much a figure is less in another plan, replication by replication.
func plansLess(a, b sim.Sample) sim.Sample {
	less := make(sim.Sample, min(len(a), len(b)))
	for r := range less {
		less[r] = a[r] - b[r]
	}
	return less
}
