package study

import (
	"cmp"
	"context"
	"maps"
	"math"
	"slices"
	"strings"

	"netrate/model/seasons"
	"netrate/sim"
	"netrate/sim/tape"
)

// PlansDays is how days were chosen of what is paid by the day, or shifts of what is paid by the shift.
type PlansDays struct {
	Tried   int  `json:"plans_tried"` // with fewer days, beside all combinations of whole items
	Stopped bool `json:"stopped"`     // there was more to try
}

// How many plans with fewer days are tried at most, and how often each is simulated: first so often, and on only if
// the service is not out of reach by then.
const (
	mostDayPlans = 100
	firstDayRuns = 16
	mostDayRuns  = 100
	daySeed      = 0x64617973 // its random numbers are others than those of the answer
)

// daySearch looks for days that can be left out of what is chosen: greedily, one at a time, of each combination of whole
// items that has the service and may come to less than the best up to then. Where none has the service it is the one
// that comes nearest, of which days are left out without which nothing shows to be worse.
//
// Each plan is simulated in the order of the combination from which its days are left out, and if it does not do in that
// of the base, all with the same random numbers, and not those of the answer, lest the choice among many looks surer than
// it is. The plan that is found is then made and simulated as any other, and is chosen only if it has the service there
// too; else the one before it on the way is.
type daySearch struct {
	*Plans
	base   *planned
	found  *PlansDays
	served bool        // a combination of whole items has the service
	way    []*dayTrial // from a combination to the best that was found, those that are not planned yet
	done   bool
}

// dayTrial is a choice with some of its days.
type dayTrial struct {
	options []int                      // items of staff that are chosen, by their numbers
	days    map[int][]seasons.StaffDay // of those that are paid by the day or shift, in order
	orders  []*seasons.Made            // in whose order it can be: the first in which it does is taken
	plan    *PlansPlan                 // nil where its dates are out of reach
}

// next returns what is to be planned beside all that was: the best plan with fewer days that is not planned yet; none
// if one is chosen, there is no more, or not all is simulated that was to be.
func (s *daySearch) next(ctx context.Context, a *PlansAnswer, all []planned) ([]planned, error) {
	if s.Service == 0 || len(a.Plans) < len(all) {
		return nil, nil
	}
	own := *a
	own.choose(s.Service)
	if !s.done {
		s.base, s.done = &all[0], true
		err := s.search(ctx, &own, all)
		if s.found.Tried > 0 {
			a.Days = s.found
		}
		if err != nil {
			return nil, err
		}
	}
	last := len(s.way) - 1
	if last < 0 || all[own.Shown()].inPart {
		return nil, nil
	}
	x := s.planned(s.way[last])
	if x.Plan.Order == nil {
		x.Plan.Known = append(slices.Clone(x.Plan.Known), s.way[last].orders[0].Order)
	}
	s.way = s.way[:last]
	return append([]planned{x}, s.twins(x)...), nil
}

// search finds the way to the best choice with fewer days.
func (s *daySearch) search(ctx context.Context, a *PlansAnswer, all []planned) error {
	s.found = &PlansDays{}
	starts, best := []Index{a.Nearest}, math.Inf(1)
	if s.served = a.Chosen >= 0; s.served {
		starts, best = nil, a.Plans[a.Chosen].All()
		for i := range a.Plans {
			if x := &a.Plans[i]; x.choice && x.Serves(s.Service) {
				starts = append(starts, Index(i))
			}
		}
		slices.SortStableFunc(starts, func(i, k Index) int { return cmp.Compare(a.Plans[i].All(), a.Plans[k].All()) })
	}
	for _, i := range starts {
		whole := &dayTrial{options: all[i].options, days: map[int][]seasons.StaffDay{}, orders: []*seasons.Made{a.Plans[i].Made, a.Plans[0].Made}}
		least, more := 0.0, false // what it costs with one day of each item
		for _, k := range whole.options {
			staffed := &s.base.Plan.Staffed[k]
			if days := s.base.Plan.Days(staffed); days != nil {
				whole.days[k], more = days, more || len(days) > 1
			}
			least += staffed.Cost
		}
		if !more || least >= best {
			continue
		}
		way, err := s.leaveOut(ctx, whole)
		if err != nil {
			return err
		}
		if end := way[len(way)-1]; len(way) > 1 && end.plan.All() < best {
			best, s.way = end.plan.All(), way[1:]
		}
	}
	return nil
}

// leaveOut leaves days out of a choice one at a time, each item keeping one at least: that without which it costs least,
// or, where several cost as little, is surest. A day that cannot be left out is kept for good. It returns the way from
// the whole choice on.
func (s *daySearch) leaveOut(ctx context.Context, whole *dayTrial) ([]*dayTrial, error) {
	way, now := []*dayTrial{whole}, whole
	if err := s.try(ctx, whole); err != nil || whole.plan == nil {
		return way, err
	}
	if few := whole.untilDone(); few != nil {
		s.found.Tried++
		if err := s.try(ctx, few); err != nil || few.plan == nil {
			return way, err
		}
		way, now = append(way, few), few
	}
	kept := map[int][]seasons.StaffDay{}
	for {
		var best *dayTrial
		for _, i := range now.options {
			for k, d := range now.days[i] {
				if len(now.days[i]) == 1 || slices.Contains(kept[i], d) {
					continue
				}
				if s.found.Stopped = s.found.Tried == mostDayPlans; s.found.Stopped {
					return way, nil
				}
				x, err := s.inOrder(ctx, now.without(i, k), now, whole)
				switch {
				case err != nil:
					return nil, err
				case x == nil:
					kept[i] = append(kept[i], d)
				case best == nil || x.before(best):
					best = x
				}
			}
		}
		if best == nil {
			return way, nil
		}
		way, now = append(way, best), best
	}
}

// inOrder returns a choice in the first of the orders in which it does; nil if it does in none.
func (s *daySearch) inOrder(ctx context.Context, x, now, whole *dayTrial) (*dayTrial, error) {
	s.found.Tried++
	for i := range x.orders {
		own := *x
		own.orders = slices.Concat(x.orders[i:], x.orders[:i])
		if err := s.try(ctx, &own); err != nil {
			return nil, err
		}
		if s.does(&own, now, whole) {
			return &own, nil
		}
	}
	return nil, nil
}

// does reports whether a choice costs less than the one with a day more, and has the service, or, where none has, is not
// shown to be worse than with all days.
func (s *daySearch) does(x, now, whole *dayTrial) bool {
	switch {
	case x.plan == nil || !(x.plan.All() < now.plan.All()):
		return false
	case s.served:
		return x.plan.Serves(s.Service)
	}
	return !whole.plan.shownBetter(x.plan)
}

// try simulates a choice. It is no part of the answer, and on no tape.
func (s *daySearch) try(ctx context.Context, x *dayTrial) error {
	own := s.planned(x)
	made, err := x.orders[0].Instead(own.Plan)
	if err != nil {
		return nil //nolint:nilerr // with these people that order cannot be
	}
	one := newPlansPlan(&own, made)
	one.seed = s.Plan.Seed ^ daySeed
	for _, runs := range [...]int{firstDayRuns, mostDayRuns} {
		runs = min(runs, s.Plan.Max)
		how := sim.Plan{Seed: one.seed, Min: runs, Max: runs, Workers: s.Plan.Workers}
		study, err := seasons.RunTogether(tape.Here(ctx), one.work(), how, nil)
		switch {
		case err != nil:
			return err
		case study.Ending == sim.Cancelled:
			return context.Cause(ctx)
		}
		counted := one.counted(study)
		if s.served && counted.outOfReach(s.Service) {
			return nil
		}
		x.plan = &counted
	}
	return nil
}

// outOfReach reports whether a service is shown not to be had.
func (x *PlansPlan) outOfReach(service float64) bool {
	return slices.ContainsFunc(x.Jobs(), func(j *PlansJob) bool {
		return j.Unfinished > 0 || j.InTime != nil && !j.DateOver && float64(j.InTime.High) < service
	})
}

// planned returns the base with a choice.
func (s *daySearch) planned(x *dayTrial) planned {
	only := map[int][]seasons.StaffDay{}
	for i, days := range x.days {
		if len(days) < len(s.base.Plan.Days(&s.base.Plan.Staffed[i])) {
			only[i] = days
		}
	}
	chosen, prices := s.base.Plan.InPart(only).Chosen(x.options)
	var names []string
	for _, p := range prices {
		names = append(names, seasons.Called(p.Name, p.Of))
	}
	own := PlansConfiguration{Name: "with " + strings.Join(names, ", "), Plan: chosen, Costs: s.base.Costs}
	return planned{PlansConfiguration: own, prices: prices, choice: true, inPart: true}
}

// without returns a choice without a day of an item.
func (x *dayTrial) without(item, day int) *dayTrial {
	few := &dayTrial{options: x.options, days: maps.Clone(x.days), orders: x.orders}
	few.days[item] = slices.Delete(slices.Clone(x.days[item]), day, day+1)
	return few
}

// untilDone returns a choice without the days that begin when all is done in every replication, so that nothing changes
// without them; nil if it has none.
func (x *dayTrial) untilDone() *dayTrial {
	end := sim.Seconds(3600 * slices.Max(x.plan.finished()))
	few := x
	for _, i := range x.options {
		for k := len(few.days[i]) - 1; k > 0; k-- {
			if few.days[i][k].From() >= end {
				few = few.without(i, k)
			}
		}
	}
	if few == x {
		return nil
	}
	return few
}

// before reports whether a choice is better than another with as many days: cheaper, or else surer, or else with more
// time between each job's end, 95 times in 100, and its date.
func (x *dayTrial) before(y *dayTrial) bool {
	return cmp.Or(cmp.Compare(x.plan.All(), y.plan.All()), -cmp.Compare(x.plan.Sure(), y.plan.Sure()), -cmp.Compare(x.plan.leastSlack(), y.plan.leastSlack())) < 0
}

// leastSlack returns the least time between the end of a job, 95 times in 100, and its date.
func (x *PlansPlan) leastSlack() sim.Seconds {
	least := sim.Seconds(math.Inf(1))
	for _, j := range x.Jobs() {
		if j.Due != nil && !j.DateOver {
			least = min(least, j.Due.At-j.Finished.P95.At)
		}
	}
	return least
}
