package study

import (
	"cmp"
	"slices"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim/output"
)

// TargetMet is how often replications reach a net rate that is asked of them.
type TargetMet struct {
	Rate  Number `json:"net_rate_per_h"`
	Share Number `json:"share"` // of the replications that reach it
	Low   Number `json:"low"`   // interval of the share: exact or, of draws, of the long run if that is wider
	High  Number `json:"high"`
	Level Number `json:"level"`
	Short Number `json:"short_per_h"` // what the mean net rate lacks; 0 if it lacks nothing

	WonBack []TargetHelp `json:"won_back,omitempty"` // by any one of these, on paper; those that must change least first
}

// TargetHelp is a rate or a time that would lift the mean net rate to the target if it were lower,
// all else as it is, on paper.
type TargetHelp struct {
	Name   string `json:"name"`
	Path   string `json:"path"`
	Value  string `json:"value"`  // as it is
	Factor Number `json:"factor"` // times that it must be
	Then   string `json:"then"`   // what it is then
}

// metBy returns how often a study reaches a target, and what would win it back; nil without one.
func metBy(s *runs.Study, target float64, line *model.Line) *TargetMet {
	if !(target > 0) || len(s.Shifts) == 0 {
		return nil
	}
	p := reachedBy(s, target)
	short := max(0, target-s.NetRates().Mean())
	m := &TargetMet{Rate: Number(target), Share: p.Share, Low: p.Low, High: p.High, Level: p.Level, Short: Number(short)}
	if short > 0 && line != nil {
		m.WonBack = wonBack(line, short)
	}
	return m
}

// reachedBy returns in which share of the replications of a study, one at least, a net rate is
// reached, with the exact interval. The replications of one draw of what is uncertain are not
// independent: of draws the interval is that of the share in the long run, where it is wider.
func reachedBy(s *runs.Study, target float64) Proportion {
	met := int64(0)
	hits := s.Sample(func(x *runs.Shift) float64 {
		if x.NetRate >= target {
			met++
			return 1
		}
		return 0
	})
	low, high := output.ExactInterval(met, int64(len(hits)), Level)
	if from, to, drawn := s.LongRun(hits, Level); drawn {
		low, high = min(low, from), max(high, to)
	}
	return Proportion{Number(float64(met) / float64(len(hits))), Number(low), Number(high), Level}
}

// The least that a rate or a time is foreseen to be brought down to, as a share of what it is, and
// how many of them are told.
const (
	leastFactor = 0.1
	mostHelps   = 3
)

// wonBack returns the rates and times of a line that by themselves make up for what its net rate
// lacks, on paper.
func wonBack(l *model.Line, short float64) (all []TargetHelp) {
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
		then, _ := l.Moved(v, low).Parameter(v.Path())
		all = append(all, TargetHelp{Name: parameterName(v), Path: v.Path(), Value: v.Value, Factor: Number(low), Then: then.Value})
	}
	slices.SortStableFunc(all, func(a, b TargetHelp) int { return cmp.Compare(b.Factor, a.Factor) })
	return all[:min(len(all), mostHelps)]
}

// parameterName returns a rate or a time in the words of the trade, with its station.
func parameterName(v model.Parameter) string {
	if v.Station == "" {
		return sensitivityWord(v)
	}
	return v.Station + ", " + sensitivityWord(v)
}
