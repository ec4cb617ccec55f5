package study

import (
	"context"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// works are lines that run the same replications, each at one kind of work or at several jobs.
type works struct {
	lines []*model.Line
	mixes []*runs.Mix // of each line, in the same order; nil if all are at one kind of work
}

// atMeans returns them with each uncertain input at the mean of its prior, or why they cannot be so:
// a [model.ImpossibleDraw].
func (w works) atMeans() (works, error) {
	means := works{lines: atMeans(w.lines)}
	for _, m := range w.mixes {
		means.mixes = append(means.mixes, m.AtMeans())
	}
	return means, meansFit(w.simulated()...)
}

// simulated returns the lines that are run: of several jobs each line set up for each.
func (w works) simulated() []*model.Line {
	if w.mixes == nil {
		return w.lines
	}
	var all []*model.Line
	for _, m := range w.mixes {
		all = append(all, m.Lines()...)
	}
	return all
}

// ofLines returns one study of each line from those of what was run.
func (w works) ofLines(studies []*runs.Study) []*runs.Study {
	if w.mixes == nil {
		return studies
	}
	var all []*runs.Study
	for _, m := range w.mixes {
		n := len(m.Setups)
		all, studies = append(all, runs.Mixed(m.Line, studies[:n], m.Shares)), studies[n:]
	}
	return all
}

// at returns the lines that one of them is at its jobs.
func (w works) at(i int) []*model.Line {
	if w.mixes == nil {
		return w.lines[i : i+1]
	}
	return w.mixes[i].Lines()
}

// together runs the same replications of several lines and returns a study of each. After each
// replication it calls told, if there is one, which may have the answer that answer returns of
// the studies so far.
func together[A any](
	ctx context.Context, of works, plan sim.Plan,
	answer func([]*runs.Study) *A, told func(Sofar[A]),
) ([]*runs.Study, error) {
	var watch func(int, []*runs.Study)
	if told != nil {
		var p pace
		watch = func(replication int, soFar []*runs.Study) {
			p.take(soFar[0].Shifts[replication].NetRate)
			told(Sofar[A]{Done: replication + 1, Most: plan.Max, Expected: p.expected(plan), Lines: len(soFar), Answer: func() *A { return answer(of.ofLines(keptStudies(soFar))) }})
		}
	}
	studies, err := runs.Together(ctx, of.simulated(), plan, nil, watch)
	if err != nil {
		return nil, err
	}
	return of.ofLines(studies), nil
}
