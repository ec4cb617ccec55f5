package study

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"netrate/model/runs"
	"netrate/model/worth"
	"netrate/sim"
)

// designPaper is what a combination comes to on paper.
type designPaper struct {
	why            string // it cannot be; "" if it can
	broken         []DesignLimit
	operators      int
	paper, ceiling float64
}

// onPaper makes every line once: those that cannot be, or are outside the limits, are left out.
func (s *designSearch) onPaper(ctx context.Context) error {
	base, err := s.made(make([]uint8, len(s.Options)))
	if err != nil {
		return err
	}
	if s.Goal.InMoney() && base.Costs == nil {
		return errors.New("the least cost is looked for, and the line has no costs")
	}
	if s.base, s.worth = base, s.Worth; s.worth == 0 {
		if s.worth, err = s.usualWorth(); err != nil {
			return err
		}
	}
	if err := s.lookAtBase(); err != nil {
		return err
	}
	found := make([]designPaper, len(s.all))
	worker := func() (func(int, *designPaper) error, error) {
		return func(i int, p *designPaper) error { return s.look(s.all[i].choices, p) }, nil
	}
	_, _, err = sim.Replicate(ctx, s.lines(len(s.all)), worker, func(i int, p *designPaper) float64 {
		found[i] = *p
		s.tell(i+1, len(found))
		return 0
	})
	if err != nil || ctx.Err() != nil {
		return err
	}
	s.reasons = s.never(found)
	var left []candidate
	for i, p := range found {
		switch {
		case p.why != "":
			s.counts.Impossible++
		case p.broken != nil:
			s.counts.outside(p.broken)
		default:
			left = append(left, s.all[i].on(p))
		}
	}
	slices.SortStableFunc(left, func(a, b candidate) int { return cmp.Compare(a.price, b.price) }) // of equals the first is chosen
	s.all = left
	return nil
}

// on returns a candidate with what it is on paper.
func (c candidate) on(p designPaper) candidate {
	c.operators, c.paper, c.ceiling = p.operators, p.paper, p.ceiling
	return c
}

// lookAtBase says what the line as it is comes to on paper.
func (s *designSearch) lookAtBase() error {
	s.asItIs = candidate{choices: make([]uint8, len(s.Options))}
	var p designPaper
	if err := s.look(s.asItIs.choices, &p); err != nil {
		return err
	}
	s.asItIs, s.broken = s.asItIs.on(p), p.broken
	return nil
}

// lines returns the plan of going through a number of lines.
func (s *designSearch) lines(n int) sim.Plan {
	return sim.Plan{Min: n, Max: n, Workers: s.Plan.Workers}
}

// tell says how far the search has come.
func (s *designSearch) tell(done, most int) {
	if s.told != nil {
		s.told(Sofar[DesignAnswer]{Done: done, Most: most, Answer: func() *DesignAnswer { return nil }})
	}
}

func wide(choices []uint8) []int {
	all := make([]int, len(choices))
	for i, k := range choices {
		all[i] = int(k)
	}
	return all
}

// look says what a combination comes to on paper.
func (s *designSearch) look(choices []uint8, p *designPaper) (err error) {
	*p = designPaper{}
	t, err := s.made(choices)
	if err != nil {
		p.why = err.Error()
		return nil
	}
	l, paper := t.Line, onPaperOf(t.work())
	pitches := l.Stations[len(l.Stations)-1].Where().At - l.Stations[0].Where().At
	p.operators = l.Crew.Operators
	p.broken = s.Limits.broken(pitches, p.operators, paper.defective)
	if p.paper, err = s.onRate(t.Alternative, paper.rate); err == nil {
		p.ceiling, err = s.onRate(t.Alternative, paper.ceiling)
	}
	return err
}

// onRate returns the figure of a line, the larger the better, if it delivers so much and everything
// that does not depend on that is for nothing.
func (s *designSearch) onRate(a *Alternative, rate float64) (float64, error) {
	if !s.Goal.InMoney() {
		return rate, nil
	}
	floor, err := worth.AllInFloor(a.Line, a.Costs, rate)
	return -floor, err
}

// scores returns the figure of each shift, the larger the better.
func (s *designSearch) scores(study *runs.Study, c *worth.Costs) (sim.Sample, error) {
	if !s.Goal.InMoney() {
		return study.NetRates(), nil
	}
	costs, err := worth.AllInByShift(study, c)
	for i, x := range costs {
		costs[i] = -min(x, designCostMost)
	}
	return costs, err
}
