package study

import (
	"cmp"
	"context"
	"slices"

	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
)

// How the advice is found.
const (
	designOfAdvice = 0.08 // of the risk of a wrong choice is that what is advised is further behind the best than is seen
	designOfBetter = 0.02 // and that what takes the place of the chosen is worse than that
	designSimpler  = 12   // designs that may be advised in the place of the best
	designClearly  = 0.999
)

// improve takes, in the place of the design that was chosen, the best of those that are no dearer, if that is shown
// to be ahead of it: of designs that are closer than the difference that matters the selection leaves any one.
// The shifts are those of the search, which flatter what was chosen.
func (s *designSearch) improve(ctx context.Context) error {
	if s.Goal == DesignOperators {
		return nil
	}
	chosen, top := &s.chosen[0], &s.lean[len(s.lean)-1]
	same := func(c *candidate) bool { return slices.Equal(c.choices, top.choices) }
	if same(chosen.candidate) || same(&s.asItIs) && s.broken != nil {
		return nil
	}
	scores, err := s.scored(ctx, s.elsewhere(), []*candidate{chosen.candidate, top}, max(2, s.Plan.Max))
	if err != nil || ctx.Err() != nil {
		return err
	}
	if risk := float64(designOfBetter * (1 - s.Confidence)); scoresAbove(scores[1], scores[0]).Interval(1-float64(2*risk)).Low() > 0 {
		chosen.candidate, chosen.left = top, slices.DeleteFunc(chosen.left, same)
	}
	return nil
}

// advise finds what to have: of the best and the designs that count as equal to it, the one that is
// preferred. One counts as equal if, in the shifts of the comparison, which chose neither, it is shown to
// be behind the best by no more than the difference that matters.
func (s *designSearch) advise(ctx context.Context) error {
	if s.Goal == DesignOperators {
		return nil
	}
	best := s.chosen[0].candidate
	s.advice = best
	simpler, err := s.simpler(ctx)
	if err != nil || len(simpler) == 0 || ctx.Err() != nil {
		return err
	}
	scores, err := s.scored(ctx, s.Plan, append([]*candidate{best}, simpler...), max(2, s.Plan.Max))
	if err != nil || ctx.Err() != nil {
		return err
	}
	risk := min(designOfAdvice*(1-s.Confidence)/float64(len(simpler)), (1-Level)/2/float64(s.others())) // the second is that of a turn
	for i, c := range simpler {
		if e := scoresAbove(scores[0], scores[i+1]).Interval(1 - 2*risk); e.High() <= s.worth {
			s.advice, s.behind = c, e
			return nil
		}
	}
	return nil
}

// prefer orders designs that count as equal: the cheapest first, at one price that with the fewest operators
// and, with as many, that with the fewest changes. With a goal in money both are in the figure, and the
// fewest changes come first.
func (s *designSearch) prefer(a, b *candidate) int {
	price, changes := cmp.Compare(a.price, b.price), a.changes()-b.changes()
	if s.Goal.InMoney() {
		return cmp.Or(changes, price)
	}
	return cmp.Or(price, a.operators-b.operators, changes)
}

// changes returns how many choices are other than those of the line as it is.
func (c *candidate) changes() (n int) {
	for _, k := range c.choices {
		if k > 0 {
			n++
		}
	}
	return n
}

// others returns how many choices could be taken otherwise, one at a time.
func (s *designSearch) others() (n int) {
	for _, o := range s.Options {
		n += len(o.Choices) - 1
	}
	return n
}

// simpler returns designs that are preferred to the best if they count as equal, the most preferred first,
// without those that are clearly further behind. They are the line as it is, what is best for less money
// and, of what differs in one choice from the best and is preferred, all; then of what so differs from
// that of these which comes nearest to it, until that is clearly further behind.
func (s *designSearch) simpler(ctx context.Context) ([]*candidate, error) {
	best := s.chosen[0].candidate
	seen := map[string]bool{string(best.choices): true}
	var kept []*candidate
	first := slices.Clone(s.lean)
	if s.broken == nil {
		first = append(first, s.asItIs)
	}
	for next := append(first, s.preferred(best)...); ; {
		near, err := s.near(ctx, s.unseen(seen, next))
		if err != nil || len(near) == 0 || ctx.Err() != nil {
			slices.SortStableFunc(kept, s.prefer)
			return kept[:min(len(kept), designSimpler)], err
		}
		kept = append(kept, near...)
		next = s.preferred(slices.MaxFunc(near, func(a, b *candidate) int { return cmp.Compare(a.mean(), b.mean()) }))
	}
}

// preferred returns the designs that differ from one in one choice, and are preferred to it.
func (s *designSearch) preferred(d *candidate) (all []candidate) {
	for _, t := range s.turnedOf(d) {
		if t.turn.Why == "" && s.prefer(&t.candidate, d) < 0 {
			all = append(all, t.candidate)
		}
	}
	return all
}

// unseen returns those of some designs that are preferred to the best and were not seen.
func (s *designSearch) unseen(seen map[string]bool, some []candidate) (all []*candidate) {
	for i := range some {
		if key := string(some[i].choices); !seen[key] && s.prefer(&some[i], s.chosen[0].candidate) < 0 {
			seen[key] = true
			all = append(all, &some[i])
		}
	}
	return all
}

// near returns those of some designs that, in shifts of the search, are not clearly further behind the best
// than the difference that matters.
func (s *designSearch) near(ctx context.Context, some []*candidate) (near []*candidate, err error) {
	if len(some) == 0 {
		return nil, nil
	}
	scores, err := s.scored(ctx, s.elsewhere(), append([]*candidate{s.chosen[0].candidate}, some...), designNear)
	if err != nil || ctx.Err() != nil {
		return nil, err
	}
	s.besides(some)
	for i, c := range some {
		if scoresAbove(scores[0], scores[i+1]).Interval(designClearly).Low() <= s.worth {
			c.figures = designSums{shifts: designNear, score: scores[i+1].Mean() * designNear}
			near = append(near, c)
		}
	}
	return near, nil
}

// scored returns the figures of the first shifts of a plan, of each of some designs.
func (s *designSearch) scored(ctx context.Context, plan sim.Plan, some []*candidate, shifts int) ([]sim.Sample, error) {
	scores := make([]sim.Sample, len(some))
	err := s.simulate(ctx, plan, some, 0, shifts, func(i int, _ *runs.Study, x sim.Sample) {
		s.tell(i+1, len(some))
		scores[i] = slices.Clone(x)
	})
	return scores, err
}

// scoresAbove returns by how much one figure is above another, one by one.
func scoresAbove(of, other sim.Sample) sim.Sample {
	more := make(sim.Sample, len(of))
	for k := range more {
		more[k] = of[k] - other[k]
	}
	return more
}

// holding returns the share of the draws of what is uncertain in which the advice is the best of the designs
// that were compared, or behind it by no more than the difference that matters; nil if nothing is drawn.
func (a *DesignAnswer) holding() *Proportion {
	if a.Comparison.Uncertainty == nil || a.Goal == DesignOperators {
		return nil
	}
	var worst sim.Sample // by how much the advice is behind the best, in each draw
	for i := range a.Finalists {
		if i == a.Advice {
			continue
		}
		behind := a.behindIn(i)
		if worst == nil {
			worst = make(sim.Sample, len(behind))
		}
		for k, x := range behind {
			worst[k] = max(worst[k], x)
		}
	}
	hits := int64(0)
	for _, x := range worst {
		if x <= float64(a.Indifference) {
			hits++
		}
	}
	if len(worst) == 0 {
		return nil
	}
	low, high := output.ExactInterval(hits, int64(len(worst)), Level)
	return &Proportion{Number(float64(hits) / float64(len(worst))), Number(low), Number(high), Level}
}

// behindIn returns by how much the advice is behind another finalist in each draw, in the long run.
func (a *DesignAnswer) behindIn(i int) sim.Sample {
	if a.inMoney() {
		w := a.Comparison.Money.Worth
		return scoresAbove(w.AllInPerThousand(a.Advice), w.AllInPerThousand(i))
	}
	return a.Comparison.Lines[a.Advice].Draws.Ahead(a.Comparison.Lines[i].Draws, netRate).LongRun
}
