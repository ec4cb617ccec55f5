package study

import (
	"context"

	"netrate/model"
	"netrate/model/runs"
)

// AcceptanceMaterial is what becomes of the net rate’s clause if no bad lot is loaded in the test, as
// where material out of specification is excluded from it.
type AcceptanceMaterial struct {
	Good   Number     `json:"good_net_rate"`
	Bad    Number     `json:"bad_net_rate"`
	Seller Proportion `json:"good_line_fails"`
	Buyer  Proportion `json:"bad_line_passes"`
}

// withoutBadLots runs tests of the two lines without their bad lots, if they have any.
func (t *acceptanceTest) withoutBadLots(ctx context.Context) error {
	hours := float64(t.length) / 3600
	var figures [2]side
	badLots := false
	for i, s := range t.sides {
		line := runs.WithoutBadLots(s.line)
		badLots = badLots || line != s.line
		figures[i].line = line
	}
	if !badLots {
		return nil
	}
	err := t.both(ctx, func(ctx context.Context, i int, _ *model.Line) error {
		s := &figures[i]
		trial := &runs.Trial{Line: s.line, Length: t.length, Window: t.length}
		return t.try(ctx, trial, t.Plan.Max, func(r *runs.TrialRun) { s.tests = append(s.tests, testedOf(r)) })
	})
	if err != nil || ctx.Err() != nil {
		return err
	}
	t.refresh()
	good, bad := &figures[0], &figures[1]
	t.material = &AcceptanceMaterial{
		Good: Number(good.figures(AcceptanceRate).Mean() / hours), Bad: Number(bad.figures(AcceptanceRate).Mean() / hours),
		Seller: wrongly(good.times(func(x *tested) bool { return float64(x.Good) < t.rate.Least })),
		Buyer:  wrongly(bad.times(func(x *tested) bool { return float64(x.Good) >= t.rate.Least })),
	}
	return nil
}
