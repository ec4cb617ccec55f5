package study

import (
	"cmp"
	"context"
	"slices"

	"netrate/sim"
)

// bestForMoney returns what is best for its money by some figure, the larger the better: the cheapest
// first, and each better than all that are no dearer.
func bestForMoney(all []candidate, figure func(*candidate) float64) (best []candidate) {
	all = slices.Clone(all)
	slices.SortStableFunc(all, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.price, b.price), cmp.Compare(figure(&b), figure(&a)))
	})
	for _, c := range all {
		if len(best) == 0 || figure(&c) > figure(&best[len(best)-1]) {
			best = append(best, c)
		}
	}
	return best
}

// followFrontier finds what is best for less money than the best. What is so on paper is where it
// begins: each design that differs from one of these in one choice is simulated in the same shifts, then
// each that so differs from what is then best for its money, until nothing is new.
func (s *designSearch) followFrontier(ctx context.Context) error {
	if s.Goal == DesignOperators {
		return nil
	}
	best := s.chosen[0].candidate
	seen := map[string]bool{}
	s.found = s.fresh(seen, append([]candidate{s.asItIs, *best}, s.lean...), best.price)
	turned := map[string]bool{}
	for next := s.found; len(next) > 0; {
		if err := s.search(ctx, pointers(next), 0, designNear, func(int, sim.Sample) {}); err != nil || ctx.Err() != nil {
			return err
		}
		if len(turned) > 0 {
			s.found = append(s.found, next...)
		}
		s.besides(pointers(next))
		s.lean = bestForMoney(s.found, (*candidate).mean)
		next = nil
		for i := range s.lean {
			c := &s.lean[i]
			if turned[string(c.choices)] {
				continue
			}
			turned[string(c.choices)] = true
			for _, t := range s.turnedOf(c) {
				if t.turn.Why == "" && s.mayLead(&t.candidate) {
					next = append(next, s.fresh(seen, []candidate{t.candidate}, best.price)...)
				}
			}
		}
	}
	return nil
}

// onFrontier returns what is best for its money in the shifts of the search or, where the fewest operators are
// looked for, on paper, by rising price: as much as there is room for, and all.
func (s *designSearch) onFrontier() (some, all []*candidate) {
	from, figure := pointers(s.found), (*candidate).mean
	if s.Goal == DesignOperators {
		from, figure = pointers(s.lean), func(c *candidate) float64 { return c.paper }
	}
	same := func(c *candidate) func(*candidate) bool {
		return func(x *candidate) bool { return x != nil && slices.Equal(x.choices, c.choices) }
	}
	if s.advice != nil && !slices.ContainsFunc(from, same(s.advice)) {
		from = append(from, s.advice)
	}
	points := make([]moneyPoint, len(from))
	for i, c := range from {
		points[i] = moneyPoint{price: c.price, figure: figure(c), asItIs: c.changes() == 0, advised: same(c)(s.advice)}
	}
	on := frontierOf(points, s.worth, func(int, int) bool { return true })
	room := designShown
	if len(on) > 0 && !points[on[0]].asItIs { // it is in the comparison besides
		room--
	}
	picked := func(numbers []int) (picked []*candidate) {
		for _, i := range numbers {
			picked = append(picked, from[i])
		}
		return picked
	}
	return picked(thinned(points, on, room)), picked(on)
}

// DesignForMoney is a design of the frontier of a search.
type DesignForMoney struct {
	Choices   []string `json:"choices"` // other than the first ones
	Price     Number   `json:"price"`
	Operators int      `json:"operators"`
	Figure    Number   `json:"figure"`             // good envelopes an hour or, with a goal in money, the cost of a thousand: in the shifts of the search or, with DesignOperators, on paper
	Finalist  *int     `json:"finalist,omitempty"` // its number in the comparison; nil if there was no room for it
}

// forMoney returns the frontier of the search.
func (s *designSearch) forMoney(finalists []finalist) []DesignForMoney {
	_, on := s.onFrontier()
	all := make([]DesignForMoney, len(on))
	for i, c := range on {
		x := &all[i]
		*x = DesignForMoney{Choices: s.chosenNames(c), Price: Number(c.price), Operators: c.operators, Figure: Number(c.mean())}
		switch {
		case s.Goal == DesignOperators:
			x.Figure = Number(c.paper)
		case s.Goal.InMoney():
			x.Figure = -x.Figure
		}
		if k := slices.IndexFunc(finalists, func(f finalist) bool { return slices.Equal(f.choices, c.choices) }); k >= 0 {
			x.Finalist = &k
		}
	}
	return all
}

// besides counts those of some designs that were left out on paper: the rest were simulated for the choice,
// but for the line as it is where that is outside the limits. None is counted twice.
func (s *designSearch) besides(some []*candidate) {
	if s.counted == nil {
		s.counted = map[string]bool{string(s.asItIs.choices): s.broken != nil}
		for i := range s.all {
			s.counted[string(s.all[i].choices)] = true
		}
	}
	for _, c := range some {
		if key := string(c.choices); !s.counted[key] {
			s.counted[key] = true
			s.counts.Near++
		}
	}
}

// fresh returns those of some designs that are not dearer than a price and were not seen, with no shift
// counted as yet.
func (s *designSearch) fresh(seen map[string]bool, some []candidate, price float64) (unseen []candidate) {
	for _, c := range some {
		if key := string(c.choices); !seen[key] && c.price <= price {
			seen[key] = true
			c.figures = designSums{}
			unseen = append(unseen, c)
		}
	}
	return unseen
}

// mayLead reports whether the ceiling of a design is above what a cheaper one is seen to come to.
func (s *designSearch) mayLead(c *candidate) bool {
	return !slices.ContainsFunc(s.lean, func(x candidate) bool { return x.price <= c.price && x.mean() >= c.ceiling })
}

// DesignAhead is by how much one design is ahead of another, and between what that lies. All that are
// given of net rates are right at once.
type DesignAhead struct {
	Mean Number `json:"mean"`
	Interval
}

// DesignStep is what the last of the money buys: from one design of the frontier to the next dearer one.
type DesignStep struct {
	From     int              `json:"from"` // numbers of finalists
	To       int              `json:"to"`
	Added    []string         `json:"added,omitempty"`    // choices of options that are taken or not
	Away     []string         `json:"left_out,omitempty"` // likewise
	Replaced []DesignReplaced `json:"replaced,omitempty"`
	Price    Number           `json:"price"` // more, of all these together: the difference of the two prices
	Gain     Number           `json:"gain"`  // of the net rate; with a goal in money what is saved a thousand, or of the net present value
	Between  Interval         `json:"gain_between"`
	PerGrand Number           `json:"per_1000"` // for each thousand of the price
	Verdict  DesignVerdict    `json:"verdict"`  // on the dearer one; of a net present value by the cost of a thousand
}

// DesignReplaced is a choice that takes the place of another.
type DesignReplaced struct {
	By  string `json:"by"`
	Was string `json:"was"`
}

// differ says in which choices a step leads from one design to another.
func (a *DesignAnswer) differ(s *DesignStep) {
	for i := range a.Options {
		o := &a.Options[i]
		was, is := o.in(&a.Finalists[s.From]), o.in(&a.Finalists[s.To])
		switch {
		case was == is:
		case !o.Optional:
			s.Replaced = append(s.Replaced, DesignReplaced{o.Choices[is].Name, o.Choices[was].Name})
		case is > 0:
			s.Added = append(s.Added, o.Choices[is].Name)
		default:
			s.Away = append(s.Away, o.Choices[was].Name)
		}
	}
}

// in returns the number of the choice that a design has of an option.
func (o *DesignOption) in(x *DesignOne) int {
	return max(0, slices.IndexFunc(o.Choices, func(c DesignChoice) bool { return slices.Contains(x.Choices, c.Name) }))
}

// steps returns what the last of the money buys, the dearest first.
func (a *DesignAnswer) steps() (all []DesignStep) {
	last := -1
	for i := range a.Finalists {
		x := &a.Finalists[i]
		if !x.Frontier {
			continue
		}
		if last >= 0 {
			gain := a.gained(i, last)
			step := DesignStep{From: last, To: i, Price: x.Price - a.Finalists[last].Price, Gain: gain.Mean, Between: gain.Interval}
			a.differ(&step)
			ahead := a.ahead(i, last)
			step.Verdict = designVerdict(float64(ahead.Low), float64(ahead.High), float64(a.Indifference))
			step.PerGrand = 1000 * step.Gain / step.Price
			all = append(all, step)
		}
		last = i
	}
	slices.Reverse(all)
	return all
}

// markFrontier marks the designs that are best for their money in the shifts of the comparison.
func (a *DesignAnswer) markFrontier() {
	advice := &a.Finalists[a.Advice]
	var points []moneyPoint
	var numbers []int
	for i := range a.Finalists {
		x := &a.Finalists[i]
		if a.Goal == DesignOperators && x.Operators > advice.Operators || a.turnBeats(i) {
			continue
		}
		numbers = append(numbers, i)
		points = append(points, moneyPoint{price: float64(x.Price), figure: a.score(i), asItIs: i == 0, advised: i == a.Advice})
	}
	shown := func(of, from int) bool { return a.inMoney() || a.ahead(numbers[of], numbers[from]).Low > 0 }
	for _, p := range frontierOf(points, float64(a.Indifference), shown) {
		a.Finalists[numbers[p]].Frontier = true
	}
}

// turnBeats reports whether the advice with one choice taken otherwise is shown to beat a finalist for no more
// money: where inputs are drawn these are not, and no figure to set against the others.
func (a *DesignAnswer) turnBeats(i int) bool {
	price := a.Finalists[a.Advice].Price
	return a.Comparison.Uncertainty == nil && slices.ContainsFunc(a.Turns, func(t DesignTurn) bool {
		return t.Change != nil && price+t.Price <= a.Finalists[i].Price && a.turnScore(&t)-float64(t.Change.Half) > a.score(i)
	})
}

// turnScore returns the goal's figure of the advice with one choice taken otherwise, the larger the better.
func (a *DesignAnswer) turnScore(t *DesignTurn) float64 {
	if a.Goal.InMoney() {
		return a.score(a.Advice) - float64(t.Change.Mean)
	}
	return a.score(a.Advice) + float64(t.Change.Mean)
}

// score returns the goal's figure of a finalist in the comparison, the larger the better.
func (a *DesignAnswer) score(i int) float64 {
	if a.inMoney() {
		return -float64(a.Comparison.Money.Lines[i].AllIn.Mean)
	}
	return float64(a.Comparison.Lines[i].NetRate.Mean)
}

// inMoney reports whether designs are weighed in money: one that delivers nothing cannot be.
func (a *DesignAnswer) inMoney() bool { return a.Goal.InMoney() && a.Comparison.Money != nil }

// ahead returns by how much a finalist is ahead of another: good envelopes an hour or, with a goal in
// money, what is saved a thousand.
func (a *DesignAnswer) ahead(of, other int) DesignAhead {
	if !a.inMoney() {
		e := a.Comparison.Compared[other][of].Difference
		return DesignAhead{Number(e.Mean), intervalOf(e.Low(), e.High())}
	}
	w := a.Comparison.Money.Worth
	return aheadOf(w.AllInPerThousand(other), w.AllInPerThousand(of))
}

// gained returns what a step of the price buys: of the goal net present value that itself.
func (a *DesignAnswer) gained(of, from int) DesignAhead {
	if a.Goal != DesignValue || !a.inMoney() {
		return a.ahead(of, from)
	}
	w := a.Comparison.Money.Worth
	value := func(i int) sim.Sample {
		if i == 0 { // the line as it is, against which the others are
			return make(sim.Sample, w.Draws)
		}
		return w.Gains[i].NPV
	}
	return aheadOf(value(of), value(from))
}

// aheadOf returns by how much one figure is above another, draw by draw.
func aheadOf(of, other sim.Sample) DesignAhead {
	more := scoresAbove(of, other)
	x := more.Sorted()
	return DesignAhead{Number(more.Mean()), intervalOf(x.Quantile((1-Level)/2), x.Quantile((1+Level)/2))}
}
