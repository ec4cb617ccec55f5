package fit

import (
	"cmp"
	"fmt"
	"slices"

	"netrate/sim"
	"netrate/sim/portable"
)

// Ranks is the test of Kruskal and Wallis of whether groups of values have one distribution.
type Ranks struct {
	H         float64 // how far the mean ranks of the groups lie apart, corrected for ties
	DF        int     // groups less one
	P         float64 // how often they lie so far apart by chance alone
	Simulated bool    // P from 9999 deals of the ranks, as some groups are small
}

// fewRanks is how many values a group must have for the chi-square distribution to be trusted,
// amply: Kruskal and Wallis say more than five.
const fewRanks = 20

// DifferInRank tests whether groups of values have one distribution, by their ranks among all.
// Where a group has fewer than 20 values P is found by dealing out the ranks at random, under the
// seed; it is then exact but for the number of deals. It wants two groups or more, none of
// them empty.
//
// Source: Kruskal and Wallis, J. Amer. Statist. Assoc. 47 (1952) 583–621.
func DifferInRank(groups [][]float64, seed uint64) (Ranks, error) {
	if len(groups) < 2 {
		return Ranks{}, fmt.Errorf("there are %d groups, want at least 2", len(groups))
	}
	sizes, smallest := make([]int, len(groups)), len(groups[0])
	for i, g := range groups {
		if sizes[i] = len(g); len(g) == 0 {
			return Ranks{}, fmt.Errorf("group %d has no values", i+1)
		}
		smallest = min(smallest, len(g))
	}
	all, untied := ranked(groups)
	d := Ranks{DF: len(groups) - 1}
	if untied == 0 {
		d.P = 1 // all values are the same
		return d, nil
	}
	d.H = meanRanks(all, sizes) / untied
	if d.Simulated = smallest < fewRanks; !d.Simulated {
		d.P = portable.GammaAbove(float64(d.DF)/2, d.H/2)
		return d, nil
	}
	stream, far := sim.NewStream("fit", "ranks"), tail{observed: d.H}
	stream.Seed(seed, 0)
	for range draws {
		for i := len(all) - 1; i > 0; i-- {
			k := int(stream.Uniform() * float64(i+1))
			all[i], all[k] = all[k], all[i]
		}
		far.add(meanRanks(all, sizes) / untied)
	}
	d.P = far.upper()
	return d, nil
}

// ranked returns the ranks of all values, those of each group after those of the one before, equal
// values sharing theirs; and the correction for ties: 1 without any, 0 if all are equal.
func ranked(groups [][]float64) (ranks []float64, untied float64) {
	all := slices.Concat(groups...)
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(all[a], all[b]) })
	ranks, tied := make([]float64, len(all)), 0.0
	for i := 0; i < len(order); {
		end := i + 1
		for end < len(order) && all[order[end]] == all[order[i]] {
			end++
		}
		for _, k := range order[i:end] {
			ranks[k] = float64(i+1+end) / 2
		}
		t := float64(end - i)
		tied += float64(t*t*t) - t
		i = end
	}
	n := float64(len(all))
	return ranks, 1 - tied/(float64(n*n*n)-n)
}

// meanRanks returns Kruskal's and Wallis's H of ranks that stand group after group, not corrected
// for ties.
func meanRanks(ranks []float64, sizes []int) float64 {
	n, sum, from := float64(len(ranks)), 0.0, 0
	for _, size := range sizes {
		total := 0.0
		for _, r := range ranks[from : from+size] {
			total += r
		}
		sum += total * total / float64(size)
		from += size
	}
	return float64(12/(n*(n+1))*sum) - float64(3*(n+1))
}
