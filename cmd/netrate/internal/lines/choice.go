package lines

import (
	"cmp"
	"context"
	"math"
	"slices"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/model"
	"netrate/sim"
	"netrate/sim/output"
)

// choice is which strategy a line is to have.
type choice struct {
	desk.Subject
	asked *desk.Part // the risk that is accepted; nil for that of the line's own strategy
	limit float64    // that risk, defective in a million; known once the strategies are judged

	found      model.Search
	contenders []contender // in the order of the entrants; nil until they are judged
	among      *contest    // all of them against each other; it knows of no limit
	best       int         // the most within the limit; where nothing is, what comes nearest
	rivals     []int       // others within the limit that are not shown to deliver less
}

// contender is a strategy that is simulated.
type contender struct {
	model.Candidate
	risk
	words  string  // what it answers otherwise than the line's own; "" for that
	remade float64 // in a thousand sets
	study  *model.Study
	// Whether no other delivers more at no more risk, and with no more remakes.
	frontier, saving bool
}

// alike is how far apart two figures may be that count as the same.
const alike = 1.01

// search looks for the strategies that are worth a simulation, the line's own first.
func (c *choice) search() {
	limit := alike * c.Line.Hand().Defective
	if c.asked != nil {
		limit = c.asked.Value
	}
	c.found = c.Line.SearchStrategies(limit, 0)
	own := c.found.Candidates[c.found.Own]
	c.found.Candidates = slices.Insert(slices.Delete(c.found.Candidates, c.found.Own, c.found.Own+1), 0, own)
}

// lines returns the line with each of the strategies.
func (c *choice) lines() []*model.Line {
	var lines []*model.Line
	for _, x := range c.found.Candidates {
		lines = append(lines, c.Line.Answering(x.Strategy))
	}
	return lines
}

// simulate runs the candidates on the same luck and judges them, unless no shift was done.
func (c *choice) simulate(ctx context.Context, plan sim.Plan, watch func(int)) (done int, ending sim.Ending, err error) {
	studies, err := model.Together(ctx, c.lines(), plan, nil, model.Counting(watch))
	if err != nil {
		return 0, 0, err
	}
	if done = len(studies[0].Shifts); done > 0 {
		c.judge(studies)
	}
	return done, studies[0].Ending, nil
}

// judge takes the studies of the candidates and chooses.
func (c *choice) judge(studies []*model.Study) {
	for i, s := range studies {
		x := c.found.Candidates[i]
		c.contenders = append(c.contenders, contender{
			Candidate: x, risk: riskOf(s), words: c.Line.StrategyWords(x.Strategy, c.Line.Strategy()), remade: remade(s).Mean, study: s,
		})
	}
	others := c.contenders[1:]
	slices.SortStableFunc(others, func(a, b contender) int {
		return cmp.Or(cmp.Compare(a.perMillion, b.perMillion), cmp.Compare(b.rate(), a.rate()))
	})
	f := &field{origins: []page.Origin{{Scenario: c.Scenario, Text: c.Source}}, again: c.Again}
	for i, x := range c.contenders {
		e := entrant{name: letters(i), scenario: c.Scenario, line: x.study.Line, study: x.study}
		if i == 0 {
			e.name, e.called = "own", "the file’s own strategy"
		}
		f.entrants = append(f.entrants, e)
	}
	c.among = &contest{field: f}
	if len(c.contenders) > 1 {
		c.among = decide(f, nil)
	}
	c.limit = c.accepts()
	c.choose()
}

// letters returns what a strategy is called: A, B, C …
func letters(i int) string { return string(rune('A' + i - 1)) }

func (x *contender) rate() float64 { return x.study.NetRates().Mean() }

// accepts returns how many defective in a million are accepted.
func (c *choice) accepts() float64 {
	if c.asked == nil {
		return alike * c.contenders[0].perMillion
	}
	return 1e6 * c.asked.Value
}

// accepted reports whether a strategy is within the limit, which the line's own is if it is
// itself the measure.
func (c *choice) accepted(i int) bool {
	return c.asked == nil && i == 0 || c.contenders[i].within(c.limit)
}

// none reports whether no strategy is within the limit.
func (c *choice) none() bool { return !c.accepted(c.best) }

// choose finds the best, its rivals, and the frontiers.
//
// All pairs of all strategies are compared at once, so that what is best among those within
// the limit is not favoured by being chosen for it.
func (c *choice) choose() {
	c.best = c.most(c.candidates())
	for i := range c.contenders {
		c.contenders[i].frontier = c.leads(i, func(x *contender) float64 { return x.perMillion })
		c.contenders[i].saving = c.leads(i, func(x *contender) float64 { return x.remade })
	}
	for i := range c.contenders {
		if i != c.best && c.accepted(i) && !c.none() && !(c.over(i).Difference.Low() > 0) {
			c.rivals = append(c.rivals, i)
		}
	}
}

// candidates returns the strategies within the limit; where there are none, those that come
// nearest to it.
func (c *choice) candidates() (some []int) {
	least := math.Inf(1)
	for i := range c.contenders {
		least = min(least, c.contenders[i].perMillion)
		if c.accepted(i) {
			some = append(some, i)
		}
	}
	if some != nil {
		return some
	}
	for i := range c.contenders {
		if c.contenders[i].perMillion <= alike*least {
			some = append(some, i)
		}
	}
	return some
}

// most returns the one of some strategies that delivers most.
func (c *choice) most(some []int) int {
	return slices.MaxFunc(some, func(a, b int) int { return cmp.Compare(c.contenders[a].rate(), c.contenders[b].rate()) })
}

// leads reports whether no other strategy delivers more at no higher a price.
func (c *choice) leads(i int, price func(*contender) float64) bool {
	x := &c.contenders[i]
	return !slices.ContainsFunc(c.contenders, func(y contender) bool {
		return y.rate() > x.rate() && price(&y) <= alike*price(x)
	})
}

// over returns the best set against strategy i.
func (c *choice) over(i int) output.Comparison { return c.among.pairs[i][c.best] }

// certain reports whether the best is shown to be it.
func (c *choice) certain() bool { return len(c.rivals) == 0 }
