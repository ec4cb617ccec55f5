package study

import (
	"context"
	"math"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/accept"
)

// pair is how two lines are made of one where only their net rates are given.
type pair struct {
	line   *model.Line // of which; nil where two lines are given
	sought [2]float64  // how often its faults come, by the shifts in which the two were looked for
	off    float64     // by how much a net rate may still be off what it is made for, an hour
}

// withFaults makes the two lines, with faults so many times as often.
func (t *acceptanceTest) withFaults(faults [2]float64) {
	for i, times := range faults {
		t.sides[i] = &side{line: runs.Faultier(t.pair.line, times), faults: times}
	}
	t.scale = faults[1] / faults[0]
}

// Of a pair of lines that is made for two net rates: how near to these the means of its tests must come, as a
// share of the half width of their intervals, and how often it is made anew for that.
const (
	pairMet    = 0.1
	pairsTried = 3
)

// testPair runs tests of both lines. Lines that are made for net rates are made anew and run in the very same
// tests, until these deliver the rates: what chance did to all shifts together is then in the lines, which are
// not of interest, and not in the limit.
//
// They begin with those that were looked for, so that they depend on the seed and the length of the test alone.
func (t *acceptanceTest) testPair(ctx context.Context) error {
	if t.pair.line != nil {
		t.withFaults(t.pair.sought)
	}
	for left := pairsTried; ; left-- {
		if err := t.test(ctx); err != nil || ctx.Err() != nil || t.pair.line == nil {
			return err
		}
		faults, met := t.nearer()
		if met || left == 0 {
			return nil
		}
		t.withFaults(faults)
	}
}

// test runs tests of both lines, always in the same shifts.
func (t *acceptanceTest) test(ctx context.Context) error {
	whole := t.wholeShifts()
	return t.both(ctx, func(ctx context.Context, i int, line *model.Line) error {
		s := t.sides[i]
		s.tests = s.tests[:0]
		trial := &runs.Trial{Line: line, Length: t.length, Window: min(acceptanceWindow, t.length)}
		return t.try(ctx, trial, t.Plan.Max, func(r *runs.TrialRun) {
			x := testedOf(r)
			if whole > 0 {
				x.whole = float64(r.Shifts[whole-1].Good)
			}
			s.tests = append(s.tests, x)
		})
	})
}

// wholeShifts returns the number of whole shifts of a test.
func (t *acceptanceTest) wholeShifts() int {
	return int(float64(t.length/t.sides[0].line.Shift) + 1e-9)
}

// inWhole returns the net rate of the whole shifts of each test of a line.
func (t *acceptanceTest) inWhole(s *side) sim.Sample {
	hours := float64(t.hoursOf(float64(t.wholeShifts())))
	rates := make(sim.Sample, len(s.tests))
	for k := range s.tests {
		rates[k] = s.tests[k].whole / hours
	}
	return rates
}

// nearer returns how often faults come on lines that are nearer to the net rates asked for, if these are not
// met yet. The time that an envelope takes is about so much more for each fault more: a straight line through
// the two gives it.
func (t *acceptanceTest) nearer() (faults [2]float64, met bool) {
	if t.wholeShifts() == 0 { // and a part of a shift says nothing of one
		t.pair.off = t.written.Half // of as many shifts as those in which the lines were looked for
		return faults, true
	}
	var rates [2]sim.Estimate
	met, t.pair.off = true, 0
	for i, s := range t.sides {
		rates[i] = t.inWhole(s).Interval(Level)
		off := math.Abs(rates[i].Mean - float64(t.asked(i)))
		t.pair.off = math.Max(t.pair.off, off)
		met = met && off <= pairMet*rates[i].Half
	}
	if !(rates[0].Mean > rates[1].Mean && rates[1].Mean > 0) {
		return faults, true
	}
	each := (t.sides[1].faults - t.sides[0].faults) / (1/rates[1].Mean - 1/rates[0].Mean)
	for i, s := range t.sides {
		faults[i] = s.faults + float64(each*(1/float64(t.asked(i))-1/rates[i].Mean))
		if !(faults[i] > 0) || len(runs.Faultier(t.pair.line, faults[i]).Check()) > 0 {
			return faults, true
		}
	}
	return faults, met
}

// rateWithin returns within what the limit of the net rate is known: by chance in the tests and, of lines that
// are made, by what these are off.
func (t *acceptanceTest) rateWithin() float64 {
	var figures [2]sim.Sample
	for i, s := range t.sides {
		figures[i] = s.figures(AcceptanceRate)
		if t.pair.line != nil && t.wholeShifts() > 0 {
			control := t.inWhole(s)
			for k := range control {
				control[k] *= float64(t.length / 3600)
			}
			figures[i] = accept.Centred(figures[i], control)
		}
	}
	tests, made := accept.SeparateWithin(accept.Separate, figures[0], figures[1], t.Risks, Level), t.pair.off*float64(t.length/3600)
	return math.Sqrt(float64(tests*tests) + float64(made*made))
}
