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
	return VaryingInterval(successes, trials, 0, level)
}

// VaryingInterval returns the same of a probability that is one of many: the trials were made at
// all of them, and their true values have the coefficient of variation cv. With a cv of 0 it is
// the exact one; each of its two beta distributions is widened by the variance that the true
// values have, so that with many successes the interval is that of the true values alone, as if
// they were beta too.
//
// It panics where ExactInterval does, and unless cv is 0 or more.
//
// Source: in the manner of the effective numbers of Korn and Graubard, Survey Methodology 24
// (1998) 193–201 (from memory).
func VaryingInterval(successes, trials int64, cv, level float64) (low, high float64) {
	if !(successes >= 0 && successes <= trials && trials >= 1 && cv >= 0 && level > 0 && level < 1) {
		panic(fmt.Sprintf("output: the interval of %d in %d, which vary by %v, at level %v", successes, trials, cv, level))
	}
	tail := float64((1 - level) / 2)
	k, n := float64(successes), float64(trials)
	low, high = 0, 1
	if successes > 0 {
		low = widened(k, n-k+1, cv, tail)
	}
	if successes < trials {
		high = widened(k+1, n-k, cv, 1-tail)
	}
	return low, high
}

// leastKnown is the least that the two parameters of a beta distribution come to: that is next to
// either 0 or 1.
const leastKnown = 0.02

// widened returns the quantile of a beta distribution that has the mean of that of a and b, and
// its variance with that of a cv added.
func widened(a, b, cv, p float64) float64 {
	if cv == 0 {
		return portable.BetaQuantile(a, b, p)
	}
	sum := a + b
	mean, rest := a/sum, b/sum
	variance := mean*rest/(sum+1) + float64(mean*mean*cv*cv)
	sum = max(leastKnown, float64(mean*rest/variance)-1)
	return portable.BetaQuantile(mean*sum, rest*sum, p)
}
