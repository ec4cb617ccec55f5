package study

import (
	"context"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// together runs the same replications of several lines and returns a study of each. After each
// replication it calls told, if there is one, which may have the answer that answer returns of
// the studies so far.
func together[A any](
	ctx context.Context, lines []*model.Line, plan sim.Plan,
	answer func([]*runs.Study) *A, told func(Sofar[A]),
) ([]*runs.Study, error) {
	if told == nil {
		return runs.Together(ctx, lines, plan, nil, nil)
	}
	return runs.Together(ctx, lines, plan, nil, func(replication int, soFar []*runs.Study) {
		told(Sofar[A]{Done: replication + 1, Most: plan.Max, Answer: func() *A {
			kept := make([]*runs.Study, len(soFar))
			for i, s := range soFar {
				kept[i] = s.Kept()
			}
			return answer(kept)
		}})
	})
}
