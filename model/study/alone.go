package study

import (
	"context"

	"netrate/sim"
	"netrate/sim/tape"
)

// askAlone runs the one alternative of a question, draws what of it is uncertain, and answers with
// what it came to; nil if no replication was done. After each replication and each draw it calls
// told, if there is one.
func askAlone[A any](ctx context.Context, all []*tried, plan sim.Plan, draws int, told func(Sofar[A]), answer func(*tried) *A) (*A, error) {
	if err := drawsFit(all, draws); err != nil {
		return nil, err
	}
	var watch func(int, standing)
	var drawn func(int)
	if told != nil {
		var p pace
		watch = func(replication int, so standing) {
			p.follow(so)
			told(Sofar[A]{
				Done: replication + 1, Most: plan.Max, Expected: p.expected(plan), Lines: linesRun(all, nil), Replication: so.last,
				Answer: func() *A { return answer(so.kept()[0]) },
			})
		}
		drawn = func(draw int) {
			told(Sofar[A]{Done: draw + 1, Most: draws, Draws: true, Answer: func() *A { return answer(kept(all)[0]) }})
		}
	}
	var elsewhere tape.Elsewhere // draws do not depend on what is at nominal values
	if err := elsewhere.Keep(runTogether(elsewhere.Next(ctx), all, plan, nil, watch)); err != nil {
		return nil, err
	}
	if elsewhere.Err() == nil && len(all[0].study.Shifts) == 0 {
		return nil, nil
	}
	if elsewhere.Err() != nil || all[0].study.Ending != sim.Cancelled {
		if err := drawAll(elsewhere.Next(ctx), all, plan, draws, drawn); err != nil {
			return nil, err
		}
	}
	if err := elsewhere.Err(); err != nil {
		return nil, err
	}
	return answer(all[0]), nil
}
