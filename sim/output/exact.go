package output

import (
	"fmt"

	"netrate/sim/portable"
)

// ExactInterval returns the exact confidence interval of a probability, after a
// number of successes in independent trials: it holds the true one at least as often as level
// says, however rare or common it is. The lower end is 0 where nothing succeeded, the upper
// end 1 where everything did.
//
// It panics unless 0 ≤ successes ≤ trials, trials ≥ 1 and level is in (0, 1).
//
// Source: Clopper and Pearson, Biometrika 26 (1934) 404–413, in its form by quantiles of
// the beta distribution (citation from memory).
func ExactInterval(successes, trials int64, level float64) (low, high float64) {
	if !(successes >= 0 && successes <= trials && trials >= 1 && level > 0 && level < 1) {
		panic(fmt.Sprintf("output: the exact interval of %d in %d at level %v", successes, trials, level))
	}
	tail := float64((1 - level) / 2)
	k, n := float64(successes), float64(trials)
	low, high = 0, 1
	if successes > 0 {
		low = portable.BetaQuantile(k, n-k+1, tail)
	}
	if successes < trials {
		high = portable.BetaQuantile(k+1, n-k, 1-tail)
	}
	return low, high
}
