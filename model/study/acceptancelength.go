package study

import (
	"context"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/accept"
	"netrate/sim/portable"
	"netrate/sim/tape"
)

// acceptanceMost is the longest test that is looked for, hours.
const acceptanceMost = 2000

// findLength finds how many shifts a test must have, about: [acceptanceTest.confirm] says what its risks are.
// They are whole ones, for what a line does in a part of one is not what it does in a day.
func (t *acceptanceTest) findLength(ctx context.Context) error {
	shift := t.sides[0].line.Shift
	switch {
	case t.Hours > 0:
		t.length = t.lengthOf(t.Hours)
		return nil
	case t.Demand > 0: // in the hours that the test took
		t.length = t.lengthOf(t.Result.Hours)
		return nil
	}
	guess, err := t.guess(ctx)
	if err != nil || ctx.Err() != nil {
		return err
	}
	if guess <= shift {
		t.length = shift
		return nil
	}
	further := sim.Seconds(lengthFurther / math.Sqrt(float64(t.Plan.Max)))
	for horizon := 1.2 * (1 + further) * guess; ; horizon *= 1.5 {
		if guess > acceptanceMost*3600 || horizon > 3*acceptanceMost*3600 {
			return impossible("the two lines are so near each other that a test would take more than %d h", acceptanceMost)
		}
		found, err := t.shortest(ctx, max(shift, guess/2), horizon, t.step(guess))
		if err != nil || ctx.Err() != nil || found {
			return err
		}
	}
}

// lengthOf returns the length of a test of some hours. Hours that are those of whole shifts but for what two
// digits leave away are whole shifts, and others are whole seconds: so that a test of the hours that a plan
// says is the test of the plan.
func (t *acceptanceTest) lengthOf(hours float64) sim.Seconds {
	shift := t.sides[0].line.Shift
	whole := sim.Seconds(math.Max(1, math.Round(hours*3600/float64(shift)))) * shift
	if math.Abs(float64(whole)/3600-hours) < sameHours {
		return whole
	}
	return sim.Seconds(math.Max(1, math.Round(hours*3600)))
}

// lengthFurther over the square root of the number of tests is how much longer than the shortest test that one
// is of which so many tests show that it holds the risks: about, at 5 % and exact intervals.
const lengthFurther = 10

// acceptancePilot is the number of shifts that tell about how long a test must be.
const acceptancePilot = 500

// guess returns how long a test must be if what shifts deliver is normal and they are independent.
func (t *acceptanceTest) guess(ctx context.Context) (sim.Seconds, error) {
	var mean, spread [2]float64
	for i, s := range t.sides {
		of, err := runs.Run(tape.Here(ctx), s.line, sim.Plan{Seed: t.Plan.Seed, Min: acceptancePilot, Max: acceptancePilot, Workers: t.Plan.Workers}, nil)
		if err != nil || len(of.Shifts) < 2 {
			return 0, err
		}
		mean[i], spread[i] = of.NetRates().Mean(), of.NetRates().SD()
	}
	far := float64(portable.NormalQuantile(1-t.Risks.Seller)*spread[0]) + float64(portable.NormalQuantile(1-t.Risks.Buyer)*spread[1])
	shifts := far / (mean[0] - mean[1])
	return sim.Seconds(shifts*shifts) * t.sides[0].line.Shift, nil
}

// steps are the lengths by which tests are lengthened, minutes.
var steps = []float64{15, 30, 60, 120, 240, 480, 960, 1920, 4800}

// step returns by how much a test of about a length is lengthened: a whole number of steps is a shift, or a
// whole number of shifts is a step.
func (t *acceptanceTest) step(length sim.Seconds) sim.Seconds {
	i := slices.IndexFunc(steps, func(minutes float64) bool { return sim.Seconds(minutes*60) >= length/50 })
	if i < 0 {
		i = len(steps) - 1
	}
	shift, step := t.sides[0].line.Shift, sim.Seconds(steps[i]*60)
	if step < shift {
		return shift / sim.Seconds(math.Ceil(float64(shift/step)-1e-9))
	}
	return sim.Seconds(math.Round(float64(step/shift))) * shift
}

// shortest finds the shortest test in whole shifts, from a length up to a horizon, that seems to hold the
// risks, and between what the shortest that does lies, in steps; it reports whether there is one.
func (t *acceptanceTest) shortest(ctx context.Context, from, horizon, step sim.Seconds) (bool, error) {
	unit := max(step, t.sides[0].line.Shift)
	most := sim.Seconds(math.Ceil(float64(horizon/unit)-1e-9)) * unit
	var delivered [2][]sim.Sample
	err := t.both(ctx, func(ctx context.Context, i int, line *model.Line) error {
		trial := &runs.Trial{Line: line, Length: most, Window: step}
		delivered[i] = make([]sim.Sample, trial.Windows())
		return t.try(ctx, trial, t.Plan.Max, func(r *runs.TrialRun) {
			for k, good := range r.Good {
				delivered[i][k] = append(delivered[i][k], float64(good))
			}
		})
	})
	if err != nil || ctx.Err() != nil {
		return false, err
	}
	each := int(math.Round(float64(unit / step)))
	first := max(1, int(math.Ceil(float64(from/step)-1e-6)))
	inSteps := func(number int) int { return first + number } // the length of that number
	x := accept.Lengthen(delivered[0][first-1:], delivered[1][first-1:], t.Risks, Level, func(number int) bool { return inSteps(number)%each == 0 })
	if x.Shortest < 0 {
		return false, nil
	}
	t.length = sim.Seconds(inSteps(x.Shortest)/each) * unit
	hours := func(number int) Number { return Number(sim.Seconds(inSteps(number)) * step / 3600) }
	t.bounds = &AcceptanceBetween{Low: hours(x.Low)}
	if x.High >= 0 {
		t.bounds.High = new(hours(x.High))
	}
	return true, nil
}

// begin gives a number of trials the first shifts that are fresh.
func (t *acceptanceTest) begin(trial *runs.Trial, times int) {
	n := trial.Shifts()
	trial.First = (t.fresh + n - 1) / n // a trial has n shifts in a row, the first of which is a multiple of it
	t.spent = max(t.spent, (trial.First+times)*n)
}

// refresh has the next trials in other shifts than those so far.
func (t *acceptanceTest) refresh() { t.fresh = max(t.fresh, t.spent) }

// try runs a number of trials in fresh shifts, which are the same until [acceptanceTest.refresh].
func (t *acceptanceTest) try(ctx context.Context, trial *runs.Trial, times int, each func(*runs.TrialRun)) error {
	t.begin(trial, times)
	plan := sim.Plan{Seed: t.seed, Min: times, Max: times, Workers: t.Plan.Workers}
	_, err := trial.Run(ctx, plan, func(_ int, r *runs.TrialRun) {
		each(r)
		t.ticked(1)
	})
	return err
}

// both runs something with either of the two lines, which do not depend on one another: shards run them
// side by side.
func (t *acceptanceTest) both(ctx context.Context, run func(ctx context.Context, i int, line *model.Line) error) error {
	var elsewhere tape.Elsewhere
	for i, s := range t.sides {
		if err := elsewhere.Keep(run(elsewhere.Next(ctx), i, s.line)); err != nil || ctx.Err() != nil {
			return err
		}
	}
	return elsewhere.Err()
}

// tested is what is kept of one simulated test.
type tested struct {
	runs.TrialSums
	passed bool    // its net rate, where the test may end after each shift
	worst  float64 // what would have been delivered if the worst of its hours had been as the others, see struck
	whole  float64 // good envelopes by the end of its last whole shift
}

// figure returns what a clause is about; NaN if the test says nothing of it.
func (x *tested) figure(f AcceptanceFigure) float64 {
	switch f {
	case AcceptanceStops:
		return 1000 * float64(x.Stops) / float64(x.Sets)
	case AcceptanceTakenOut:
		return 1000 * float64(x.TakenOut) / float64(x.Sets)
	case AcceptanceClearing:
		if x.Cleared == 0 { // though one may have been in hand at the end
			return math.NaN()
		}
		return float64(x.Clearing) / float64(x.Cleared)
	case AcceptanceDefective:
		return 1e6 * float64(x.Defective) / float64(x.Good+x.Defective)
	case AcceptanceRate:
	}
	return float64(x.Good)
}

// acceptanceWindow is the hour, of which those may be struck out that went worst.
const acceptanceWindow sim.Seconds = 3600

// struckEach is of how many whole hours one is struck out.
const struckEach = 8

func testedOf(r *runs.TrialRun) tested {
	return tested{TrialSums: r.Shifts[len(r.Shifts)-1], worst: struck(r)}
}

// struck returns what a test would have delivered if of each eight hours the worst were struck out and
// made up for by an average one of the rest.
func struck(r *runs.TrialRun) float64 {
	var hours []float64
	before := int64(0)
	for _, good := range r.Good {
		hours = append(hours, float64(good-before))
		before = good
	}
	out := len(hours) / struckEach
	if out == 0 {
		return float64(r.Outcome.Sets.Good)
	}
	slices.Sort(hours)
	lost, kept := portable.Sum(hours[:out]), portable.Mean(hours[out:])
	return float64(r.Outcome.Sets.Good) - lost + float64(float64(out)*kept)
}

// given reports whether it is said how long the test is, or was.
func (t *acceptanceTest) given() bool { return t.Hours > 0 || t.Demand > 0 || t.planned != nil }

// tries is how many lengths are tried to confirm the risks of a test.
const tries = 25

// ofItsLength has all tests from here on in shifts that depend on the seed and on the length of the test, and
// on nothing else: however the length came about, found or given, in a plan or where a test is judged, limits
// and risks are the same to the last bit.
func (t *acceptanceTest) ofItsLength() {
	s := sim.NewStream("acceptance test", "length")
	s.Seed(t.Plan.Seed, int(math.Round(float64(t.length))))
	t.seed, t.fresh, t.spent = s.Uint64(), 0, 0
}

// confirm runs new tests of a length, and of longer ones until the risks in them are no more than asked
// for. Where the length is given, the risks are what they are.
func (t *acceptanceTest) confirm(ctx context.Context) error {
	step := max(t.step(t.length), t.sides[0].line.Shift)
	for range tries {
		t.ofItsLength()
		if err := t.testPair(ctx); err != nil || ctx.Err() != nil {
			return err
		}
		t.refresh()
		good, bad := t.sides[0].figures(AcceptanceRate), t.sides[1].figures(AcceptanceRate)
		t.own = math.Ceil(accept.Separate(good, bad, t.Risks).Least)
		least := t.Demand
		if least == 0 || t.otherHours() {
			least = t.own
		}
		t.rate = accept.At(good, bad, least)
		if t.given() || t.rate.Holds(t.Risks) {
			return nil
		}
		t.length += step
		if b := t.bounds; b != nil && b.High != nil { // these tests show that it is longer than the others did
			b.High = new(max(*b.High, Number(t.length/3600)))
		}
	}
	return impossible("%d tests of each line do not show such small risks, however long they are", t.Plan.Max)
}

// sameHours is by how much a test may be longer or shorter than its plan and still be judged by it, hours:
// they are written with two digits.
const sameHours = 0.01

// signedHours is by how much the hours of a test may differ from those for which a demand is signed, as a
// share of them: clocks are read by hand.
const signedHours = 0.005

// signedWithin returns by how much the hours of a test may differ from those for which a demand is signed.
func signedWithin(hours float64) float64 { return math.Max(sameHours, signedHours*hours) }

// signed reports whether the contract gives the demand and the hours in which it is to be delivered.
func (t *acceptanceTest) signed() bool { return t.Demand > 0 && t.Hours > 0 }

// otherHours reports whether the demand is signed for hours that are not those of the test that was run: it
// then decides nothing.
func (t *acceptanceTest) otherHours() bool { return t.planned != nil && t.signed() }

// asItWas makes the plan that of a test of other hours, if one that was run took others.
func (t *acceptanceTest) asItWas(ctx context.Context) error {
	hours, same := float64(t.length)/3600, sameHours
	if t.signed() {
		same = signedWithin(hours)
	}
	if t.Result == nil || t.Sequential || math.Abs(t.Result.Hours-hours) <= same+1e-9 {
		return nil
	}
	t.planned = &AcceptancePlanned{Number(hours), Number(t.rate.Least)}
	t.length = t.lengthOf(t.Result.Hours)
	return t.confirm(ctx)
}

// figures returns a figure of every test.
func (s *side) figures(f AcceptanceFigure) sim.Sample {
	all := make(sim.Sample, len(s.tests))
	for i := range s.tests {
		all[i] = s.tests[i].figure(f)
	}
	return all
}
