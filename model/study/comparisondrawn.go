package study

import (
	"cmp"
	"math"
	"slices"

	"netrate/model/runs"
	"netrate/sim"
	"netrate/sim/output"
)

// drawnMethod is how alternatives are compared with each other where draws lead.
const drawnMethod = "interval of the long run over the draws of the uncertain inputs, of each pair by itself"

// compareDrawn compares draws of what is uncertain: each with each, in the long run, and how
// probable it is that each is best of all.
func (a *ComparisonAnswer) compareDrawn(samples []sim.Sample) {
	a.Pairs = &ComparisonPairs{Method: drawnMethod, Level: Level}
	a.Compared = make([][]output.Comparison, len(a.Lines))
	for i := range a.Lines {
		a.Compared[i] = make([]output.Comparison, len(a.Lines))
		for k := range a.Lines {
			if i != k {
				a.Compared[i][k] = comparedDrawn(a.Lines[i].Draws, a.Lines[k].Draws)
			}
		}
	}
	a.pairs()
	u := &ComparisonUncertainty{Rival: UncertaintyOver(a.Lines[a.Rival].Draws, a.Lines[a.Leader].Draws)}
	best := output.BestOf(samples, a.Lines[0].Draws.Each)
	for i, x := range a.Lines {
		one := ComparisonUncertain{Name: x.Name, NetRate: uncertaintyIn(x.Draws, x.Draws.Of(netRate)), Best: Number(best[i])}
		if i > 0 {
			ahead := UncertaintyOver(a.Lines[0].Draws, x.Draws)
			one.Ahead, one.Sure = ahead.Uncertainty, new(Number(ahead.Sure))
		}
		u.Lines = append(u.Lines, one)
	}
	a.Uncertainty = u
	a.Best.Probability = new(Number(best[a.Leader]))
	a.Best.Shown = best[a.Leader] >= Level
	a.candidates(likeliest(best))
}

// comparedDrawn sets k against i in the same draws. That they have the same random events has no
// part in the interval, which is of what is not known.
func comparedDrawn(i, k *runs.UncertaintyStudy) output.Comparison {
	ahead := i.Ahead(k, netRate)
	low, high := ahead.Interval(Level)
	c := output.Comparison{Narrowing: math.Inf(1), VarianceRatio: math.Inf(1)}
	c.Difference = sim.Estimate{Mean: ahead.All.Mean(), Half: (high - low) / 2, Level: Level, N: len(ahead.All)}
	for _, x := range ahead.All {
		switch {
		case x > 0:
			c.Wins++
		case x == 0:
			c.Wins += 0.5
		}
	}
	c.Wins /= float64(len(ahead.All))
	return c
}

// likeliest returns the fewest alternatives of which one is the best with the probability Level, in
// their order.
func likeliest(best []float64) []int {
	order := make([]int, len(best))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, k int) int { return cmp.Compare(best[k], best[i]) })
	sum, n := 0.0, 0
	for sum < Level-1e-12 && n < len(order) {
		sum += best[order[n]]
		n++
	}
	slices.Sort(order[:n])
	return order[:n]
}
