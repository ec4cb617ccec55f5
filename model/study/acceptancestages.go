package study

import (
	"context"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/accept"
)

// AcceptanceStages is a test of the net rate that may end after each shift: as soon as the good
// envelopes from the beginning are as many as pass, or fewer than fail. Its risks are those of new
// tests, which had no part in its limits.
type AcceptanceStages struct {
	Shifts      []AcceptanceStage `json:"after_each_shift"`
	Asked       bool              `json:"limits_given"` // in the contract
	Seller      Proportion        `json:"good_line_fails"`
	Buyer       Proportion        `json:"bad_line_passes"`
	Holds       bool              `json:"holds_the_risks"`
	MeanGood    Number            `json:"mean_hours_good"`
	MeanBad     Number            `json:"mean_hours_bad"`
	MeanBetween Number            `json:"mean_hours_between,omitempty"` // of a line between the two, for which it takes longest; 0 if there is no such line

	// With all clauses together, the others judged where the test ends, on what was counted until then;
	// nil if there are none.
	FailsAny  *Proportion `json:"good_line_fails_any_clause,omitempty"`
	PassesAll *Proportion `json:"bad_line_passes_all_clauses,omitempty"`
}

// AcceptanceStage is what is decided after a shift, by the good envelopes of all shifts up to it.
type AcceptanceStage struct {
	Hours    Number  `json:"hours"`
	Passes   *Number `json:"passes_at,omitempty"`   // nil where no line can pass yet
	Fails    *Number `json:"fails_below,omitempty"` // nil where none can fail yet
	GoodOver Number  `json:"good_line_decided"`     // share of the tests that are over by then
	BadOver  Number  `json:"bad_line_decided"`

	GoodFailed Proportion `json:"good_line_failed"` // of all tests; after the last shift the risk
	BadPassed  Proportion `json:"bad_line_passed"`
}

// stageLonger is how many times as many shifts as the test of fixed length one in stages may take, so
// that those which are soon decided pay for it.
const stageLonger = 1.5

// near is how near to the risks the first tests must come, so that those that confirm them need no wider limits
// again and again.
const near = 0.93

// inStages plans the test that may end after each shift.
func (t *acceptanceTest) inStages(ctx context.Context) error {
	shift := t.sides[0].line.Shift
	if !t.Sequential {
		return nil
	}
	defer func(seed uint64, fresh, spent int) { t.seed, t.fresh, t.spent = seed, fresh, spent }(t.seed, t.fresh, t.spent)
	if t.Stages != nil {
		return t.inTheirStages(ctx)
	}
	if t.length <= shift {
		if t.noStages = "the test takes one shift, and there is no earlier one to end it after"; t.Result != nil {
			return impossible("no test may end earlier: %s. Judge it by its length", t.noStages)
		}
		return nil
	}
	stages := int(math.Ceil(stageLonger * float64(t.length/shift)))
	pilot, err := t.inShifts(ctx, stages)
	if err != nil || ctx.Err() != nil {
		return err
	}
	goods, bads := goodSums(pilot[0]), goodSums(pilot[1])
	for _, wide := range accept.Widths(goods, bads, t.Risks, near) {
		err := t.tryStages(ctx, t.within(accept.InStages(goods, bads, t.Risks, wide)))
		if err != nil || ctx.Err() != nil {
			return err
		}
		if t.tried.Holds(t.Risks, 1) {
			break
		} // the widest is what there is, and it is said that it does not hold the risks
	}
	return t.between(ctx)
}

// inTheirStages finds what the limits of a contract do.
func (t *acceptanceTest) inTheirStages(ctx context.Context) error {
	if err := t.tryStages(ctx, *t.Stages); err != nil || ctx.Err() != nil {
		return err
	}
	return t.between(ctx)
}

// ofTheirLimits has all tests from here on in shifts that depend on the seed and on the limits after each shift,
// and on nothing else: however these came about, by a plan or by a contract, their risks are the same to the
// last bit.
func (t *acceptanceTest) ofTheirLimits() {
	s, seed := sim.NewStream("acceptance test", "limits after each shift"), t.Plan.Seed
	for _, limits := range [][]float64{t.staged.Pass, t.staged.Fail} {
		for _, x := range limits {
			if math.IsInf(x, 0) {
				x = 0 // which no other limit is
			}
			s.Seed(seed, int(x))
			seed = s.Uint64()
		}
	}
	t.seed, t.fresh, t.spent = seed, 0, 0
}

// tryStages takes what becomes of new tests by some limits.
func (t *acceptanceTest) tryStages(ctx context.Context, limits accept.Stages) error {
	t.staged = limits
	t.ofTheirLimits()
	fresh, err := t.inShifts(ctx, len(limits.Pass))
	if err != nil || ctx.Err() != nil {
		return err
	}
	t.tried = t.staged.Try(goodSums(fresh[0]), goodSums(fresh[1]))
	t.stages = t.stagesAnswer(t.staged, t.tried)
	for i := range fresh {
		t.ended[i] = &side{line: t.sides[i].line, tests: t.endsOf(fresh[i])}
	}
	return nil
}

// within makes limits that nothing can reach infinite, as a contract has none there.
func (t *acceptanceTest) within(s accept.Stages) accept.Stages {
	most := max(t.sides[0].line.RunSpeed(), t.sides[1].line.RunSpeed())
	for k := range s.Pass {
		if s.Pass[k] > most*float64(t.hoursOf(float64(k+1))) {
			s.Pass[k] = math.Inf(1)
		}
		if s.Fail[k] <= 0 {
			s.Fail[k] = math.Inf(-1)
		}
	}
	return s
}

// stagesRight returns what is wrong with the limits of a contract.
func (q *Acceptance) stagesRight() error {
	s, last := q.Stages, len(q.Stages.Pass)-1
	if !q.Sequential || last < 1 || len(s.Fail) != last+1 {
		return impossible("limits after each shift are of a test of two shifts or more that may end after each")
	}
	for k := range s.Pass {
		if !(s.Pass[k] > 0 && s.Pass[k] >= s.Fail[k]) {
			return impossible("after shift %d a line passes at %.0f good envelopes and fails below %.0f: want no fewer to pass", k+1, s.Pass[k], s.Fail[k])
		}
	}
	if s.Pass[last] != s.Fail[last] || math.IsInf(s.Pass[last], 0) {
		return impossible("after the last shift, the one numbered %d, all is decided: want one number at which a line passes and below which it fails", last+1)
	}
	return nil
}

// inShifts runs new tests of both lines, and returns what each comes to by the end of each shift.
func (t *acceptanceTest) inShifts(ctx context.Context, stages int) (tests [2][][]runs.TrialSums, err error) {
	err = t.both(ctx, func(ctx context.Context, i int, line *model.Line) (err error) {
		tests[i], err = t.shiftsOf(ctx, line, stages, t.Plan.Max)
		return err
	})
	t.refresh()
	return tests, err
}

// shiftsOf returns what some tests of a line come to by the end of each shift.
func (t *acceptanceTest) shiftsOf(ctx context.Context, line *model.Line, stages, tests int) (all [][]runs.TrialSums, err error) {
	shift := t.sides[0].line.Shift
	length := sim.Seconds(float64(stages) * float64(shift))
	trial := &runs.Trial{Line: line, Length: length, Window: length}
	err = t.try(ctx, trial, tests, func(r *runs.TrialRun) { all = append(all, slices.Clone(r.Shifts)) })
	return all, err
}

// goodSums returns the good envelopes of tests by the end of each shift.
func goodSums(tests [][]runs.TrialSums) [][]float64 {
	all := make([][]float64, len(tests))
	for i, shifts := range tests {
		for _, x := range shifts {
			all[i] = append(all[i], float64(x.Good))
		}
	}
	return all
}

// endsOf returns what tests have come to where they end.
func (t *acceptanceTest) endsOf(tests [][]runs.TrialSums) (all []tested) {
	for i, sums := range goodSums(tests) {
		_, stages := t.staged.Of(sums)
		all = append(all, tested{TrialSums: tests[i][stages-1], passed: sums[stages-1] >= t.staged.Pass[stages-1]})
	}
	return all
}

// allInStages says what all clauses together do where the test may end after each shift.
func (t *acceptanceTest) allInStages(a *AcceptanceAnswer) {
	passes := func(x *tested) bool { return x.passed && passesAll(a.Clauses[1:], x) }
	t.stages.FailsAny = new(wrongly(t.ended[0].times(func(x *tested) bool { return !passes(x) })))
	t.stages.PassesAll = new(wrongly(t.ended[1].times(passes)))
}

// between finds how long the test takes for a line that is between the two.
func (t *acceptanceTest) between(ctx context.Context) error {
	if t.scale == 0 {
		return nil
	}
	line := runs.Faultier(t.sides[0].line, math.Sqrt(t.scale))
	tests, err := t.shiftsOf(ctx, line, len(t.staged.Pass), curveTests(t.Plan.Max))
	if err != nil || ctx.Err() != nil {
		return err
	}
	t.refresh()
	sums := goodSums(tests)
	t.stages.MeanBetween = t.hoursOf(t.staged.Try(sums, sums).MeanGood)
	return nil
}

// hoursOf returns how long some shifts are.
func (t *acceptanceTest) hoursOf(shifts float64) Number {
	return Number(shifts * float64(t.sides[0].line.Shift) / 3600)
}

// stagesAnswer returns a test in stages as the answer has it.
func (t *acceptanceTest) stagesAnswer(plan accept.Stages, tried accept.Staged) *AcceptanceStages {
	x := &AcceptanceStages{
		Asked: t.Stages != nil, Seller: wrongly(tried.Seller), Buyer: wrongly(tried.Buyer), Holds: tried.Holds(t.Risks, 1),
		MeanGood: t.hoursOf(tried.MeanGood), MeanBad: t.hoursOf(tried.MeanBad),
	}
	for k := range plan.Pass {
		one := AcceptanceStage{
			Hours:    t.hoursOf(float64(k + 1)),
			GoodOver: Number(float64(tried.GoodOver[k]) / float64(tried.Seller.Of)),
			BadOver:  Number(float64(tried.BadOver[k]) / float64(tried.Buyer.Of)),

			GoodFailed: wrongly(accept.Wrong{Times: tried.Failed[k], Of: tried.Seller.Of}),
			BadPassed:  wrongly(accept.Wrong{Times: tried.Passed[k], Of: tried.Buyer.Of}),
		}
		if !math.IsInf(plan.Pass[k], 0) {
			one.Passes = new(Number(plan.Pass[k]))
		}
		if !math.IsInf(plan.Fail[k], 0) {
			one.Fails = new(Number(plan.Fail[k]))
		}
		x.Shifts = append(x.Shifts, one)
	}
	return x
}
