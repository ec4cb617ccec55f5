package study

import (
	"context"
	"math"

	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/accept"
)

// AcceptanceStages is a test of the net rate that may end after each shift: as soon as the good
// envelopes from the beginning are as many as pass, or fewer than fail. Its risks are those of new
// tests, which had no part in its limits.
type AcceptanceStages struct {
	Shifts      []AcceptanceStage `json:"after_each_shift"`
	Seller      Proportion        `json:"good_line_fails"`
	Buyer       Proportion        `json:"bad_line_passes"`
	Holds       bool              `json:"holds_the_risks"`
	MeanGood    Number            `json:"mean_hours_good"`
	MeanBad     Number            `json:"mean_hours_bad"`
	MeanBetween Number            `json:"mean_hours_between,omitempty"` // of a line between the two, for which it takes longest; 0 if there is no such line
}

// AcceptanceStage is what is decided after a shift, by the good envelopes of all shifts up to it.
type AcceptanceStage struct {
	Hours    Number  `json:"hours"`
	Passes   *Number `json:"passes_at,omitempty"`   // nil where no line can pass yet
	Fails    *Number `json:"fails_below,omitempty"` // nil where none can fail yet
	GoodOver Number  `json:"good_line_decided"`     // share of the tests that are over by then
	BadOver  Number  `json:"bad_line_decided"`
}

// stageLonger is how many times as many shifts as the test of fixed length one in stages may take, so
// that those which are soon decided pay for it.
const stageLonger = 1.5

// inStages plans the test that may end after each shift.
func (t *acceptanceTest) inStages(ctx context.Context) error {
	shift := t.sides[0].line.Shift
	if !t.Sequential {
		return nil
	}
	if t.length <= shift {
		t.noStages = "the test takes one shift, and there is no earlier one to end it after"
		return nil
	}
	stages := int(math.Ceil(stageLonger * float64(t.length/shift)))
	pilot, err := t.bothSums(ctx, stages)
	if err != nil || ctx.Err() != nil {
		return err
	}
	for _, wide := range accept.Widths(pilot[0], pilot[1], t.Risks, near) {
		fresh, err := t.bothSums(ctx, stages)
		if err != nil || ctx.Err() != nil {
			return err
		}
		plan := accept.InStages(pilot[0], pilot[1], t.Risks, wide)
		tried := plan.Try(fresh[0], fresh[1])
		if t.stages = t.stagesAnswer(plan, tried); tried.Holds(t.Risks, 1) {
			return t.between(ctx, plan)
		}
	}
	return nil // the widest is what there is, and it is said that it does not hold the risks
}

// bothSums runs new tests of both lines.
func (t *acceptanceTest) bothSums(ctx context.Context, stages int) (sums [2][][]float64, err error) {
	for i, s := range t.sides {
		if sums[i], err = t.sums(ctx, s, stages, t.Plan.Max); err != nil || ctx.Err() != nil {
			return sums, err
		}
	}
	t.refresh()
	return sums, nil
}

// sums returns the good envelopes up to the end of each shift of some tests of a line.
func (t *acceptanceTest) sums(ctx context.Context, s *side, stages, tests int) (all [][]float64, err error) {
	shift := t.sides[0].line.Shift
	trial := &runs.Trial{Line: s.line, Length: sim.Seconds(float64(stages) * float64(shift)), Window: shift}
	err = t.try(ctx, trial, tests, func(r *runs.TrialRun) {
		one := make([]float64, len(r.Good))
		for k, good := range r.Good {
			one[k] = float64(good)
		}
		all = append(all, one)
	})
	return all, err
}

// between finds how long the test takes for a line that is between the two.
func (t *acceptanceTest) between(ctx context.Context, plan accept.Stages) error {
	if t.scale == 0 {
		return nil
	}
	line := runs.Faultier(t.sides[0].line, math.Sqrt(t.scale))
	sums, err := t.sums(ctx, &side{line: line}, len(plan.Pass), curveTests(t.Plan.Max))
	if err != nil || ctx.Err() != nil {
		return err
	}
	t.refresh()
	t.stages.MeanBetween = t.hoursOf(plan.Try(sums, sums).MeanGood)
	return nil
}

// hoursOf returns how long some shifts are.
func (t *acceptanceTest) hoursOf(shifts float64) Number {
	return Number(shifts * float64(t.sides[0].line.Shift) / 3600)
}

// stagesAnswer returns a test in stages as the answer has it.
func (t *acceptanceTest) stagesAnswer(plan accept.Stages, tried accept.Staged) *AcceptanceStages {
	x := &AcceptanceStages{
		Seller: wrongly(tried.Seller), Buyer: wrongly(tried.Buyer), Holds: tried.Holds(t.Risks, 1),
		MeanGood: t.hoursOf(tried.MeanGood), MeanBad: t.hoursOf(tried.MeanBad),
	}
	most := max(t.sides[0].line.RunSpeed(), t.sides[1].line.RunSpeed())
	for k := range plan.Pass {
		one := AcceptanceStage{
			Hours:    t.hoursOf(float64(k + 1)),
			GoodOver: Number(float64(tried.GoodOver[k]) / float64(tried.Seller.Of)),
			BadOver:  Number(float64(tried.BadOver[k]) / float64(tried.Buyer.Of)),
		}
		if plan.Pass[k] <= most*float64(one.Hours) {
			one.Passes = new(Number(plan.Pass[k]))
		}
		if plan.Fail[k] > 0 {
			one.Fails = new(Number(plan.Fail[k]))
		}
		x.Shifts = append(x.Shifts, one)
	}
	return x
}
