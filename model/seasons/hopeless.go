package seasons

import (
	"math"

	"netrate/model/setup"
	"netrate/sim"
)

// Hopeless is a job whose date no plan can keep, since its sets alone take longer than there is time.
type Hopeless struct {
	Job   *PlanJob
	Needs sim.Seconds // working time on the fastest line that may do it, at its nominal full speed, without changeover and stops
	There sim.Seconds // working time from when it may begin to its date, with all that is optional; 0 if it is due before
}

// Hopeless returns the jobs of a checked plan whose dates no plan can keep. A date that is over when the plan begins is
// no matter of a plan.
func (p *Plan) Hopeless() (jobs []Hopeless) {
	all := make([]int, len(p.Staffed))
	for i := range all {
		all[i] = i
	}
	most, _ := p.Chosen(all)
	h, aside := most.Horizon(), most.NotTaken()
	for i := range p.Jobs {
		j := &p.Jobs[i]
		if math.IsInf(float64(j.Due), 1) || j.Due <= p.From || j.Sets == 0 {
			continue
		}
		x := Hopeless{j, p.atFullSpeed(i, aside), max(0, h.Worked(j.Due)-h.Worked(max(j.NotBefore, p.From)))}
		if x.Needs > x.There {
			jobs = append(jobs, x)
		}
	}
	return jobs
}

// atFullSpeed returns how long a job takes on the fastest line that is taken for it, if it never stops.
func (p *Plan) atFullSpeed(job int, aside []NotTaken) sim.Seconds {
	fastest, j := math.Inf(1), &p.Jobs[job]
	for i, line := range p.Lines {
		if !j.may(i) || j.InHand >= 0 && j.InHand != i || isNotTaken(aside, i, job) {
			continue
		}
		if made, fit := setup.Fitted(line, p.Products[j.Product]); fit.Runs {
			fastest = min(fastest, 3600*float64(j.Sets)/made.Analytic().Speed)
		}
	}
	return sim.Seconds(fastest)
}
