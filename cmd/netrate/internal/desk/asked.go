package desk

import (
	"context"

	"netrate/model/study"
	"netrate/sim"
)

// Asked asks a question of at most so many replications, which are shifts or jobs as word says,
// and shows on a terminal how far it has come. When a signal ended it, the cause is returned
// beside the answer up to there; there is no answer if not even one replication was done.
func Asked[A any](
	e Env, most int, word string,
	ask func(context.Context, func(study.Sofar[A])) (*A, error), settings func(*A) study.Settings,
) (answer *A, ended error) {
	ended = Watched(e, most, word, func(ctx context.Context, watch func(int)) (int, sim.Ending, error) {
		var told func(study.Sofar[A])
		if watch != nil {
			told = func(so study.Sofar[A]) { watch(so.Done - 1) }
		}
		a, err := ask(ctx, told)
		if err != nil {
			return 0, 0, err
		}
		s := settings(a)
		if s.Reps > 0 {
			answer = a
		}
		if s.Partial {
			return s.Reps, sim.Cancelled, nil
		}
		return s.Reps, sim.AtMost, nil
	})
	return answer, ended
}
