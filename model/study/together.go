package study

import (
	"context"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// works run the same replications: each is a line at one kind of work, a line at several jobs, or
// several lines with one crew.
type works []runs.Work

// atMeans returns them with each uncertain input at the mean of its prior, or why they cannot be so:
// a [model.ImpossibleDraw].
func (w works) atMeans() (works, error) {
	var means works
	for _, one := range w {
		means = append(means, one.AtMeans())
	}
	return means, meansFit(w.simulated()...)
}

// simulated returns the lines that are run: of several jobs each line set up for each.
func (w works) simulated() (all []*model.Line) {
	for _, one := range w {
		all = append(all, one.Lines()...)
	}
	return all
}

// basis returns what answers rest on that take what is uncertain at its means.
func (w works) basis() Basis {
	var lines []*model.Line
	for _, one := range w {
		if one.Group != nil {
			lines = append(lines, &model.Line{UncertainInputs: one.Group.UncertainInputs()})
			continue
		}
		lines = append(lines, one.Lines()...)
	}
	return basisOf(OnMeans, lines...)
}

// joined returns one study of each work from those of its lines.
func (w works) joined(studies [][]*runs.Study) (all []*runs.Study) {
	for i, own := range studies {
		all = append(all, w[i].Joined("", own))
	}
	return all
}

// together runs the same replications of several works and returns a study of each. After each
// replication it calls told, if there is one, which may have the answer that answer returns of
// the studies so far.
func together[A any](
	ctx context.Context, of works, plan sim.Plan,
	answer func([]*runs.Study) *A, told func(Sofar[A]),
) ([]*runs.Study, error) {
	var watch func(int, [][]*runs.Study)
	if told != nil {
		var p pace
		watch = func(replication int, soFar [][]*runs.Study) {
			p.take(of[0].Joined("", only(replication, soFar[0])).Shifts[0].NetRate)
			told(Sofar[A]{Done: replication + 1, Most: plan.Max, Expected: p.expected(plan), Lines: len(of.simulated()), Answer: func() *A {
				var kept [][]*runs.Study
				for _, own := range soFar {
					kept = append(kept, keptStudies(own))
				}
				return answer(of.joined(kept))
			}})
		}
	}
	studies, err := runs.TogetherWork(ctx, of, plan, nil, watch)
	if err != nil {
		return nil, err
	}
	return of.joined(studies), nil
}

// workOf returns the work of a line at one kind of work or, with a mix, at its jobs; or, with a group,
// that of its lines.
func workOf(l *model.Line, mix *runs.Mix, group *model.LineGroup) runs.Work {
	switch {
	case group != nil:
		return runs.Work{Group: group}
	case mix != nil:
		return runs.Work{Mix: mix}
	}
	return runs.Work{Line: l}
}
