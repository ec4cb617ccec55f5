package study

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"netrate/model"
	"netrate/model/seasons"
	"netrate/model/worth"
	"netrate/sim"
	"netrate/sim/tape"
)

// Plans asks which line does which job, and when, in each of some configurations, and how likely
// each date is, with common random numbers.
type Plans struct {
	Configurations []PlansConfiguration // the first is the base
	Service        float64              // with what probability each date shall be kept, at least cost; 0 if it is not asked for
	Now            sim.Seconds          // when the rest is planned; 0 for the start
	Done           []seasons.Progress   // by then
	Plan           sim.Plan             // Max replications of each
	Promised       *PlansPromise        // an earlier plan, what of it was chosen is in force; nil for none
	Anew           *PlansPlan           // what the first came to without its order, from an earlier answer; nil if it is not known
}

// PlansConfiguration is one plan to make.
type PlansConfiguration struct {
	Name    string
	Changes []string // from the base, in words
	Plan    *seasons.Plan
	Costs   *worth.Costs // what it costs is part of the answer; nil if it is not

	Chosen []seasons.Price // what is chosen in it of what was optional; each is part of what it costs
}

// With returns the configuration with some of what is optional in it chosen, by its names, and called by them, before
// the configuration itself; that alone if nothing is.
func (c PlansConfiguration) With(names []string) ([]PlansConfiguration, error) {
	if len(names) == 0 {
		return []PlansConfiguration{c}, nil
	}
	with, err := c, error(nil)
	with.Name = "with " + strings.Join(names, ", ")
	with.Plan, with.Chosen, err = c.Plan.ChosenNamed(names)
	return []PlansConfiguration{with, c}, err
}

// plannedAnew is what the plan is called that is made where the first has its order given.
const plannedAnew = "planned anew"

// orderAsItWas is what the plan is called that goes on in the order of the plan made before.
const orderAsItWas = "the order as it was"

// MostOptions is how many optional staffings a plan may have of which all combinations are tried.
const MostOptions = 6

// planned is a configuration with what is chosen for it.
type planned struct {
	PlansConfiguration
	prices []seasons.Price // of what is chosen
	kept   bool            // the order is that of the plan made before
	anew   bool            // it is without the order that is given
	choice bool            // it is the base, with or without what is optional in it
	twin   string          // of one planned anew, or in the order before, the plan that it is set against; "" of others
	made   *seasons.Made   // nil if it is not made yet

	options []int // the items of staff that are chosen for it, by their numbers in the base
	inPart  bool  // it has some days alone of what is chosen for it
}

// failed returns the error of a plan with its name.
func (c *planned) failed(err error) error { return fmt.Errorf("%s: %w", c.Name, err) }

// Check returns what is wrong with the plans, all of it.
func (q *Plans) Check() error {
	_, err := q.all()
	return err
}

// all returns everything that is planned: the configurations, of which the first, for a service, has all
// combinations of what is optional; and beside each of these the same choice planned anew, if an order is
// given; else, if there was a plan before, the first in its order, as it would go on (and, once it is known, the
// choice that is shown: see likeChosen).
func (q *Plans) all() ([]planned, error) {
	if len(q.Configurations) == 0 {
		return nil, errors.New("no plan is asked about")
	}
	var all []planned
	var errs []error
	for i, c := range q.Configurations {
		own, wrong := q.Promised.inForce(c.Plan)
		for _, err := range wrong { // that of the base may be wrong in each variant
			if !slices.ContainsFunc(errs, func(e error) bool { return e.Error() == err.Error() }) {
				errs = append(errs, err)
			}
		}
		c.Plan = own
		choices := []planned{{PlansConfiguration: c, choice: i == 0, prices: c.Chosen}}
		if i == 0 && q.Service > 0 {
			chosen, err := combinations(c.Plan, q.Now)
			if err != nil {
				return nil, err
			}
			for k := range chosen {
				chosen[k].Costs = c.Costs
			}
			choices = append(choices, chosen...)
		}
		for _, x := range choices {
			all = append(all, x)
			if i == 0 {
				all = append(all, q.twins(x)...)
			}
		}
	}
	for i := range all {
		c := &all[i]
		if q.begun() {
			left, wrong := c.Plan.After(q.Now, q.Done)
			if errs = append(errs, wrong...); len(wrong) > 0 {
				return nil, errors.Join(errs...)
			}
			c.Plan = left
		}
		if err := c.Plan.Check(); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", c.Name, err))
		}
	}
	return all, errors.Join(errs...)
}

// twins returns the plan that one of the base is set against; none if there is none.
func (q *Plans) twins(x planned) []planned {
	twin := x
	twin.choice, twin.Changes = false, nil
	switch {
	case x.Plan.Order != nil:
		own := *x.Plan
		own.Order, own.Known = nil, [][][]int{own.Order} // it shall not be worse than that
		twin.Name, twin.Plan, twin.anew, twin.twin = plannedAnew, &own, true, x.Name
		if len(x.prices) > 0 {
			twin.Name += " " + x.Name // with what is chosen
		}
	case len(x.prices) == 0 && q.before(x.Plan):
		twin.Name, twin.kept, twin.twin = orderAsItWas, true, x.Name
	default:
		return nil
	}
	return []planned{twin}
}

// likeChosen returns the choice that is shown in the order of the plan made before, which it is set against; none
// if it is there already, there is no such order, or it is not known yet what is shown.
func (q *Plans) likeChosen(a *PlansAnswer, all []planned) []planned {
	if q.Service == 0 || len(a.Plans) < len(all) || !slices.ContainsFunc(all, func(c planned) bool { return c.kept }) {
		return nil
	}
	own := *a
	own.choose(q.Service)
	twin := all[own.Shown()]
	if slices.ContainsFunc(all, func(c planned) bool { return c.kept && c.twin == twin.Name }) {
		return nil
	}
	twin.twin, twin.kept, twin.choice, twin.Changes, twin.made = twin.Name, true, false, nil, nil
	twin.Name = orderAsItWas + " " + twin.Name // with what is chosen
	return []planned{twin}
}

// before reports whether there is an order of an earlier plan, in which all jobs stand that are planned now.
func (q *Plans) before(p *seasons.Plan) bool {
	if q.Promised != nil {
		return q.Promised.has(p)
	}
	return q.begun()
}

// begun reports whether some time has passed, so that what is left is planned.
func (q *Plans) begun() bool { return q.Now > 0 || q.Done != nil }

// combinations returns the plan from a time on with each choice of what is optional, but for none of it.
func combinations(given *seasons.Plan, from sim.Seconds) ([]planned, error) {
	own, options := *given, []int(nil)
	p := &own
	p.From = max(p.From, from) // what is over is not paid for any more
	over, idle := p.Over(), p.IdleStaff()
	for i, s := range p.Staffed {
		if s.Optional && !slices.Contains(over, s.Name) && !slices.Contains(idle, s.Name) {
			options = append(options, i)
		}
	}
	switch {
	case len(options) == 0 && slices.ContainsFunc(p.Staffed, func(s seasons.Staffed) bool { return s.Chosen }):
		return nil, nil // all is chosen already: whether that is enough can be said
	case len(options) == 0 && len(idle) > 0:
		return nil, fmt.Errorf("a service is asked for, and %s, which is optional under staff, changes nobody in any shift: there is nothing to choose", strings.Join(idle, ", "))
	case len(options) == 0 && len(over) > 0:
		return nil, errors.New("a service is asked for, and what is optional under staff is over by now: there is nothing to choose")
	case len(options) == 0:
		return nil, errors.New("a service is asked for, and nothing under staff is optional: there is nothing to choose")
	case len(options) > MostOptions:
		return nil, fmt.Errorf("%d items of staff are optional, and all combinations are tried of at most %d", len(options), MostOptions)
	}
	var all []planned
	for set := 1; set < 1<<len(options); set++ {
		var own []int
		var names []string
		for k := range options {
			if set>>k&1 == 1 {
				own, names = append(own, options[k]), append(names, p.Staffed[options[k]].Name)
			}
		}
		chosen, prices := p.Chosen(own)
		all = append(all, planned{PlansConfiguration: PlansConfiguration{Name: "with " + strings.Join(names, ", "), Plan: chosen}, prices: prices, choice: true, options: own})
	}
	return all, nil
}

// Ask makes each plan and simulates it. It calls told, if there is one, after each replication. When
// ctx is done first, the answer holds the plans that were finished, and the first as far as it came;
// if it has no replication at all, there are none.
func (q *Plans) Ask(ctx context.Context, told func(Sofar[PlansAnswer])) (*PlansAnswer, error) {
	all, err := q.all()
	if err == nil {
		err = q.canBeKept(all)
	}
	if err != nil {
		return nil, err
	}
	a, m := q.unanswered(all), newPlansMaker(q)
	if err := m.together(ctx, all); err != nil {
		return a.ended(ctx, q, err)
	}
	plan := q.Plan
	plan.Min, plan.Precision = plan.Max, 0
	var elsewhere tape.Elsewhere
	days := daySearch{Plans: q}
	for i := 0; i < len(all); i++ {
		if q.isKnown(&all[i]) {
			a.Plans = append(a.Plans, q.known())
			continue
		}
		made, err := m.make(ctx, &all[i])
		switch {
		case all[i].kept && misplaced(err) != "":
			a.NotKept = misplaced(err)
			all = slices.Delete(all, i, i+1)
			i, a.Asked = i-1, len(all)
			continue
		case err != nil:
			return a.ended(ctx, q, all[i].failed(err))
		}
		x := newPlansPlan(&all[i], made)
		x.seed = q.Plan.Seed
		study, err := seasons.RunTogether(elsewhere.Next(ctx), x.work(), plan, a.watch(q, x, i, told))
		err = elsewhere.Keep(err)
		switch {
		case err == nil && study == nil:
			continue
		case err != nil:
			return nil, err
		case study.Ending == sim.Cancelled && (i > 0 || study.Done == 0):
			return a.sofar(q, sim.Cancelled), nil
		}
		a.Plans = append(a.Plans, x.counted(study))
		a.Plans[len(a.Plans)-1].Costs.against(a.Plans[0].Costs)
		if study.Ending == sim.Cancelled {
			return a.sofar(q, sim.Cancelled), nil
		}
		more, err := days.next(ctx, a, all)
		if err != nil {
			return a.ended(ctx, q, err)
		}
		all = append(all, more...)
		all = append(all, q.likeChosen(a, all)...)
		a.Asked = len(all)
	}
	if err := elsewhere.Err(); err != nil {
		return nil, err
	}
	return a.whole(ctx, q, plan)
}

// whole completes an answer of which all plans are simulated: by when jobs must start is found of the plan that is shown.
func (a *PlansAnswer) whole(ctx context.Context, q *Plans, plan sim.Plan) (*PlansAnswer, error) {
	own := a.sofar(q, sim.AtMost)
	switch err := own.Plans[own.Shown()].startBys(ctx, plan); {
	case err != nil && ctx.Err() != nil:
		return a.sofar(q, sim.Cancelled), nil // with those that were found
	case err != nil:
		return nil, err
	}
	return own, nil
}

// ended returns the answer as far as it came if an error is that of ctx; else the error.
func (a *PlansAnswer) ended(ctx context.Context, q *Plans, err error) (*PlansAnswer, error) {
	if ctx.Err() == nil {
		return nil, err
	}
	return a.sofar(q, sim.Cancelled), nil
}

// watch returns what tells of a plan, by its number, after each replication.
func (a *PlansAnswer) watch(q *Plans, x *PlansPlan, i int, told func(Sofar[PlansAnswer])) func(*seasons.TogetherStudy) {
	return func(study *seasons.TogetherStudy) {
		if told != nil {
			told(Sofar[PlansAnswer]{Done: i*q.Plan.Max + study.Done, Most: q.Plan.Max * a.Asked, Answer: func() *PlansAnswer { return a.with(q, x, study) }})
		}
	}
}

// unanswered returns the answer before any plan is made.
func (q *Plans) unanswered(all []planned) *PlansAnswer {
	a := &PlansAnswer{Asked: len(all), Service: Number(q.Service), Basis: q.basis(all[0].Plan.Lines), Revision: q.Promised.revision()}
	if q.Service > 0 {
		a.Over, a.Idle = all[0].Plan.Over(), all[0].Plan.IdleStaff()
	}
	if q.Promised != nil {
		a.Bought, a.Open = q.Promised.Bought, q.Promised.open(q.Configurations[0].Plan)
	}
	return a
}

// misplaced returns why an order cannot hold; "" for another error, or none.
func misplaced(err error) string {
	if e, is := errors.AsType[*seasons.Misplaced](err); is {
		return e.Why
	}
	return ""
}

// isKnown reports whether a plan is known from an earlier answer.
func (q *Plans) isKnown(c *planned) bool {
	return c.anew && q.Anew != nil && c.twin == q.Configurations[0].Name
}

// known returns the plan made anew that an earlier answer had.
func (q *Plans) known() PlansPlan {
	own := *q.Anew
	own.anew, own.choice, own.twin = true, false, q.Configurations[0].Name
	if own.Name = plannedAnew; len(own.Prices) > 0 {
		own.Name += " " + own.twin // with what is chosen
	}
	own.Lines = slices.Clone(own.Lines) // when jobs must start is found of the plan that is shown, which this is not now
	for i := range own.Lines {
		own.Lines[i].Jobs = slices.Clone(own.Lines[i].Jobs)
	}
	for _, j := range own.Jobs() {
		j.StartBy, j.StartKept, j.TooLate = nil, nil, false
	}
	return own
}

// canBeKept returns why so many replications cannot be kept, or means not found; nil if they can.
func (q *Plans) canBeKept(all []planned) error {
	jobs := 0
	for i := range all {
		jobs += len(all[i].Plan.Jobs)
		if err := meansFit(all[i].Plan.Lines...); err != nil {
			return err
		}
	}
	return sim.AtMostKept(mostJobs/3, jobs, "job", q.Plan.Max, "replication")
}

// basis returns what the answer rests on: each replication is a draw of what is uncertain.
func (q *Plans) basis(lines []*model.Line) Basis {
	b := basisOf(OnDraws, lines...)
	if b.Inputs > 0 {
		b.Draws, b.Each = q.Plan.Max, 1
	}
	return b
}
