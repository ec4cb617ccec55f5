package study

import (
	"cmp"
)

// IsChoice reports whether it is the base, with or without what is optional in it: what there is to choose from.
func (x *PlansPlan) IsChoice() bool { return x.choice }

// Serves reports whether each date is kept with the probability, and each job finished in every
// replication.
func (x *PlansPlan) Serves(service float64) bool {
	for _, j := range x.Jobs() {
		if j.Unfinished > 0 || j.Due != nil && float64(j.InTime.Share) < service {
			return false
		}
	}
	return true
}

// All returns what the plan costs: what is chosen, and lateness in the mean.
func (x *PlansPlan) All() float64 { return float64(x.Cost + x.LateCost) }

// Sure returns the probability of the date least sure, or of being finished at all if that is less; 1 if
// all is sure.
func (x *PlansPlan) Sure() float64 {
	sure := 1.0
	for _, j := range x.Jobs() {
		if sure = min(sure, 1-float64(j.Unfinished)); j.InTime != nil {
			sure = min(sure, float64(j.InTime.Share))
		}
	}
	return sure
}

// nearer reports whether a plan comes nearer to a service than another.
func (x *PlansPlan) nearer(y *PlansPlan) bool {
	return cmp.Or(-cmp.Compare(x.Sure(), y.Sure()), cmp.Compare(x.Late.Mean, y.Late.Mean), cmp.Compare(x.All(), y.All())) < 0
}

// Shown returns the plan that is to be looked at first: the cheapest with the service, or what comes
// nearest to it, or the base.
func (a *PlansAnswer) Shown() Index { return max(a.Chosen, a.Nearest, 0) }

// choose finds which plans are chosen for a service.
func (a *PlansAnswer) choose(service float64) {
	a.Chosen, a.Nearest, a.Cheapest, a.ChosenAnew = -1, -1, -1, -1
	if service == 0 {
		return
	}
	for i := range a.Plans {
		x := &a.Plans[i]
		if x.anew && x.Serves(service) && (a.ChosenAnew < 0 || x.All() < a.Plans[a.ChosenAnew].All()) {
			a.ChosenAnew = Index(i)
		}
		if !x.choice {
			continue
		}
		cheaper := func(of Index) bool { return of < 0 || x.All() < a.Plans[of].All() }
		if x.Serves(service) && cheaper(a.Chosen) {
			a.Chosen = Index(i)
		}
		if cheaper(a.Cheapest) {
			a.Cheapest = Index(i)
		}
		if a.Nearest < 0 || x.nearer(&a.Plans[a.Nearest]) {
			a.Nearest = Index(i)
		}
	}
	if a.Chosen >= 0 {
		a.Nearest, a.Cheapest = -1, -1
	}
}

// Anew returns the first plan without an order that is given, for [Plans.Anew] of a question that differs in
// the order of the base alone; nil if it is not known. An answer without an order has it as its base.
func (a *PlansAnswer) Anew() *PlansPlan {
	for i := range a.Plans {
		if x := &a.Plans[i]; x.anew && len(x.Prices) == 0 || i == 0 && !x.Given {
			return x
		}
	}
	return nil
}
