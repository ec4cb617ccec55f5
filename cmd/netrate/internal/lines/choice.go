package lines

import (
	"context"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/page"
	"netrate/model/study"
	"netrate/sim"
)

// choice is which strategy a line is to have, as it is told.
type choice struct {
	desk.Subject
	*study.StrategiesAnswer
	asked *desk.Part // the risk that is accepted; nil for that of the line's own strategy
	among *contest   // all strategies against each other; it knows of no limit
}

// ask finds the best strategy, unless no shift was done; watch may be nil.
func (c *choice) ask(ctx context.Context, plan sim.Plan, watch func(int)) (done int, ending sim.Ending, err error) {
	q := study.Strategies{Line: c.Scenario.Line, Plan: plan}
	if c.asked != nil {
		q.MaxDefective = &c.asked.Value
	}
	a, err := q.Ask(ctx, func(so study.Sofar[study.StrategiesAnswer]) {
		if watch != nil {
			watch(so.Done - 1)
		}
	})
	if err != nil {
		return 0, 0, err
	}
	if a == nil {
		return 0, sim.Cancelled, nil
	}
	c.take(a)
	own := a.Strategies[0].Study
	return len(own.Shifts), own.Ending, nil
}

// take takes an answer, to tell of it.
func (c *choice) take(a *study.StrategiesAnswer) {
	f := &field{origins: []page.Origin{{Scenario: c.Scenario, Text: c.Source}}, again: c.Again}
	for i, x := range a.Strategies {
		e := entrant{name: x.Name, scenario: c.Scenario, line: x.Study.Line, study: x.Study}
		if i == 0 {
			e.called = "the file’s own strategy"
		}
		f.entrants = append(f.entrants, e)
	}
	c.StrategiesAnswer, c.among = a, &contest{field: f}
	if len(a.Strategies) > 1 {
		c.among = decide(f)
	}
}

// own returns the line's own strategy, and best the best one.
func (c *choice) own() *study.StrategiesOne  { return &c.Strategies[0] }
func (c *choice) best() *study.StrategiesOne { return &c.Strategies[c.Leader] }

// none reports whether no strategy is within the limit.
func (c *choice) none() bool { return !c.Within }
