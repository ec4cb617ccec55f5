package seasons

import (
	"fmt"

	"netrate/model"
	"netrate/sim"
)

// OpenRemakes is remakes of a job that lie at the bench beside the lines.
type OpenRemakes struct {
	Job     PlanJob // its Sets are those that are left of it: 0 if nothing but these remakes is
	Remakes int64
}

// BenchWork returns how long the remakes that lie at the bench when the plan begins take.
func (p *Plan) BenchWork() (all sim.Seconds) {
	for _, open := range p.OnBench {
		all += p.atBench(open.Remakes)
	}
	return all
}

// BenchDone returns when, in working time, each of OnBench is made.
func (p *Plan) BenchDone() (all []sim.Seconds) {
	now := sim.Seconds(0)
	for _, open := range p.OnBench {
		now += p.atBench(open.Remakes)
		all = append(all, now)
	}
	return all
}

// bench returns when, in working time, the last remake of each job is made that lies there, by its name.
func (p *Plan) bench() map[string]sim.Seconds {
	all := map[string]sim.Seconds{}
	for i, done := range p.BenchDone() {
		all[p.OnBench[i].Job.Name] = done
	}
	return all
}

// atBench returns how long so many remakes take there.
func (p *Plan) atBench(remakes int64) sim.Seconds {
	return sim.Seconds(sim.Seconds(remakes) * sim.Seconds(3600/p.Closing.PerHour))
}

// wrongRemakes returns what is wrong with the remakes that are said to lie at the bench; nil if nothing is.
func (p *Plan) wrongRemakes(job *PlanJob, d Progress) *WrongProgress {
	switch {
	case d.Remakes == 0:
		return nil
	case d.Remakes < 0 || d.Remakes > d.Sets:
		return &WrongProgress{Why: fmt.Sprintf("%d remakes of %s lie at the bench, want from 0 to the %d sets that are done", d.Remakes, d.Job, d.Sets)}
	case p.Closing.Closing == model.Open:
		return &WrongProgress{Why: fmt.Sprintf("%d remakes of %s are open, and the plan says nothing of remakes: give remakes under plan", d.Remakes, d.Job)}
	case p.Closing.Closing != model.Beside:
		return &WrongProgress{Why: fmt.Sprintf("%d remakes of %s lie at a bench, and there is none: remakes are made %s, so take them off the sets that are done", d.Remakes, d.Job, map[bool]string{true: "by hand while the line waits", false: "on the line again"}[p.Closing.Closing == model.ByHand])}
	case !p.Products[job.Product].Personalised():
		return &WrongProgress{Why: fmt.Sprintf("%s is not personalised: it has no remakes", d.Job)}
	}
	return nil
}

// NotRemade returns the jobs of which nothing is made again, though remakes are closed: they are not
// personalised. None where remakes are left open.
func (p *Plan) NotRemade() []string {
	var all []string
	for _, j := range p.Jobs {
		if p.Closing.Closing != model.Open && !p.Products[j.Product].Personalised() {
			all = append(all, j.Name)
		}
	}
	return all
}

// NotRemade returns the products of the season of which nothing is made again, though remakes are closed:
// they are not personalised.
func (s *Season) NotRemade() []string {
	var all []string
	for _, p := range s.Products {
		if s.Closing.Closing != model.Open && !p.Personalised() {
			all = append(all, p.Name)
		}
	}
	return all
}
