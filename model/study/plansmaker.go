package study

import (
	"context"

	"netrate/model/seasons"
)

// plansMaker makes the plans of a question.
type plansMaker struct {
	*Plans
	times  *seasons.Paper // of the base, with whatever is chosen for it; nil if they are not known yet
	before *seasons.Made  // the base before anything of it was done; nil if it is not made yet
}

func newPlansMaker(q *Plans) *plansMaker {
	m := &plansMaker{Plans: q}
	if q.Anew != nil {
		m.times = q.Anew.Made.Times
	}
	return m
}

// together makes all plans before any is simulated for the answer, each in the best of the orders that were found
// for any of them: one that is found with a shift more may be better without it too than what is found without.
// So no plan looks better than another by its search alone.
func (m *plansMaker) together(ctx context.Context, all []planned) error {
	var found []*seasons.Made
	for i := range all {
		c := &all[i]
		if c.kept || c.Plan.Order != nil || m.isKnown(c) {
			continue
		}
		made, err := m.make(ctx, c)
		if err != nil {
			return c.failed(err)
		}
		c.made, found = made, append(found, made)
	}
	for _, made := range found {
		if err := made.Among(ctx, m.Plan, found); err != nil {
			return err
		}
	}
	return nil
}

// make makes a plan. Those of the base differ in who is there alone, and have their times on paper in common.
func (m *plansMaker) make(ctx context.Context, c *planned) (made *seasons.Made, err error) {
	if c.made != nil {
		return c.made, nil
	}
	if !c.choice && !c.kept && !c.anew {
		return c.Plan.Make(ctx, m.Plan, nil)
	}
	if m.times == nil {
		if m.times, err = c.Plan.Paper(ctx, m.Plan.Seed); err != nil {
			return nil, err
		}
	}
	was, err := m.asItWas(ctx, c)
	switch {
	case err != nil:
		return nil, err
	case c.kept:
		return c.Plan.Keep(ctx, m.Plan, m.times, was)
	case was != nil && c.Plan.Order == nil:
		own := *c.Plan
		own.Order = was
		if own.Check() == nil { // the new plan shall not be worse than going on as it was
			own.Known = append(own.Known, was)
		}
		own.Order = nil
		return own.Make(ctx, m.Plan, m.times)
	}
	return c.Plan.Make(ctx, m.Plan, m.times)
}

// asItWas returns the order of the plan made before for what is left of a plan; nil if there is none.
func (m *plansMaker) asItWas(ctx context.Context, c *planned) (orders [][]int, err error) {
	switch {
	case !m.Plans.before(c.Plan):
		return nil, nil
	case m.Promised != nil:
		return m.Promised.order(c.Plan), nil
	case m.before == nil:
		if m.before, err = m.Configurations[0].Plan.Make(ctx, m.Plan, nil); err != nil {
			return nil, err
		}
	}
	return c.Plan.Kept(m.before), nil
}
