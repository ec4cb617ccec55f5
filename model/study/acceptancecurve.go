package study

import (
	"context"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/accept"
	"netrate/sim/portable"
	"netrate/sim/tape"
)

// curvePoints is how many points the operating characteristic has: the good line is the third, and the
// one as slow as the bad line is the seventh.
const (
	curvePoints = 9
	goodPoint   = 2
	badPoint    = 6
)

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
		if own := t.sideOf(i); own != nil {
			t.curve = append(t.curve, t.pointOf(own))
			continue
		}
		times := portable.Pow(t.scale, float64(i-goodPoint)/4)
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

// sideOf returns the line of a point if it is one of the two, whose tests there are: one line has one risk. Nil
// if it is neither; where the bad line is not made of the good one, no point is it.
func (t *acceptanceTest) sideOf(point int) *side {
	switch {
	case point == goodPoint:
		return t.sides[0]
	case point == badPoint && t.Bad == nil:
		return t.sides[1]
	}
	return nil
}

// pointOf returns the point of one of the two lines, by its own tests.
func (t *acceptanceTest) pointOf(s *side) AcceptancePoint {
	rate := s.figures(AcceptanceRate).Mean() / (float64(t.length) / 3600)
	return AcceptancePoint{Number(s.faults), Number(rate), wrongly(s.times(func(x *tested) bool { return x.figure(AcceptanceRate) >= t.rate.Least }))}
}

// drawInputs runs tests of the good line with its uncertain inputs drawn anew for each.
func (t *acceptanceTest) drawInputs(ctx context.Context) error {
	if len(t.Good.UncertainInputs) == 0 {
		return nil
	}
	line := t.uncertainLine()
	draws := accept.Wrong{Of: int64(curveTests(t.Plan.Max))}
	trial := &runs.Trial{Line: line, Length: t.length, Window: t.length, Drawn: t.sides[0].faults}
	err := t.try(ctx, trial, int(draws.Of), func(r *runs.TrialRun) {
		if float64(r.Outcome.Sets.Good) < t.rate.Least {
			draws.Times++
		}
	})
	t.drawn = &AcceptanceDrawn{Draws: int(draws.Of), Fails: wrongly(draws)}
	return err
}

// uncertainLine returns the good line as the file has it, with what is uncertain of it, which works for shifts.
func (t *acceptanceTest) uncertainLine() *model.Line {
	line := *t.Good
	line.Job, line.Shift = t.sides[0].line.Job, t.sides[0].line.Shift
	return &line
}

// acceptanceDraws is of how many draws the long run is known of a line that is not certain.
const acceptanceDraws = 250

// drawWritten finds between what the net rate of the line of the file lies in the long run, as a run of it finds
// it, where both lines are made of it and something of it is uncertain: its mean alone would claim too much.
func (t *acceptanceTest) drawWritten(ctx context.Context) error {
	if t.written.N == 0 || len(t.Good.UncertainInputs) == 0 {
		return nil
	}
	plan := sim.Plan{Seed: t.Plan.Seed, Min: acceptanceDraws, Max: acceptanceDraws, Workers: t.Plan.Workers}
	drawn, _, err := runs.RunUncertain(tape.Here(ctx), []*model.Line{t.uncertainLine()}, plan, UncertaintyEach, nil)
	if err != nil || ctx.Err() != nil {
		return err
	}
	t.longRun = new(intervalOf(drawn[0].Of(netRate).Interval(Level)))
	return nil
}
