package study

import (
	"netrate/sim"
	"netrate/sim/output"
)

// PairsMethod is how alternatives are compared with each other.
const PairsMethod = "paired t, Bonferroni over all pairs"

// Pairwise compares each of some samples with each: the element i, k sets k against i, with
// intervals that are right all at once with [Level]. Samples are as long as each other.
func Pairwise(samples []sim.Sample) [][]output.Comparison {
	all := make([][]output.Comparison, len(samples))
	for i := range all {
		all[i] = make([]output.Comparison, len(samples))
	}
	if len(samples) < 2 {
		return all
	}
	pairs := output.AllPairs(len(samples))
	for n, there := range output.Pairwise(samples, pairs, Level) {
		i, k := pairs[n][0], pairs[n][1]
		back := there
		back.Difference.Mean, back.Wins = -there.Difference.Mean, 1-there.Wins
		all[i][k], all[k][i] = there, back
	}
	return all
}
