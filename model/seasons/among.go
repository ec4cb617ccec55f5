package seasons

import (
	"context"

	"netrate/sim"
)

// Among takes the order of one of some other plans instead of its own, if it can be and is better in the
// simulation. They may differ in who is there, or in what is down; an order that was given stays.
func (m *Made) Among(ctx context.Context, how sim.Plan, others []*Made) error {
	if m.Plan.Order != nil {
		return nil
	}
	s := m.search(how, m.inTheMean(m.Plan.shop(m.Horizon, m.Times)))
	own := s.fresh(m.Order)
	if perfect, err := s.perfect(ctx, own); err != nil || perfect {
		return err
	}
	all := []*contender{own}
	for _, x := range others {
		if c := s.fresh(m.Plan.orderOf(x)); c != nil {
			all = append(all, c)
		}
	}
	best, err := s.best(ctx, all, firstRuns, finalRuns)
	if err == nil {
		s.settle(best)
	}
	return err
}

// orderOf returns the order of another plan for the jobs of this one; nil if it has others, or cannot be in it.
func (p *Plan) orderOf(other *Made) [][]int {
	if len(other.Plan.Jobs) != len(p.Jobs) || len(other.Plan.Lines) != len(p.Lines) {
		return nil
	}
	own := *p
	own.Order = p.Kept(other)
	n := 0
	for _, jobs := range own.Order {
		n += len(jobs)
	}
	if n != len(p.Jobs) || own.Check() != nil {
		return nil
	}
	return own.Order
}
