package study

import (
	"cmp"
	"context"
	"math"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
	"netrate/sim/portable"
)

// How what wins a target back is looked for.
const (
	leastFactor = 0.1 // that a rate or a time is foreseen to be brought down to, as a share of what it is
	mostHelps   = 3   // that are told
	helpShifts  = 100 // that each is simulated in, on the random events of the line as it is
	helpTries   = 4   // at values that are lower and lower
)

// winBack looks for what would win a target back that the mean of a study does not reach: by what
// does so on paper and, because paper leaves out that crews are busy, is brought down until it does in
// the simulation, too. The line is taken as a basis takes it that the study has. It does nothing
// without a target or a line, where that cannot be as it is taken, or where ctx is done.
func (m *TargetMet) winBack(ctx context.Context, s *runs.Study, on Basis, l *model.Line, workers int) error {
	if m == nil || l == nil || !(m.Short > 0) || ctx.Err() != nil {
		return nil
	}
	unsure := l.UncertainInputs
	if l = on.Line(l); l.Check() != nil {
		return nil
	}
	m.AtMeans = len(l.UncertainInputs) < len(unsure)
	apart, end := context.WithCancel(context.Background()) // what is simulated here is no part of a shard
	defer end()
	defer context.AfterFunc(ctx, end)()
	rates := func(l *model.Line) (sim.Sample, error) {
		x, err := runs.Run(apart, l, sim.Plan{Seed: s.Plan.Seed, Min: helpShifts, Max: helpShifts, Workers: workers}, nil)
		if err = cmp.Or(err, apart.Err()); err != nil {
			return nil, err
		}
		return x.NetRates(), nil
	}
	as, err := rates(l)
	short := float64(m.Short) + simulatedTo(s)
	for _, h := range helpsOnPaper(l, short) {
		if err == nil {
			err = h.simulated(l, short, as, rates)
		}
		if h.Factor > 0 {
			m.WonBack = append(m.WonBack, h)
		}
	}
	if err != nil {
		m.WonBack = nil
		if apart.Err() != nil { // it was not found in time
			return nil
		}
		return err
	}
	slices.SortStableFunc(m.WonBack, func(a, b TargetHelp) int { return cmp.Compare(b.Factor, a.Factor) })
	m.Looked = true
	return nil
}

// simulated brings a rate or a time down until a line that lacks something gains it for sure against
// the net rates that it has as it is. Its factor is 0 if it does not.
func (h *TargetHelp) simulated(l *model.Line, short float64, as sim.Sample, rates func(*model.Line) (sim.Sample, error)) error {
	v, _ := l.Parameter(h.Path)
	for factor, try := float64(h.Factor), 0; try < helpTries && factor >= leastFactor; try++ {
		moved := l.Moved(v, factor)
		then, err := rates(moved)
		if err != nil {
			return err
		}
		gain := output.Paired(as, then, Level).Difference
		if gain.Low() >= short {
			now, _ := moved.Parameter(h.Path)
			h.Factor, h.Then = Number(factor), now.Value
			return nil
		}
		if !(gain.Mean > 0) {
			break
		}
		next := 1 - float64((1-factor)*(short+gain.Half)/gain.Mean)
		factor = roundedDown(v, min(next, 0.98*factor)*v.Size()) / v.Size()
	}
	h.Factor = 0
	return nil
}

// simulatedTo returns half of the interval within which a study knows the mean net rate of its line or,
// of draws of what is uncertain, the mean over these.
func simulatedTo(s *runs.Study) float64 {
	var means sim.Sample
	for shifts := range slices.Chunk(s.NetRates(), max(1, s.Each)) {
		means = append(means, shifts.Mean())
	}
	if len(means) < 2 {
		return 0
	}
	return means.Interval(Level).Half
}

// helpsOnPaper returns the rates and times of a line that by themselves make up for what its net rate
// lacks, on paper, with two digits that are on the safe side: those that must change least.
func helpsOnPaper(l *model.Line, short float64) (all []TargetHelp) {
	want := l.Analytic().NetRate + short
	for _, v := range l.Parameters() {
		at := func(factor float64) float64 { return movedRate(l, v.Path(), factor) }
		if !(at(leastFactor) >= want) { // NaN too
			continue
		}
		low, high := leastFactor, 1.0
		for range 40 {
			if mid := (low + high) / 2; at(mid) >= want {
				low = mid
			} else {
				high = mid
			}
		}
		factor := roundedDown(v, low*v.Size()) / v.Size()
		all = append(all, TargetHelp{Name: parameterName(v), Path: v.Path(), Value: v.Value, Factor: Number(factor)})
	}
	slices.SortStableFunc(all, func(a, b TargetHelp) int { return cmp.Compare(b.Factor, a.Factor) })
	return all[:min(len(all), mostHelps)]
}

// roundedDown returns a rate or a time that is no larger, and has two digits as it is written: the
// probability of a fault as one in so many. It returns 0 of what is not above 0.
func roundedDown(v model.Parameter, x float64) float64 {
	if !(x > 0) {
		return 0
	}
	inverse := v.Probability()
	if inverse {
		x = 1 / x
	}
	step := portable.Pow(10, math.Floor(portable.Log10(x))-1)
	if inverse {
		return 1 / (math.Ceil(x/step-1e-9) * step)
	}
	return math.Floor(x/step+1e-9) * step
}
