package study

import (
	"fmt"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/sim"
)

// PlansPromise is a plan that was made before, and holds until another does.
type PlansPromise struct {
	Revision int          // plans that came before it
	Bought   []PlansPrice // what of it was chosen, having the service that was asked for
	Open     []string     // what is optional in the plan of it that came nearest, none having the service: nobody decided on it
	Lines    []PlansLine  // which line does which job, in which order, and when: of each job its name and its dates count
}

// revision returns how many plans came before one that replaces the promise.
func (p *PlansPromise) revision() int {
	if p == nil {
		return 0
	}
	return p.Revision + 1
}

// inForce returns a plan with what was chosen in the promise in force, whatever the file says of it; the plan
// itself if there is no promise.
func (p *PlansPromise) inForce(plan *seasons.Plan) (*seasons.Plan, []error) {
	if p == nil || len(p.Bought) == 0 {
		return plan, nil
	}
	own := *plan
	own.Staffed = slices.Clone(plan.Staffed)
	var errs []error
	for _, b := range p.bought() {
		i := slices.IndexFunc(own.Staffed, func(s seasons.Staffed) bool { return s.Name == b.Name })
		if i < 0 {
			errs = append(errs, fmt.Errorf("%s was chosen in the plan that is promised, and is no item of staff any more", b.Name))
			continue
		}
		item := &own.Staffed[i]
		rest := *item // its other days may be chosen still
		item.Optional, item.Chosen, item.Only = false, true, b.Of
		if b.Of == nil || !rest.Optional {
			continue
		}
		rest.Only = slices.DeleteFunc(plan.Days(&rest), func(d seasons.StaffDay) bool { return slices.Contains(b.Of, d) })
		if len(rest.Only) > 0 {
			own.Staffed = slices.Insert(own.Staffed, i+1, rest)
		}
	}
	return &own, errs
}

// bought returns what was bought, each item once: of one that was bought by the day all its days.
func (p *PlansPromise) bought() (all []PlansPrice) {
	for _, b := range p.Bought {
		i := slices.IndexFunc(all, func(x PlansPrice) bool { return x.Name == b.Name })
		switch {
		case i < 0:
			b.Of = slices.Clone(b.Of)
			all = append(all, b)
		case all[i].Of == nil || b.Of == nil:
			all[i].Of = nil
		default:
			all[i].Of = append(all[i].Of, b.Of...)
		}
	}
	return all
}

// open returns what came nearest in the promise and is optional still.
func (p *PlansPromise) open(plan *seasons.Plan) (names []string) {
	for _, name := range p.Open {
		if slices.ContainsFunc(plan.Staffed, func(s seasons.Staffed) bool { return s.Name == name && s.Optional }) {
			names = append(names, name)
		}
	}
	return names
}

// has reports whether all jobs of a plan are in the promise, on lines that can still do them.
func (p *PlansPromise) has(plan *seasons.Plan) bool {
	known := map[string]bool{}
	for _, line := range p.Lines {
		if !slices.ContainsFunc(plan.Lines, func(l *model.Line) bool { return l.Name == line.Name }) {
			return false
		}
		for _, j := range line.Jobs {
			known[j.Name] = true
		}
	}
	if slices.ContainsFunc(plan.Jobs, func(j seasons.PlanJob) bool { return !known[j.Name] }) {
		return false
	}
	own := *plan
	own.Order = p.order(plan)
	return own.Check() == nil
}

// order returns the order of the promise for what is left of it.
func (p *PlansPromise) order(plan *seasons.Plan) [][]int {
	names := make([][]string, len(plan.Lines))
	for _, line := range p.Lines {
		i := slices.IndexFunc(plan.Lines, func(l *model.Line) bool { return l.Name == line.Name })
		for _, j := range line.Jobs {
			names[i] = append(names[i], j.Name)
		}
	}
	return plan.InOrder(names)
}

// PlansPromised is what became of the dates of a plan that was promised.
type PlansPromised struct {
	Jobs []PlansPromisedJob `json:"jobs"`
	New  []string           `json:"new,omitempty"` // jobs that were not in it
}

// PlansPromisedJob is one of its jobs.
type PlansPromisedJob struct {
	Name  string       `json:"name"`
	Was   PlansMoment  `json:"was_finished_p90"`
	Is    *PlansMoment `json:"finished_p90"` // null if it is done, or in the plan no more
	Later Number       `json:"later_h"`      // by the clock on the wall; 0 if it is done
	Slips bool         `json:"slips"`        // later by more than chance
	Due   *PlansMoment `json:"due,omitempty"`
	Kept  *Number      `json:"date_kept,omitempty"` // with which probability now
	Had   *Number      `json:"date_was_kept,omitempty"`
	State string       `json:"state"` // left, on the bench, done, or in the plan no more
}

// What became of a job of the promise.
const (
	PlansLeft   = "left"
	PlansMaking = "on the bench"
	PlansDone   = "done"
	PlansGone   = "in the plan no more"
)

// became returns what became of the dates in a plan of what is left of another; nil if there is no promise.
func (p *PlansPromise) became(x *PlansPlan, of *seasons.Plan) *PlansPromised {
	if p == nil {
		return nil
	}
	all := &PlansPromised{Jobs: []PlansPromisedJob{}}
	promised := map[string]bool{}
	for _, line := range p.Lines {
		for i := range line.Jobs {
			promised[line.Jobs[i].Name] = true
			one := x.became(&line.Jobs[i])
			if !slices.ContainsFunc(of.Jobs, func(j seasons.PlanJob) bool { return j.Name == one.Name }) {
				one.State = PlansGone
			}
			all.Jobs = append(all.Jobs, one)
		}
	}
	for _, j := range x.Jobs() {
		if !promised[j.Name] {
			all.New = append(all.New, j.Name)
		}
	}
	return all
}

// surelyBelow returns what a quantile is not below that is set against one of about as many replications of
// its own: by the normal approximation of how many of a sample are below a quantile, for both together.
func surelyBelow(s sim.Sample, q float64) float64 {
	n := float64(len(s))
	return s.Quantile(max(0, q-float64(1.96*math.Sqrt(2*q*(1-q)/n))))
}

// became returns what became of a job in the plan.
func (x *PlansPlan) became(was *PlansJob) PlansPromisedJob {
	one := PlansPromisedJob{Name: was.Name, Was: was.Finished.P90, Due: was.Due, State: PlansDone}
	surely := sim.Seconds(0) // it is not finished 9 times in 10 before that
	if was.InTime != nil {
		one.Had = &was.InTime.Share
	}
	if x.Hand != nil {
		for i := range x.Hand.OnBench {
			if b := &x.Hand.OnBench[i]; b.Name == was.Name {
				one.Is, one.State, one.Due = &b.Made, PlansMaking, b.Due
				if b.Due != nil {
					kept := Number(1)
					if b.Late > 0 {
						kept = 0
					}
					one.Kept = &kept
				}
			}
		}
	}
	for _, j := range x.Jobs() {
		if j.Name != was.Name {
			continue
		}
		one.Is, one.State, one.Due = &j.Finished.P90, PlansLeft, j.Due
		surely = x.Made.Horizon.At(sim.Seconds(surelyBelow(x.Study.Jobs[j.Index].Finished, 0.9)))
		if j.InTime != nil {
			one.Kept = &j.InTime.Share
		}
	}
	if one.Is != nil {
		if one.State == PlansMaking {
			surely = one.Is.At
		}
		one.Later = Number((one.Is.At - one.Was.At) / 3600)
		one.Slips = surely > one.Was.At && one.Later > leastGain
	}
	return one
}
