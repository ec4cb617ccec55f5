package study

import (
	"slices"
	"sort"

	"netrate/model/runs"
	"netrate/sim"
)

// StoodIn returns for how many seconds the line stood in each period of a record, for 1,000
// sets, in rising order.
func (a *ReplayAnswer) StoodIn(r runs.Replica) []float64 {
	var stood []float64
	for i, p := range a.Periods {
		stood = append(stood, 1000*float64(r.Periods[i].Seconds)/float64(p.Sets))
	}
	slices.Sort(stood)
	return stood
}

// ReplayStep is a step of a band: from a value on, up to the next step, the middle of the
// simulated records has shares of its periods between Low and High at or below it.
type ReplayStep struct{ From, Low, High float64 }

// replaySteps are enough for a band that looks smooth.
const replaySteps = 200

// Band returns between which shares the middle of the simulated records has its periods at or
// below each value of [ReplayAnswer.StoodIn].
func (a *ReplayAnswer) Band() (steps []ReplayStep) {
	log := a.StoodIn(a.Logged)
	var replicas [][]float64
	var all sim.Sample
	for _, r := range a.Drawn {
		stood := a.StoodIn(r)
		replicas, all = append(replicas, stood), append(all, stood...)
	}
	low, high := min(log[0], all.Quantile(0.001)), max(log[len(log)-1], all.Quantile(0.999))
	for k := range replaySteps + 1 {
		at := low + (high-low)*float64(k)/replaySteps
		var shares sim.Sample
		for _, stood := range replicas {
			below := sort.Search(len(stood), func(i int) bool { return stood[i] > at })
			shares = append(shares, float64(below)/float64(len(stood)))
		}
		least, most := ReplayMiddle(shares)
		if n := len(steps); n > 0 && steps[n-1].Low == least && steps[n-1].High == most {
			continue
		}
		steps = append(steps, ReplayStep{at, least, most})
	}
	return steps
}
