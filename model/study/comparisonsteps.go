package study

import (
	"cmp"
	"math"
	"slices"

	"netrate/model/runs"
)

// ComparisonStep is how one loss differs between two lines, in good envelopes an hour.
type ComparisonStep struct {
	Name   string  `json:"name"`
	From   float64 `json:"from_per_h"` // lost; of the first step, the speed the line runs at
	To     float64 `json:"to_per_h"`   // the same of the other
	Change float64 `json:"gain_per_h"` // what the other gains by it
}

// MarshalJSON returns the step with the digits of all figures.
func (s ComparisonStep) MarshalJSON() ([]byte, error) {
	return unescaped(struct {
		Name string `json:"name"`
		From Number `json:"from_per_h"`
		To   Number `json:"to_per_h"`
		Gain Number `json:"gain_per_h"`
	}{s.Name, Number(s.From), Number(s.To), Number(s.Change)})
}

// The first step: what is above it was never asked for. Of several jobs it is the mean over the
// time that each has, which differs from line to line.
const (
	OwnSpeed  = "speed the line runs at"
	MeanSpeed = "speed, averaged over the jobs' time"
)

// Explain makes the steps say why one line delivers more or less than another: the changes add up
// to the difference of their net rates.
func (a *ComparisonAnswer) Explain(from, to int) {
	a.From, a.To = from, to
	a.Steps = a.steps()
}

func (a *ComparisonAnswer) steps() []ComparisonStep {
	rival, best := &a.Lines[a.From], &a.Lines[a.To]
	from, lossesRival := runLosses(rival.Study)
	to, lossesBest := runLosses(best.Study)
	speed := OwnSpeed
	if a.Lines[0].Mix != nil {
		speed = MeanSpeed
	}
	all := []ComparisonStep{{speed, from, to, to - from}}
	for _, name := range LossNames(lossesRival, lossesBest) {
		x, y := LossOf(lossesRival, name), LossOf(lossesBest, name)
		all = append(all, ComparisonStep{name, x, y, x - y})
	}
	if a.Lines[0].Of.Job() {
		// A job's losses are those of all its hours together, its net rate the mean of jobs.
		x, y := unequal(rival.Study), unequal(best.Study)
		all = append(all, ComparisonStep{"jobs of unequal length", x, y, x - y})
	}
	return all
}

// scenes gives the two that are set against each other theirs.
func (a *ComparisonAnswer) scenes() (err error) {
	for _, i := range []int{a.From, a.To} {
		if x := &a.Lines[i]; x.Of.Group == nil {
			if x.Scenes, err = ScenesOf(x.Study); err != nil {
				return err
			}
		}
	}
	return nil
}

// Ranked returns the steps by the size of what they change, the largest first.
func (a *ComparisonAnswer) Ranked() []ComparisonStep {
	return slices.SortedStableFunc(slices.Values(a.Steps), func(x, y ComparisonStep) int {
		return cmp.Compare(math.Abs(y.Change), math.Abs(x.Change))
	})
}

// unequal returns by how much the mean net rate of jobs is below that of all their hours
// together.
func unequal(s *runs.Study) float64 {
	_, _, net := s.Losses()
	return net - s.NetRates().Mean()
}

// LossNames returns what any of several lines loses, in order. They differ only in what a
// line has not got, such as documents to wait for.
func LossNames(several ...[]runs.Loss) []string {
	var names []string
	longest := slices.MaxFunc(several, func(a, b []runs.Loss) int { return cmp.Compare(len(a), len(b)) })
	for _, losses := range append([][]runs.Loss{longest}, several...) {
		for _, l := range losses {
			if !slices.Contains(names, l.Name) {
				names = append(names, l.Name)
			}
		}
	}
	return names
}

// LossOf returns how much a line loses in one step, 0 if it has no such step.
func LossOf(losses []runs.Loss, name string) float64 {
	for _, l := range losses {
		if l.Name == name {
			return l.PerHour
		}
	}
	return 0
}

// runLosses returns the losses from the speed the line runs at.
func runLosses(s *runs.Study) (speed float64, losses []runs.Loss) {
	rated, losses, _ := s.Losses()
	if len(losses) == 0 {
		return rated, nil
	}
	return rated - losses[0].PerHour, losses[1:]
}
