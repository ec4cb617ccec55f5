package study

import (
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

	// By any one of these, with the interval of the mean and rounding allowed for; those that must
	// change least first. It is looked for once all is simulated, of a line at one kind of work.
	WonBack []TargetHelp `json:"won_back,omitempty"`
	Looked  bool         `json:"won_back_looked_for"`
	AtMeans bool         `json:"won_back_at_means,omitempty"` // each uncertain input is at its mean in that, but for the one that is lower
}

// TargetHelp is a rate or a time that lifts the mean net rate to the target if it is lower, all else as
// it is.
type TargetHelp struct {
	Name   string `json:"name"`
	Path   string `json:"path"`
	Value  string `json:"value"`  // as it is
	Factor Number `json:"factor"` // times that it must be
	Then   string `json:"then"`   // what it is then
}

// metBy returns how often a study reaches a target; nil without one.
func metBy(s *runs.Study, target float64) *TargetMet {
	if !(target > 0) || len(s.Shifts) == 0 {
		return nil
	}
	p := reachedBy(s, target)
	short := max(0, target-s.NetRates().Mean())
	return &TargetMet{Rate: Number(target), Share: p.Share, Low: p.Low, High: p.High, Level: p.Level, Short: Number(short)}
}

// reachedBy returns in which share of the replications of a study, one at least, a net rate is
// reached, with the exact interval. The replications of one draw of what is uncertain are not
// independent: of draws the interval is that of the share in the long run, where it is wider.
func reachedBy(s *runs.Study, target float64) Proportion { return reachedWithin(s, target, Level) }

// reachedWithin returns the same with an interval of another level.
func reachedWithin(s *runs.Study, target, level float64) Proportion {
	met := int64(0)
	hits := s.Sample(func(x *runs.Shift) float64 {
		if x.NetRate >= target {
			met++
			return 1
		}
		return 0
	})
	low, high := output.ExactInterval(met, int64(len(hits)), level)
	if from, to, drawn := s.LongRun(hits, level); drawn {
		low, high = min(low, from), max(high, to)
	}
	return Proportion{Number(float64(met) / float64(len(hits))), Number(low), Number(high), Number(level)}
}

// parameterName returns a rate or a time in the words of the trade, with its station.
func parameterName(v model.Parameter) string {
	if v.Station == "" {
		return sensitivityWord(v)
	}
	return v.Station + ", " + sensitivityWord(v)
}
