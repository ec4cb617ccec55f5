package study

import (
	"context"

	"netrate/sim/output"
)

// replicate gives each alternative its study.
func (q *Comparison) replicate(ctx context.Context, all []*tried, selected *selection, told func(Sofar[ComparisonAnswer])) error {
	var selection *output.Selection
	plan := q.Plan
	if selected != nil {
		selection = selected.Selection
		plan.Min, plan.Precision = plan.Max, 0
	}
	var watch func(int, standing)
	if told != nil {
		var p pace
		watch = func(replication int, so standing) {
			p.follow(so)
			expected, ahead := p.expected(plan), 0
			if selection != nil {
				expected, ahead = 0, selection.Ahead()
			}
			told(Sofar[ComparisonAnswer]{
				Done: replication + 1, Most: plan.Max, Expected: expected, Lines: linesRun(all, selection), Ahead: ahead, Replication: so.last,
				Answer: func() *ComparisonAnswer { return q.answer(so.kept(), selected) },
			})
		}
	}
	return runTogether(ctx, all, plan, selection, watch)
}

// linesRun returns how many lines are run in each replication: those of all alternatives, or of those
// left in a selection.
func linesRun(all []*tried, selection *output.Selection) (n int) {
	for i, t := range all {
		if selection == nil || selection.Remains(i) {
			n += len(t.lines())
		}
	}
	return n
}

// draw draws what is uncertain, the same for all alternatives.
func (q *Comparison) draw(ctx context.Context, all []*tried, told func(Sofar[ComparisonAnswer])) error {
	var watch func(int)
	if told != nil {
		watch = func(draw int) {
			told(Sofar[ComparisonAnswer]{
				Done: draw + 1, Most: q.Draws, Draws: true,
				Answer: func() *ComparisonAnswer { return q.answer(kept(all), nil) },
			})
		}
	}
	return drawAll(ctx, all, q.Plan, q.Draws, watch)
}
