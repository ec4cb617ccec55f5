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

// make makes a plan. Those of the base differ in who is there alone, and have their times on paper in common.
func (m *plansMaker) make(ctx context.Context, c *planned) (made *seasons.Made, err error) {
	if !c.choice && !c.kept && !c.anew {
		return c.Plan.Make(ctx, m.Plan, nil)
	}
	if m.times == nil {
		if m.times, err = c.Plan.Paper(ctx, m.Plan.Seed); err != nil {
			return nil, err
		}
	}
	switch {
	case !c.kept:
		return c.Plan.Make(ctx, m.Plan, m.times)
	case m.Promised != nil:
		return c.Plan.Keep(ctx, m.Plan, m.times, m.Promised.order(c.Plan))
	}
	if m.before == nil {
		if m.before, err = m.Configurations[0].Plan.Make(ctx, m.Plan, nil); err != nil {
			return nil, err
		}
	}
	return c.Plan.Keep(ctx, m.Plan, m.times, c.Plan.Kept(m.before))
}
