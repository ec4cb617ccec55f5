package study

import (
	"context"
	"math"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/portable"
	"netrate/sim/tape"
)

// acceptanceSearch is how many shifts tell how fast a line is while one of a net rate is looked for. Its error is
// larger than that of a limit; [acceptanceTest.testPair] takes it away.
const acceptanceSearch = 1000

// makeLines makes the two lines: as they are written or, where only net rates are given, the one line
// with its faults more or less often, which is how lines of one design differ.
func (t *acceptanceTest) makeLines(ctx context.Context) error {
	if err := meansFit(t.lines()...); err != nil {
		return err
	}
	good := shiftwork(t.Good)
	if t.Bad != nil {
		bad := shiftwork(t.Bad)
		bad.Shift = good.Shift
		t.sides = [2]*side{{line: good, faults: 1}, {line: bad, faults: 1}}
		return t.compareLines(ctx)
	}
	var err error
	if t.written, err = t.rateOf(ctx, good); err != nil || ctx.Err() != nil {
		return err
	}
	for i, rate := range []float64{t.Promised, t.Unacceptable} {
		times, fastest, err := t.faultsFor(ctx, good, rate)
		if err != nil || ctx.Err() != nil {
			return err
		}
		if times == 0 {
			return impossible("no line of this file has a net rate of %.0f an hour, however often its faults come: without faults it has %.0f. "+
				"Write the promised line and the unacceptable one as variants of the file, and name them", rate, fastest)
		}
		t.pair.line, t.pair.sought[i] = good, times
	}
	t.withFaults(t.pair.sought)
	return nil
}

// lines returns the lines that are given.
func (t *acceptanceTest) lines() []*model.Line {
	if t.Bad == nil {
		return []*model.Line{t.Good}
	}
	return []*model.Line{t.Good, t.Bad}
}

// shiftwork returns a line at the means of what is uncertain, which works for shifts.
func shiftwork(l *model.Line) *model.Line {
	works := *l.AtMeans()
	works.Job = model.Job{}
	if !(works.Shift > 0) {
		works.Shift = AcceptanceShift
	}
	return &works
}

// compareLines sees that the bad line is worse, and finds how often the faults of the good one come
// where it is as slow.
func (t *acceptanceTest) compareLines(ctx context.Context) error {
	var rates [2]float64
	for i, s := range t.sides {
		rate, err := t.rateOf(ctx, s.line)
		if err != nil || ctx.Err() != nil {
			return err
		}
		rates[i] = rate.Mean
	}
	if !(rates[0] > rates[1]) {
		return impossible("the good line, %s, has a net rate of %.0f an hour and the bad one, %s, of %.0f: want the good one to deliver more", t.Names[0], rates[0], t.Names[1], rates[1])
	}
	times, _, err := t.faultsFor(ctx, t.sides[0].line, rates[1])
	if t.scale = times; times == 0 {
		t.why = "the good line is never as slow as the bad one, however often its faults come"
	}
	return err
}

// asked returns the net rate for which a line is made; 0 if it is as it is written.
func (t *acceptanceTest) asked(i int) Number {
	if t.Bad != nil {
		return 0
	}
	return Number([...]float64{t.Promised, t.Unacceptable}[i])
}

// rateOf returns the net rate of some shifts of a line.
func (t *acceptanceTest) rateOf(ctx context.Context, l *model.Line) (sim.Estimate, error) {
	s, err := runs.Run(tape.Here(ctx), l, sim.Plan{Seed: t.Plan.Seed, Min: acceptanceSearch, Max: acceptanceSearch, Workers: t.Plan.Workers}, nil)
	if err != nil || len(s.Shifts) == 0 {
		return sim.Estimate{}, err
	}
	return s.NetRates().Interval(Level), nil
}

// How often faults may come on a line that is made to have a net rate, as multiples of how often they
// do; and to within which share of it the rate is met, on the same random events.
const (
	fewestFaults = 1e-3
	mostFaults   = 1e3
	rateMet      = 2e-4
)

// faultsFor returns how many times as often the faults of a line come where it has a net rate; 0 if
// there is no such line, and then the net rate of the fastest one besides.
func (t *acceptanceTest) faultsFor(ctx context.Context, l *model.Line, rate float64) (times, fastest float64, err error) {
	at := func(times float64) (float64, error) {
		made := runs.Faultier(l, times)
		if len(made.Check()) > 0 {
			return 0, nil // more faults than there can be: nothing comes out
		}
		rate, err := t.rateOf(ctx, made)
		return rate.Mean, err
	}
	low, high, err := bracket(rate, at)
	if err != nil || ctx.Err() != nil || low.times == 0 {
		fastest, _ = at(fewestFaults)
		return 0, fastest, err
	}
	for range 60 {
		part := (low.rate - rate) / (low.rate - high.rate) // by a straight line, but not too near an end
		part = min(0.9, max(0.1, part))
		one := faulty{times: low.times * portable.Pow(high.times/low.times, part)}
		if one.rate, err = at(one.times); err != nil || ctx.Err() != nil {
			return 0, 0, err
		}
		if times = one.times; math.Abs(one.rate-rate) <= rateMet*rate {
			break
		}
		if one.rate > rate {
			low = one
		} else {
			high = one
		}
	}
	return times, 0, nil
}

// faulty is a line with faults a number of times as often, and its net rate.
type faulty struct{ times, rate float64 }

// bracket returns two lines, one with twice the faults of the other, between whose net rates there is
// a given one; with none if there are no such lines.
func bracket(rate float64, at func(times float64) (float64, error)) (low, high faulty, err error) {
	one := faulty{times: 1}
	one.rate, err = at(1)
	factor := 2.0
	if one.rate < rate {
		factor = 0.5
	}
	for err == nil && one.times*factor <= mostFaults && one.times*factor >= fewestFaults {
		next := faulty{times: one.times * factor}
		if next.rate, err = at(next.times); err != nil {
			break
		}
		if low, high = one, next; factor < 1 {
			low, high = next, one
		}
		if low.rate >= rate && high.rate <= rate {
			return low, high, nil
		}
		one = next
	}
	return faulty{}, faulty{}, err
}
