package study

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// check returns what cannot be asked.
func (q *Strategies) check() error {
	if q.MaxDefective != nil && !(*q.MaxDefective >= 0 && *q.MaxDefective < 1) {
		return fmt.Errorf("strategies with %v of the envelopes defective are asked for, want a share of 0 or more, below 1", *q.MaxDefective)
	}
	if q.Line == nil {
		return errNoLine
	}
	among := []*model.Line{q.Line}
	switch {
	case q.Group == nil:
	case q.Mix != nil:
		return errors.New("a strategy is of a line at its jobs, or of one of several with one crew")
	case q.place() < 0:
		return fmt.Errorf("%s is none of the lines that share the crew", q.Line.Name)
	default:
		q.Line, among = q.Line.AttendedBy(q.Group.Crew), q.Group.Lines
	}
	if err := errors.Join(q.Line.CheckAmong(among)...); err != nil {
		return err
	}
	if why := q.Breach(); why != "" {
		return fmt.Errorf("what is forbidden cannot be avoided: %s", why)
	}
	return nil
}

// judge takes the studies of the candidates, the line's own first, and of what is tempting, and
// chooses; tried is what was run of each.
func (q *Strategies) judge(found model.Search, tempting []model.Candidate, studies []*runs.Study, tried works) *StrategiesAnswer {
	own := studies[0]
	a := &StrategiesAnswer{
		Settings:   SettingsOf(own.Plan, len(own.Shifts), own.Ending),
		LimitGiven: q.MaxDefective != nil, AllowUnread: q.AllowUnread, Rivals: []string{}, Method: PairsMethod, Line: q.Line,
		OnPaper: StrategiesSearch{Number(found.Considered), found.Undominated, found.Near, model.Margin, Number(found.Slack)},
	}
	for _, d := range q.decisions() {
		one := StrategiesDecision{Station: q.Line.Stations[d.Station].Where().Name, Fault: d.Fault.String()}
		for _, r := range d.Responses {
			one.Responses = append(one.Responses, r.String())
		}
		a.Decisions = append(a.Decisions, one)
	}
	for i, s := range studies[:len(found.Candidates)] {
		a.Strategies = append(a.Strategies, q.one(found.Candidates[i], s))
		a.Strategies[i].Work = tried[i]
	}
	slices.SortStableFunc(a.Strategies[1:], func(a, b StrategiesOne) int {
		return cmp.Or(cmp.Compare(a.Defective.PerMillion, b.Defective.PerMillion), cmp.Compare(b.NetRate.Mean, a.NetRate.Mean))
	})
	a.Limit = Number(strategiesAlike * float64(a.Strategies[0].Defective.PerMillion))
	if q.MaxDefective != nil {
		a.Limit = Number(1e6 * *q.MaxDefective)
	}
	var rates []sim.Sample
	for _, x := range a.Strategies {
		rates = append(rates, x.Study.NetRates())
	}
	a.Pairs = Pairwise(rates)
	a.choose()
	a.Never = q.prices(tempting, studies[len(found.Candidates):], a.Leading())
	return a
}

// one returns what is known of a strategy by itself.
func (q *Strategies) one(x model.Candidate, s *runs.Study) StrategiesOne {
	l, own := q.work(), q.own(s)
	one := StrategiesOne{
		Otherwise: l.StrategyWords(x.Strategy, l.Strategy()), ShipsUnread: l.ShipsUnread(x.Strategy),
		NetRate: NetRateOf(s), Defective: RiskOf(own), Jobs: lineJobs(s),
		OnPaper:  StrategiesPaper{Number(x.NetRate + q.others()), Number(1e6 * x.Defective), Number(1000 * x.Remakes)},
		Strategy: x.Strategy, Study: s,
	}
	if q.Mix == nil {
		one.Exposure = ExposureOf(own).at(q.Volume)
	} else {
		one.Exposures = exposuresIn(s)
		for j, e := range one.Exposures {
			e.at(q.Volume * q.Mix.Shares[j])
		}
	}
	for _, r := range x.Strategy {
		one.Responses = append(one.Responses, r.String())
	}
	if l.Personalised() {
		one.Remakes = new(MeanOf(RemakesIn(own)))
	}
	return one
}

// others returns what the other lines deliver on paper that share the crew; 0 if there are none.
func (q *Strategies) others() float64 {
	if q.Group == nil {
		return 0
	}
	return runs.Work{Group: q.Group}.Paper() - q.Group.Lines[q.place()].AttendedBy(q.Group.Crew).Analytic().NetRate
}

// choose finds the best, its rivals and the frontiers.
//
// All pairs of all strategies are compared at once, so that what is best among those within
// the limit is not favoured by being chosen for it.
func (a *StrategiesAnswer) choose() {
	for i := range a.Strategies {
		x := &a.Strategies[i]
		x.Name = "own"
		if i > 0 {
			x.Name = string(rune('A' + i - 1))
		}
		x.Within = a.accepted(i)
		x.Frontier = a.leads(i, func(x *StrategiesOne) float64 { return float64(x.Defective.PerMillion) })
		x.Saving = a.leads(i, (*StrategiesOne).Remade)
	}
	a.Leader = a.most(a.candidates())
	best := &a.Strategies[a.Leader]
	a.Best, a.Within = best.Name, best.Within
	for i := range a.Strategies {
		x := &a.Strategies[i]
		if i != 0 {
			x.ToOwn = DifferenceOf(a.Pairs[0][i])
		}
		if i == a.Leader {
			continue
		}
		x.ToBest = DifferenceOf(a.Pairs[a.Leader][i])
		if a.Within && x.Within && !(a.Over(i).Low() > 0) {
			a.Rivals, a.AsGood = append(a.Rivals, x.Name), append(a.AsGood, i)
		}
	}
	a.Shown = a.Within && len(a.AsGood) == 0
}

// accepted reports whether a strategy is within the limit, which the line's own is if it is
// itself the measure.
func (a *StrategiesAnswer) accepted(i int) bool {
	return !a.LimitGiven && i == 0 || a.Strategies[i].Defective.Within(float64(a.Limit))
}

// candidates returns the strategies within the limit; where there are none, those that come
// nearest to it.
func (a *StrategiesAnswer) candidates() (some []int) {
	least := math.Inf(1)
	for i := range a.Strategies {
		least = min(least, float64(a.Strategies[i].Defective.PerMillion))
		if a.Strategies[i].Within {
			some = append(some, i)
		}
	}
	if some != nil {
		return some
	}
	for i := range a.Strategies {
		if float64(a.Strategies[i].Defective.PerMillion) <= strategiesAlike*least {
			some = append(some, i)
		}
	}
	return some
}

// most returns the one of some strategies that delivers most.
func (a *StrategiesAnswer) most(some []int) int {
	return slices.MaxFunc(some, func(i, k int) int { return cmp.Compare(a.Strategies[i].NetRate.Mean, a.Strategies[k].NetRate.Mean) })
}

// leads reports whether no other strategy delivers more at no higher a price.
func (a *StrategiesAnswer) leads(i int, price func(*StrategiesOne) float64) bool {
	x := &a.Strategies[i]
	return !slices.ContainsFunc(a.Strategies, func(y StrategiesOne) bool {
		return y.NetRate.Mean > x.NetRate.Mean && price(&y) <= strategiesAlike*price(x)
	})
}

// Own returns the line's own strategy.
func (a *StrategiesAnswer) Own() *StrategiesOne { return &a.Strategies[0] }

// Leading returns the best strategy.
func (a *StrategiesAnswer) Leading() *StrategiesOne { return &a.Strategies[a.Leader] }

// Over returns by how much the best delivers more than strategy i, good envelopes an hour.
func (a *StrategiesAnswer) Over(i int) sim.Estimate { return a.Pairs[i][a.Leader].Difference }

// MayBeAsGood reports whether strategy i is one of the rivals of the best.
func (a *StrategiesAnswer) MayBeAsGood(i int) bool { return slices.Contains(a.AsGood, i) }

// Personalised reports whether the line has remakes.
func (a *StrategiesAnswer) Personalised() bool { return a.Own().Remakes != nil }

// Thriftiest returns the one that makes least again of the best and its rivals.
func (a *StrategiesAnswer) Thriftiest() int {
	least := a.Leader
	for _, i := range a.AsGood {
		if a.Strategies[i].Remade() < a.Strategies[least].Remade() {
			least = i
		}
	}
	return least
}

// Remade returns the remakes in a thousand sets started; 0 of a line that has none.
func (x *StrategiesOne) Remade() float64 {
	if x.Remakes == nil {
		return 0
	}
	return float64(x.Remakes.Mean)
}

// Compared compares some of the strategies, two at least, by what they delivered in the same
// replications. The line's own, if it is the first of them, is called so in sentences.
func (a *StrategiesAnswer) Compared(own string, some []int) *ComparisonAnswer {
	var all []*tried
	for _, i := range some {
		x := &a.Strategies[i]
		one := &Alternative{Name: x.Name, Line: x.Study.Line, Group: x.Work.Group}
		if one.Group != nil {
			one.Line = nil
		}
		if i == 0 {
			one.Called = own
		}
		all = append(all, &tried{Alternative: one, mix: x.Work.Mix, study: x.Study})
	}
	c := compared(all, nil)
	for k, i := range some {
		if in := a.Strategies[i].Incident; in != nil {
			c.Lines[k].Scenes = []Scenes{{Incident: in}}
		}
	}
	return c
}
