package seasons

import (
	"cmp"
	"context"
	"encoding/binary"
	"slices"

	"netrate/model/order"
	"netrate/sim"
)

// mostNear is how many orders paper finds at most, by times of one length, that may be simulated.
const mostNear = 12

// An order is simulated unless it is far behind the best on paper: by more lateness than that has, and so many hours,
// times priorities; by more than a twentieth of the time if the soonest is looked for.
const (
	nearTimes, nearHours = 2, 10
	nearSooner           = 1.05
)

// For a choice orders are simulated as often in all as the plan that is found will be, and so often besides, but no
// more than a limit.
const (
	leastSearch = 800
	mostSearch  = 3000
)

// Orders are simulated so often at first, a handful of them at a time, and so often where they are good. Of the best
// some more replications are made in the end.
const (
	firstRuns, lastRuns, finalRuns = 8, 64, 256
	handful                        = 8
	finalists                      = 4
)

// search looks for the order that is best in the simulation.
type search struct {
	*Made
	how   sim.Plan
	paper *order.Shop
	left  int             // replications that may be run still, of all orders together
	tried []*contender    // that were simulated
	next  []*contender    // that may be, the best on paper first
	known map[string]bool // orders that were put to either, by their keys
}

// choose takes the order that is best in the simulation, with random numbers that are the same for all and not those
// of the answer. Paper alone would not do: a job that ends on Friday night may end on Monday if all takes a hundredth
// longer, and then another order looks better by far.
//
// Looked at are the orders that were found on paper, those that are known, and what is next to the best up to then
// (see [order.Shop.Around]): of all of these a handful at a time, the best on paper first. Of those that are as good
// in the simulation the one that was looked at first is taken. What limits the search is a number of replications,
// and no time, so that the plan is the same on any machine.
func (m *Made) choose(ctx context.Context, how sim.Plan, paper *order.Shop, found []order.Assignment) error {
	s := m.search(how, paper)
	own := s.fresh(m.Order)
	if perfect, err := s.perfect(ctx, own); err != nil || perfect {
		return err
	}
	first := []*contender{own}
	for _, orders := range m.Plan.Known {
		if known := s.fresh(orders); known != nil {
			first = append(first, known)
		}
	}
	best, err := s.best(ctx, first, firstRuns, lastRuns)
	if err == nil {
		for _, a := range found {
			s.add(a.Order)
		}
		best, err = s.climb(ctx, best)
	}
	if err == nil {
		best, err = s.final(ctx, best)
	}
	if err == nil {
		s.settle(best)
	}
	return err
}

// search returns the search for an order of a plan.
func (m *Made) search(how sim.Plan, paper *order.Shop) *search {
	s := &search{Made: m, how: how, paper: paper, left: min(leastSearch+how.Max, mostSearch), known: map[string]bool{}}
	s.how.Seed = ^how.Seed
	return s
}

// perfect simulates an order, and reports whether nothing is better, as far as that shows.
func (s *search) perfect(ctx context.Context, own *contender) (bool, error) {
	err := s.run(ctx, own, lastRuns)
	return !s.Plan.Shortest && err == nil && own.comes.Mean() == 0, err
}

// settle gives the plan the order that was found.
func (s *search) settle(best *contender) {
	m := s.Made
	if m.Tried = max(m.Tried, len(s.tried)); !best.Same(m.Assignment) {
		bounds := m.Bounds // of any order
		m.Assignment, m.Other = best.Assignment, true
		m.Bounds = bounds
	}
}

// climb goes on to what is better, as long as there is something to try.
func (s *search) climb(ctx context.Context, best *contender) (*contender, error) {
	s.addAround(best)
	for s.left > finalists*(finalRuns-lastRuns)/2 {
		few := s.take(best)
		if len(few) == 0 {
			break
		}
		won, err := s.best(ctx, append([]*contender{best}, few...), firstRuns, lastRuns)
		if err != nil {
			return nil, err
		}
		if won != best && won.compared(best, lastRuns) < 0 {
			best = won
			s.addAround(best)
		}
	}
	return best, nil
}

// final returns the best of those that were best up to now, simulated more often.
func (s *search) final(ctx context.Context, best *contender) (*contender, error) {
	few := slices.DeleteFunc(slices.Clone(s.tried), func(c *contender) bool { return c == best || len(c.comes) < lastRuns })
	slices.SortStableFunc(few, func(a, b *contender) int { return a.compared(b, lastRuns) })
	few = slices.Insert(few, 0, best)
	return s.best(ctx, few[:min(len(few), finalists)], 2*lastRuns, finalRuns)
}

// best returns the best of some orders. All are simulated from times. Those that are shown to be behind the best of
// them are dropped, and others until half are left; these are simulated twice as often, and so on. The one that is
// returned was simulated to times, unless it is the first of those given and soon the only one.
//
// Source: sequential halving, Karnin, Koren and Somekh, Almost optimal exploration in multi-armed bandits, ICML
// (2013); what is shown to be behind is dropped as in a race, Maron and Moore, Hoeffding races, NIPS (1993); both
// from memory.
func (s *search) best(ctx context.Context, all []*contender, from, to int) (*contender, error) {
	given := all[0]
	for runs := from; ; runs *= 2 {
		for _, c := range all {
			if err := s.run(ctx, c, runs); err != nil {
				return nil, err
			}
		}
		slices.SortStableFunc(all, func(a, b *contender) int { return a.compared(b, runs) })
		first := all[0]
		all = slices.DeleteFunc(all, func(c *contender) bool { return c.behind(first, runs) })
		all = all[:min(len(all), max(1, (len(all)+1)/2))]
		if runs >= to || len(all) == 1 && first == given {
			return first, nil
		}
	}
}

// run simulates an order until there are so many replications.
func (s *search) run(ctx context.Context, c *contender, runs int) error {
	if len(c.comes) == 0 {
		s.tried = append(s.tried, c)
	}
	s.left -= max(0, runs-len(c.comes))
	return c.run(ctx, s.how, runs)
}

// take takes a handful from the list; none if all are far behind on paper.
func (s *search) take(best *contender) []*contender {
	near := func(c *contender) bool { return c.Cost <= float64(nearTimes*best.Cost)+nearHours }
	if s.Plan.Shortest {
		near = func(c *contender) bool { return c.Done <= nearSooner*best.Done }
	}
	n := 0
	for n < min(len(s.next), handful) && near(s.next[n]) {
		n++
	}
	few := s.next[:n]
	s.next = s.next[n:]
	return few
}

// addAround adds what is next to an order, and sorts the list.
func (s *search) addAround(best *contender) {
	for _, orders := range s.paper.Around(best.Order) {
		s.add(orders)
	}
	slices.SortStableFunc(s.next, s.onPaper)
}

// add adds an order to the list, unless it is known.
func (s *search) add(orders [][]int) {
	if c := s.fresh(orders); c != nil {
		s.next = append(s.next, c)
	}
}

// fresh returns an order, nil if it is known or none, and knows it from then on.
func (s *search) fresh(orders [][]int) *contender {
	var key []byte
	for _, jobs := range orders {
		for _, j := range jobs {
			key = binary.AppendUvarint(key, uint64(j)+1)
		}
		key = append(key, 0)
	}
	if orders == nil || s.known[string(key)] {
		return nil
	}
	s.known[string(key)] = true
	return s.contender(s.paper.Value(orders))
}

// onPaper compares two orders on paper.
func (s *search) onPaper(a, b *contender) int {
	if s.Plan.Shortest {
		return cmp.Compare(a.Done, b.Done)
	}
	return cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(a.Tight, b.Tight))
}

// inTheMean returns the shop in which all is longer by the factor, and a job is as late as it is in the mean where all
// is longer by more or less than that.
func (m *Made) inTheMean(shop *order.Shop) *order.Shop {
	own := shop.Lengthened(m.Factor)
	own.Late = func(j int, finished sim.Seconds) (sum float64) {
		for _, part := range m.parts {
			sum += shop.Late(j, sim.Seconds(finished*sim.Seconds(part)))
		}
		return sum / float64(len(m.parts))
	}
	return own
}
