package sweeps

import (
	"errors"
	"strings"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/present"
	"netrate/model/study"
	"netrate/model/worth"
	"netrate/scenarios"
)

// What a line costs is no question of its net rate: a sweep of costs answers with money, and the
// line is simulated once.

// ofCosts returns how many of the ranges are of costs.
func ofCosts(ranges []string) (n int) {
	for _, text := range ranges {
		if strings.HasPrefix(strings.TrimSpace(text), "costs.") {
			n++
		}
	}
	return n
}

// runCosts sweeps costs.
func (o *sweepFlags) runCosts(e desk.Env, args []string) error {
	if n := ofCosts(o.vary); n < len(o.vary) {
		return desk.Wrong("--vary takes either costs, which answer with money, or the line, which answers with net rates: found %d of costs among %d", n, len(o.vary))
	}
	about, err := o.Work(e, args)
	if err != nil {
		return err
	}
	if about.Costs == nil && about.Prices != nil {
		return desk.Wrong("the costs of %s have no volume: add good envelopes a year, life and rate, for what a year costs", desk.ShownFile(about.File))
	}
	if about.Costs == nil && len(about.Setups) == 0 {
		return desk.Wrong("%s has no costs to vary: add some under costs, or try netrate sweep --example gate-worth --vary costs.operator_hour=25,35", desk.ShownFile(about.File))
	}
	q, err := newCostSweep(&about, o.vary)
	if err != nil {
		return err
	}
	if q.Plan, err = o.Fixed(e, about.Run, desk.UsualReps); err != nil {
		return err
	}
	if q.Plan.Max < 2 {
		return desk.Wrong("--reps is 1, and one shift alone does not say what a line costs: want 2 or more")
	}
	defer o.Drop()
	if err := o.Begin(e); err != nil {
		return err
	}
	a, early := desk.Asked(e, page.Period(about.Line), q.Ask, func(a *study.CostSweepAnswer) study.Settings { return a.Settings })
	if aside, is := errors.AsType[*worth.Aside](early); is {
		return errors.New("costs are not evaluated: " + present.AsideWords(aside, []string{about.Name}))
	}
	if a == nil {
		return early
	}
	c := present.CostSweep{CostSweepAnswer: a, Origin: page.OriginOf(about), Command: about.Again + asAsked(o.vary)}
	return errors.Join(early, page.Tell(e, o.Outputs, c))
}

// newCostSweep reads the ranges and returns the question, with the costs at each point.
func newCostSweep(about *desk.Subject, ranges []string) (*study.CostSweep, error) {
	vary, err := parameters(ranges)
	if err != nil {
		return nil, err
	}
	q := &study.CostSweep{Alternative: page.AlternativeOf(about.Scenario, about.Name), Vary: vary}
	err = eachPoint(vary, func(settings []scenarios.Setting) error {
		shop, err := about.ShopWith(settings)
		switch {
		case err != nil:
			return err
		case shop.Costs == nil || len(about.Setups) > 0 && len(shop.Costs.Volumes) > 0 && shop.LineGroup == nil:
			return errors.New("the costs are at yearly volumes of jobs, and are not evaluated for one: leave --job out")
		}
		q.Costs = append(q.Costs, shop.Costs)
		return nil
	})
	if err == nil {
		q.Alternative.Costs = q.Costs[0]
	}
	return q, err
}
