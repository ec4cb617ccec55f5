package study

import (
	"cmp"
	"math"
	"slices"

	"netrate/sim"
	"netrate/sim/output"
)

// IsChoice reports whether it is the base, with or without what is optional in it: what there is to choose from.
func (x *PlansPlan) IsChoice() bool { return x.choice }

// Serves reports whether each date that is not over is kept with the probability, and each job finished in every
// replication.
func (x *PlansPlan) Serves(service float64) bool {
	for _, j := range x.Jobs() {
		if j.Unfinished > 0 || j.Due != nil && !j.DateOver && float64(j.InTime.Share) < service {
			return false
		}
	}
	return true
}

// All returns what the plan costs: what is chosen, and lateness in the mean, if that has a price.
func (x *PlansPlan) All() float64 {
	if math.IsNaN(float64(x.LateCost)) {
		return float64(x.Cost)
	}
	return float64(x.Cost + x.LateCost)
}

// Sure returns the probability of the date least sure that is not over, or of being finished at all if that is less; 1 if
// all is sure.
func (x *PlansPlan) Sure() float64 {
	sure := 1.0
	for _, j := range x.Jobs() {
		if sure = min(sure, 1-float64(j.Unfinished)); j.InTime != nil && !j.DateOver {
			sure = min(sure, float64(j.InTime.Share))
		}
	}
	return sure
}

// nearer reports whether a plan comes nearer to a service than another.
func (x *PlansPlan) nearer(y *PlansPlan) bool {
	return cmp.Or(-cmp.Compare(x.Sure(), y.Sure()), cmp.Compare(x.Late.Mean, y.Late.Mean), cmp.Compare(x.All(), y.All())) < 0
}

// shownBetter reports whether a plan keeps its dates more often than another, leaves a job unfinished less often, or
// is less late by as much as matters, with the same random numbers and by more than chance.
func (x *PlansPlan) shownBetter(than *PlansPlan) bool {
	if x.shownSurer(than) || moreOften(x.inAll(), than.inAll()) || moreOften(x.ends(), than.ends()) {
		return true
	}
	less := plansLess(than.lateness(), x.lateness())
	return isGain(less, max(leastGain, leastShare*float64(than.Late.Mean))) || isGain(less, leastGain) && isGain(plansSaved(than, x), 0)
}

// shownSurer reports whether each date of a plan is kept more often than that which is least sure in another: so is
// then the least sure of its own.
func (x *PlansPlan) shownSurer(than *PlansPlan) bool {
	least, sure := []bool(nil), 1.0
	for _, j := range than.Jobs() {
		if j.InTime != nil && !j.DateOver && float64(j.InTime.Share) < sure {
			least, sure = than.inTimeOf(j), float64(j.InTime.Share)
		}
	}
	if least == nil {
		return false
	}
	for _, j := range x.Jobs() {
		if j.InTime != nil && !j.DateOver && !moreOften(x.inTimeOf(j), least) {
			return false
		}
	}
	return true
}

// inTimeOf returns in which replications the date of a job is kept.
func (x *PlansPlan) inTimeOf(j *PlansJob) []bool {
	in, due := make([]bool, x.Study.Done), float64(x.Made.Horizon.Worked(j.Due.At))
	for r, finished := range x.Study.Jobs[j.Index].Finished {
		in[r] = finished <= due
	}
	return in
}

// What of lateness matters that is less: hours, times priorities, that anybody sees, and a share of it. Less than that
// share matters too where it saves more than is paid for it.
const (
	leastGain  = 0.05
	leastShare = 0.05
)

// isGain reports whether the mean of a difference is above 0 by more than its interval, and at least so much, also
// without the replication that gains most; it is not where a job is not finished, as no interval is known then.
func isGain(less sim.Sample, least float64) bool {
	if len(less) < 2 {
		return false
	}
	sorted := slices.Sorted(slices.Values(less))
	for _, s := range []sim.Sample{sorted, sorted[:len(sorted)-1]} { // no single replication decides it
		if m := plansMean(s); !(m.Mean > m.Half && float64(m.Mean) >= least) {
			return false
		}
	}
	return true
}

// moreOften reports whether something comes about more often, pair by pair: whether of the pairs that differ
// more than half have it, by the exact interval (the sign test of McNemar).
func moreOften(x, than []bool) bool {
	more, differ := 0, 0
	for r := range min(len(x), len(than)) {
		switch {
		case x[r] == than[r]:
			continue
		case x[r]:
			more++
		}
		differ++
	}
	if differ == 0 {
		return false
	}
	low, _ := output.ExactInterval(int64(more), int64(differ), Level)
	return low > 0.5
}

// inAll returns for each replication whether all dates are kept that are not over.
func (x *PlansPlan) inAll() []bool {
	dated, all := 0.0, make([]bool, x.Study.Done)
	for _, j := range x.Jobs() {
		if j.Due != nil && !j.DateOver {
			dated++
		}
	}
	for r, n := range x.inTime() {
		all[r] = n == dated
	}
	return all
}

// ends returns for each replication whether all jobs are finished.
func (x *PlansPlan) ends() []bool {
	all := make([]bool, x.Study.Done)
	for r, at := range x.finished() {
		all[r] = !math.IsInf(at, 1)
	}
	return all
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
	}
	if a.Chosen >= 0 {
		a.Cheapest = -1
		return
	}
	a.Nearest = a.nearest()
}

// nearest returns which choice comes nearest to a service that none has: what is dearer counts only where it
// is shown to be better than what is less dear, and the first of all is the base.
func (a *PlansAnswer) nearest() Index {
	var choices []Index
	for i := range a.Plans {
		if a.Plans[i].choice {
			choices = append(choices, Index(i))
		}
	}
	slices.SortStableFunc(choices, func(i, k Index) int { return cmp.Compare(a.Plans[i].Cost, a.Plans[k].Cost) })
	best := Index(-1)
	for _, i := range choices {
		if best < 0 || a.Plans[i].nearer(&a.Plans[best]) && a.Plans[i].shownBetter(&a.Plans[best]) {
			best = i
		}
	}
	return best
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
