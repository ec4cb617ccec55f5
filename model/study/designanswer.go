package study

import (
	"cmp"
	"context"
	"slices"

	"netrate/model/money"
	"netrate/sim"
)

// DesignAnswer is which design is best, what was left out on the way and why, and how those at the
// end compare with the line as it is.
type DesignAnswer struct {
	Settings Settings       `json:"settings"` // of the comparison
	Basis    Basis          `json:"rests_on"`
	Goal     DesignGoal     `json:"goal"`
	Target   Number         `json:"target_per_h,omitempty"`
	Share    Number         `json:"share_of_shifts,omitempty"`
	Limits   DesignLimits   `json:"limits"`
	Options  []DesignOption `json:"options"`

	Counts  DesignCounts   `json:"left_out"`
	Reasons []DesignReason `json:"cannot_be"` // first choices that can never stand together; of both most combinations first

	Method       string       `json:"method"`
	Indifference Number       `json:"indifference"` // good envelopes an hour, or money a thousand
	Usual        bool         `json:"usual_indifference"`
	Equal        *DesignEqual `json:"indifference_in_money,omitempty"` // with a goal in money
	Confidence   Number       `json:"confidence"`
	Promised     bool         `json:"promised"`       // the choice is the best, or within the indifference of it, with that confidence
	Left         int          `json:"not_told_apart"` // designs that were not told from the best: some of them are finalists
	Reached      bool         `json:"reached"`        // with DesignOperators: so many shifts of the best reach the target; else true

	Best      int         `json:"best"`                          // number of a finalist
	Advice    int         `json:"advice"`                        // likewise, of what is to be had: the best or, of those that count as equal to it, the cheapest; with a goal in money that with the fewest changes
	Behind    *Mean       `json:"best_against_advice,omitempty"` // of the goal's figure, with what is uncertain at its mean; nil if the advice is the best
	Tolerance Number      `json:"within"`                        // if promised: no design is ahead of the advice by more than that, with the confidence
	Finalists []DesignOne `json:"finalists"`

	Frontier []DesignForMoney `json:"frontier"` // of the search: what is best for its money, the cheapest first, with what there was no room for in the comparison

	ForPrices []DesignForPrice `json:"best_for_money_by"` // of the designs that were compared

	Turns   []DesignTurn   `json:"choice_by_choice"`           // the advice with one choice taken otherwise; nil if nothing reaches a target, and if the search was cancelled
	Steps   []DesignStep   `json:"what_the_last_money_buys"`   // the dearest first
	Volumes []DesignVolume `json:"at_other_volumes,omitempty"` // with a goal in money, of the designs that were compared

	Holds *Proportion `json:"advice_holds,omitempty"` // share of the draws in which the advice is the best of the finalists, or counts as equal; nil if nothing is drawn

	Comparison *ComparisonAnswer `json:"comparison"` // of the finalists, in their order
}

// DesignEqual is what a difference of the cost of a thousand that counts as equal comes to, at the yearly volume.
type DesignEqual struct {
	Year  Number `json:"a_year"`
	Value Number `json:"net_present_value"`
}

// DesignReason is why lines cannot be.
type DesignReason struct {
	Why          string   `json:"why"`
	Combinations int      `json:"combinations"`
	Choices      []string `json:"never_together,omitempty"` // one that can never be had, or two that can never stand together; nil where other combinations with them can be
}

// DesignOne is a design of the comparison.
type DesignOne struct {
	Name      string        `json:"name"`    // base, A, B, …
	Choices   []string      `json:"choices"` // other than the first ones
	Price     Number        `json:"price"`
	Operators int           `json:"operators"`
	Within    bool          `json:"within_the_limits"` // only the line as it is may be outside
	Outside   []DesignLimit `json:"outside,omitempty"` // of which
	Frontier  bool          `json:"on_the_frontier"`   // of the designs that were compared, best for its money: see [frontierOf]
	Rival     bool          `json:"may_be_as_good"`    // the search ended before it was told from the best

	Better *DesignAhead `json:"ahead_of_best,omitempty"` // good envelopes an hour or money a thousand; nil of the best

	Figure DesignFigure `json:"in_the_goal"` // with the goal of operators it is the net rate

	OnPaper DesignFigures `json:"on_paper"`
	Reaches *Proportion   `json:"reaches_target,omitempty"` // with DesignOperators: the share of the shifts
}

// DesignFigure is what a design comes to in what is looked for: good envelopes an hour, money for a thousand good
// ones with the price in it, or the net present value against the line as it is.
type DesignFigure struct {
	Mean Number `json:"mean"`
	Low  Number `json:"low"` // of its interval of [Level]; in money between what so many draws lie
	High Number `json:"high"`
}

// DesignFigures are figures of a design, good envelopes an hour.
type DesignFigures struct {
	NetRate Number `json:"net_rate"`
	Ceiling Number `json:"ceiling"`
}

// finalist is a design on its way into the comparison.
type finalist struct {
	*candidate
	rival bool
}

// compare compares the best with the line as it is, and with what came near it.
func (s *designSearch) compare(ctx context.Context) (*DesignAnswer, error) {
	a := s.answer()
	finalists := s.finalists()
	q := Comparison{Plan: s.Plan, Draws: s.Draws}
	for i, f := range finalists {
		x, err := s.Line(wide(f.choices))
		if err != nil {
			return nil, err
		}
		one := s.one(f, i)
		x.Name, x.Called = one.Name, ""
		q.Alternatives = append(q.Alternatives, *x)
		a.Finalists = append(a.Finalists, one)
	}
	told := func(p Sofar[ComparisonAnswer]) { s.tell(p.Done, p.Most) }
	c, err := q.Ask(ctx, told)
	if err != nil || c == nil {
		return nil, err
	}
	a.Comparison, a.Settings, a.Basis = c, c.Settings, c.Basis
	a.Counts.Shifts = s.counts.Shifts + Number(len(c.Lines)*len(c.Lines[0].Study.Shifts)*s.jobs())
	if err := a.equalInMoney(); err != nil {
		return nil, err
	}
	s.decide(a, finalists)
	a.Frontier = s.forMoney(finalists)
	for i := range a.Finalists {
		if i != a.Best {
			a.Finalists[i].Better = new(a.ahead(i, a.Best))
		}
	}
	if a.Advice != 0 {
		c.Explain(0, a.Advice)
	}
	a.Holds = a.holding()
	if err := a.atVolumes(); err != nil {
		return nil, err
	}
	before := s.counts.Shifts
	if a.Turns, err = s.turns(ctx, a); err != nil {
		return nil, err
	}
	a.Counts.Shifts += s.counts.Shifts - before
	a.markFigures()
	a.markFrontier()
	a.ForPrices = a.forPrices()
	a.Steps = a.steps()
	a.Settings.Partial = ctx.Err() != nil
	return a, nil
}

// equalInMoney works out what counts as equal, of a goal in money.
func (a *DesignAnswer) equalInMoney() error {
	if !a.inMoney() {
		return nil
	}
	w := a.Comparison.Money.Worth
	factors, err := money.NewFactors(w.Rate, w.Life)
	if err != nil {
		return err
	}
	year := float64(a.Indifference) / 1000 * w.Volume.Mean()
	a.Equal = &DesignEqual{Year: Number(year), Value: Number(year / factors.AP)}
	return nil
}

// answer returns what is known before the comparison.
func (s *designSearch) answer() *DesignAnswer {
	return &DesignAnswer{
		Goal: s.Goal, Target: Number(s.Target), Share: Number(s.Share), Limits: s.Limits, Options: s.Options, Counts: s.counts,
		Reasons: s.reasons, Method: selectionMethod, Indifference: Number(s.worth), Usual: s.Worth == 0,
		Confidence: Number(s.Confidence), Reached: true,
	}
}

// own returns the line as it is, as it is in the search or, if it was left out, as it is on paper.
func (s *designSearch) own() *candidate {
	for i := range s.all {
		if slices.Equal(s.all[i].choices, s.asItIs.choices) {
			return &s.all[i]
		}
	}
	return &s.asItIs
}

// finalists returns the line as it is, the best, what is advised, those that may be as good as the best, and
// of what is best for less money as much as there is room for.
func (s *designSearch) finalists() []finalist {
	all := []finalist{{candidate: s.own()}}
	add := func(c *candidate, rival bool) {
		i := slices.IndexFunc(all, func(f finalist) bool { return slices.Equal(f.choices, c.choices) })
		if i < 0 {
			all, i = append(all, finalist{candidate: c}), len(all)
		}
		all[i].rival = all[i].rival || rival
	}
	for _, x := range s.chosen {
		add(x.candidate, false)
	}
	if s.advice != nil {
		add(s.advice, false)
	}
	if s.Goal == DesignOperators {
		for _, c := range s.enough {
			add(c, false)
		}
	} else {
		near := slices.Clone(s.chosen[0].left)
		slices.SortStableFunc(near, func(x, y *candidate) int { return cmp.Compare(y.mean(), x.mean()) })
		for _, c := range near[:min(len(near), designRivals)] {
			add(c, true)
		}
	}
	shown, _ := s.onFrontier()
	for _, c := range shown {
		add(c, false)
	}
	if next := s.next(); len(all) == 1 && next != nil { // nothing is better than the line as it is: what comes next
		all = append(all, finalist{candidate: next})
	}
	slices.SortStableFunc(all[1:], func(x, y finalist) int { return cmp.Compare(x.price, y.price) })
	return all
}

// next returns what comes next to the line as it is: of what was simulated, or else on paper; nil if there is
// nothing else.
func (s *designSearch) next() (next *candidate) {
	for _, c := range pointers(s.all) {
		if !slices.Equal(c.choices, s.asItIs.choices) && (next == nil || c.mean() > next.mean()) {
			next = c
		}
	}
	return cmp.Or(next, s.onPaperNext)
}

// mean returns the mean figure of the shifts in which a design was simulated.
func (c *candidate) mean() float64 { return c.figures.score / c.figures.shifts }

// one returns a finalist by its number.
func (s *designSearch) one(f finalist, number int) DesignOne {
	one := DesignOne{
		Name: "base", Choices: s.chosenNames(f.candidate), Price: Number(f.price), Operators: f.operators, Within: number > 0 || s.broken == nil,
		Rival: f.rival, OnPaper: DesignFigures{Number(f.paper), Number(f.ceiling)},
	}
	if one.Outside = s.broken; number > 0 {
		one.Name, one.Outside = designLetters(number), nil
	}
	return one
}

// designLetters returns what the designs after the line as it is are called, from 1 on: A to Z, then AA and so on.
func designLetters(number int) string {
	name := ""
	for ; number > 0; number = (number - 1) / 26 {
		name = string(rune('A'+(number-1)%26)) + name
	}
	return name
}

// chosenNames returns the names of the choices other than the first ones.
func (s *designSearch) chosenNames(c *candidate) []string {
	names := []string{}
	for i, k := range c.choices {
		if k > 0 {
			names = append(names, s.Options[i].Choices[k].Name)
		}
	}
	return names
}

// decide says which finalist is the best, and which is advised.
func (s *designSearch) decide(a *DesignAnswer, finalists []finalist) {
	number := func(c *candidate) int {
		return slices.IndexFunc(finalists, func(f finalist) bool { return slices.Equal(f.choices, c.choices) })
	}
	if s.Goal != DesignOperators {
		a.Best, a.Promised, a.Left = number(s.chosen[0].candidate), s.chosen[0].promised, len(s.chosen[0].left)
		a.Advice, a.Tolerance = number(s.advice), a.Indifference
		if a.Advice != a.Best {
			a.Tolerance += Number(max(0, s.behind.High()))
			e := s.behind
			if a.Goal.InMoney() { // less is better
				e.Mean = -e.Mean
			}
			a.Behind = new(MeanOf(e))
		}
		return
	}
	for i := range a.Finalists {
		a.Finalists[i].Reaches = new(reachedBy(a.Comparison.Lines[i].Study, s.Target))
	}
	a.fewest(s.Share)
	a.Advice = a.Best
	s.advice = finalists[a.Advice].candidate
}

// fewest chooses the design with the fewest operators that reaches the target in so many shifts, of
// several the cheapest or, if none does, what comes nearest: by its shifts that do or, where as many do, by its net rate.
func (a *DesignAnswer) fewest(share float64) {
	rates := map[*DesignOne]Number{}
	for i := range a.Finalists {
		rates[&a.Finalists[i]] = a.Comparison.Lines[i].NetRate.Mean
	}
	better := func(x, y *DesignOne) bool {
		xReaches, yReaches := float64(x.Reaches.Share) >= share, float64(y.Reaches.Share) >= share
		switch {
		case xReaches != yReaches:
			return xReaches
		case !xReaches && x.Reaches.Share != y.Reaches.Share:
			return x.Reaches.Share > y.Reaches.Share
		case !xReaches: // as where no shift of any does
			return rates[x] > rates[y]
		case x.Operators != y.Operators:
			return x.Operators < y.Operators
		}
		return x.Price < y.Price
	}
	for i := range a.Finalists {
		if x := &a.Finalists[i]; x.Within && (!a.Finalists[a.Best].Within || better(x, &a.Finalists[a.Best])) {
			a.Best = i
		}
	}
	best := a.Finalists[a.Best].Reaches
	a.Reached, a.Promised = float64(best.Share) >= share, float64(best.Low) >= share
}

// markFigures says what each design comes to in what is looked for.
func (a *DesignAnswer) markFigures() {
	for i := range a.Finalists {
		x := &a.Finalists[i]
		switch {
		case !a.inMoney():
			r := a.Comparison.Lines[i].NetRate
			x.Figure = DesignFigure{r.Mean, r.Mean - r.Half, r.Mean + r.Half}
		case a.Goal == DesignCost:
			x.Figure = figureDrawn(a.Comparison.Money.Worth.AllInPerThousand(i))
		case i > 0: // the line as it is gains nothing against itself
			x.Figure = figureDrawn(a.Comparison.Money.Worth.Gains[i].NPV)
		}
	}
}

func figureDrawn(s sim.Sample) DesignFigure {
	x := s.Sorted()
	return DesignFigure{Number(s.Mean()), Number(x.Quantile((1 - Level) / 2)), Number(x.Quantile((1 + Level) / 2))}
}
