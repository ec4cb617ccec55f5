package study

import (
	"context"

	"netrate/model/runs"
	"netrate/sim/accept"
	"netrate/sim/portable"
	"netrate/sim/tape"
)

// curvePoints is how many points the operating characteristic has: the good line is the third, and the
// one as slow as the bad line is the seventh.
const curvePoints = 9

// curveTests returns the number of tests of each point.
func curveTests(reps int) int { return max(AcceptanceLeast, reps/8) }

// alongTheCurve runs tests of the good line with its faults more and less often.
func (t *acceptanceTest) alongTheCurve(ctx context.Context) error {
	if t.scale == 0 {
		return nil
	}
	hours := float64(t.length) / 3600
	var elsewhere tape.Elsewhere
	for i := range curvePoints {
		times := portable.Pow(t.scale, float64(i-2)/4)
		line := runs.Faultier(t.sides[0].line, times)
		if len(line.Check()) > 0 {
			break
		}
		passed, delivered := accept.Wrong{Of: int64(curveTests(t.Plan.Max))}, 0.0
		trial := &runs.Trial{Line: line, Length: t.length, Window: t.length}
		err := t.try(elsewhere.Next(ctx), trial, curveTests(t.Plan.Max), func(r *runs.TrialRun) {
			good := float64(r.Outcome.Sets.Good)
			delivered += good / float64(passed.Of)
			if good >= t.rate.Least {
				passed.Times++
			}
		})
		if err = elsewhere.Keep(err); err != nil || ctx.Err() != nil {
			return err
		}
		t.curve = append(t.curve, AcceptancePoint{Number(times * t.sides[0].faults), Number(delivered / hours), wrongly(passed)})
	}
	t.refresh()
	return elsewhere.Err()
}

// drawInputs runs tests of the good line with its uncertain inputs drawn anew for each.
func (t *acceptanceTest) drawInputs(ctx context.Context) error {
	if len(t.Good.UncertainInputs) == 0 {
		return nil
	}
	line := *t.Good
	line.Job, line.Shift = t.sides[0].line.Job, t.sides[0].line.Shift
	draws := accept.Wrong{Of: int64(curveTests(t.Plan.Max))}
	trial := &runs.Trial{Line: &line, Length: t.length, Window: t.length, Drawn: t.sides[0].faults}
	err := t.try(ctx, trial, int(draws.Of), func(r *runs.TrialRun) {
		if float64(r.Outcome.Sets.Good) < t.rate.Least {
			draws.Times++
		}
	})
	t.drawn = &AcceptanceDrawn{Draws: int(draws.Of), Fails: wrongly(draws)}
	return err
}
