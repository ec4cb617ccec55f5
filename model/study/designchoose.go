package study

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"

	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
	"netrate/sim/tape"
)

// designChosen is the design that was chosen among some.
type designChosen struct {
	*candidate
	promised bool         // it is the best of them with the confidence asked for, or within the difference that matters
	left     []*candidate // others that were not dropped
}

// usualWorth returns the usual difference that matters, a part of the figure of the line as it is.
func (s *designSearch) usualWorth() (float64, error) {
	figure, err := s.onRate(s.base.Alternative, s.base.work().Paper())
	if err != nil {
		return 0, err
	}
	x := usualIndifferenceOf(math.Abs(figure))
	if !(x > 0) || math.IsInf(x, 0) {
		return 0, errors.New("the line as it is delivers nothing on paper, and the usual difference that matters is a part of that: say which one does")
	}
	return x, nil
}

// leaveOut leaves out the lines whose ceiling is below what one of those is seen to deliver that
// look best on paper. Of the risk of a wrong choice a tenth is that these deliver less than is seen.
func (s *designSearch) leaveOut(ctx context.Context) error {
	s.lean = bestForMoney(s.all, func(c *candidate) float64 { return c.paper })
	if s.Goal == DesignOperators || len(s.all) < 2 {
		return nil
	}
	best := slices.Clone(s.all)
	slices.SortStableFunc(best, func(a, b candidate) int { return cmp.Compare(b.paper, a.paper) })
	if i := slices.IndexFunc(best, func(c candidate) bool { return !slices.Equal(c.choices, s.asItIs.choices) }); i >= 0 {
		s.onPaperNext = new(best[i])
	}
	best = best[:min(len(best), designIncumbent)]
	level := 1 - 2*designOfRisk*(1-s.Confidence)/float64(len(best))
	reached := math.Inf(-1)
	err := s.search(tape.Here(ctx), pointers(best), 0, designFirst, func(_ int, scores sim.Sample) {
		reached = max(reached, scores.Interval(level).Low())
	})
	if err != nil {
		return err
	}
	highest := slices.MaxFunc(s.all, func(a, b candidate) int { return cmp.Compare(a.ceiling, b.ceiling) }).ceiling
	reached = min(reached, highest) // it is more than that by chance alone
	before := len(s.all)
	s.all = slices.DeleteFunc(s.all, func(c candidate) bool { return c.ceiling < reached })
	s.counts.Ceiling = before - len(s.all)
	return nil
}

func pointers(all []candidate) []*candidate {
	some := make([]*candidate, len(all))
	for i := range all {
		some[i] = &all[i]
	}
	return some
}

// elsewhere returns the plan of other shifts than those of the comparison at the end.
func (s *designSearch) elsewhere() sim.Plan {
	plan := s.Plan
	plan.Seed++
	return plan
}

// search simulates designs in the shifts of the search, and keeps their sums.
func (s *designSearch) search(ctx context.Context, some []*candidate, first, last int, take func(i int, scores sim.Sample)) error {
	return s.simulate(ctx, s.elsewhere(), some, first, last, func(i int, study *runs.Study, scores sim.Sample) {
		some[i].figures.add(scores, study, s.Target)
		take(i, scores)
	})
}

// add adds the figures of more shifts.
func (c *designSums) add(scores sim.Sample, study *runs.Study, target float64) {
	for k, x := range scores {
		c.shifts, c.score = c.shifts+1, c.score+x
		if study.Shifts[k].NetRate >= target {
			c.hits++
		}
	}
}

// choose chooses the best of what is left or, where the fewest operators are looked for, what
// delivers most with each number of them.
func (s *designSearch) choose(ctx context.Context) error {
	s.counts.Simulated = len(s.all)
	crews := map[int][]*candidate{}
	for _, c := range pointers(s.all) {
		c.figures = designSums{}
		crew := 0
		if s.Goal == DesignOperators {
			crew = c.operators
		}
		crews[crew] = append(crews[crew], c)
	}
	for crew := range crews {
		s.crews = append(s.crews, crew)
	}
	slices.Sort(s.crews)
	for _, crew := range s.crews {
		one, err := s.best(ctx, crews[crew], len(crews))
		if err != nil || ctx.Err() != nil {
			return err
		}
		s.chosen = append(s.chosen, one)
	}
	return nil
}

// best chooses among some designs. The risk of a wrong choice is divided by the number of times
// that it is chosen.
func (s *designSearch) best(ctx context.Context, some []*candidate, times int) (designChosen, error) {
	if len(some) == 1 {
		err := s.search(ctx, some, 0, designFirst, func(int, sim.Sample) {})
		return designChosen{candidate: some[0], promised: true}, err
	}
	confidence := 1 - (1-s.Confidence)*(1-designOfRisk-designOfAdvice-designOfBetter)/float64(times)
	selection, err := output.NewSelection(len(some), designFirst, s.worth, confidence)
	if err != nil {
		return designChosen{}, err
	}
	most := max(designFirst, s.Plan.Max)
	selection.Cap(most)
	for done, next := 0, designFirst; !selection.Over() && ctx.Err() == nil; done, next = next, min(most, 2*next) {
		if err := s.round(ctx, some, selection, done, next); err != nil {
			return designChosen{}, err
		}
		s.tell(next, most)
	}
	number, promised := selection.Best()
	one := designChosen{candidate: some[number], promised: promised}
	for i, c := range some {
		if i != number && selection.Remains(i) {
			one.left = append(one.left, c)
		}
	}
	return one, nil
}

// round runs more shifts of the designs that are still in a selection, and feeds it.
func (s *designSearch) round(ctx context.Context, some []*candidate, selection *output.Selection, first, last int) error {
	var in []*candidate
	var numbers []int
	for i, c := range some {
		if selection.Remains(i) {
			in, numbers = append(in, c), append(numbers, i)
		}
	}
	figures := make([]sim.Sample, len(in))
	err := s.search(ctx, in, first, last, func(i int, scores sim.Sample) {
		figures[i] = slices.Clone(scores)
		if first == 0 {
			s.tell(i+1, len(in))
		}
	})
	if err != nil || ctx.Err() != nil {
		return err
	}
	row := make([]float64, len(some))
	for k := range last - first {
		for i, n := range numbers {
			row[n] = figures[i][k]
		}
		if !selection.Add(row) {
			break
		}
	}
	return nil
}
