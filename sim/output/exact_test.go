package output

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestExactInterval(t *testing.T) {
	for _, c := range []struct {
		name              string
		successes, trials int64
		level             float64
		low, high         float64
		source            string
	}{
		{"81 of 263", 81, 263, 0.95, 0.252737, 0.367622, "Newcombe, Stat. Med. 17 (1998) 857–872, Table I: .2527 .3676"},
		{"15 of 148", 15, 148, 0.95, 0.057844, 0.161650, "the same: .0578 .1617"},
		{"none of 20", 0, 20, 0.95, 0, 0.168433, "the same: 0 .1684"},
		{"1 of 29", 1, 29, 0.95, 0.000873, 0.177644, "the same: .0009 .1776"},
		{"682 of 925", 682, 925, 0.95, 0.707668264, 0.765406558, "R 4.2.2, binom.test, the example of its manual (Conover)"},
		{"4 of 20 at 90 %", 4, 20, 0.90, 0.071353884, 0.401028117, "NIST/SEMATECH e-Handbook 7.2.4.1 (from memory): .071354; the digits computed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			low, high := ExactInterval(c.successes, c.trials, c.level)
			assert.InDelta(t, c.low, low, 1e-6, c.source)
			assert.InDelta(t, c.high, high, 1e-6, c.source)
		})
	}
}

// Rare events: where the trials are many, the interval is that of Poisson counts over their
// number. Source: Garwood's exact intervals, computed, equal to R.
func TestExactIntervalOfRareEvents(t *testing.T) {
	for _, c := range []struct {
		seen      int64
		low, high float64
	}{
		{0, 0, 3.6889},
		{1, 0.0253, 5.5716},
		{2, 0.2422, 7.2247},
		{3, 0.6187, 8.7673},
		{5, 1.6235, 11.6683},
		{10, 4.7954, 18.3904},
	} {
		const trials = 1_000_000_000
		low, high := ExactInterval(c.seen, trials, 0.95)
		assert.InDelta(t, c.low, low*trials, 5e-5, "lower end for %d seen", c.seen)
		assert.InDelta(t, c.high, high*trials, 5e-5, "upper end for %d seen", c.seen)
	}
}

// The interval is turned about when successes are called failures, and it must cover the
// true probability at least as often as it says. The second is summed over all that can
// come of 40 trials: computed from the definition, no draws.
func TestExactIntervalCovers(t *testing.T) {
	const trials, level = 40, 0.95
	for _, p := range []float64{0.001, 0.02, 0.1, 0.37, 0.5, 0.93} {
		covered, wald := 0.0, 0.0
		chance := math.Pow(1-p, trials)
		for k := range int64(trials + 1) {
			low, high := ExactInterval(k, trials, level)
			mirrorLow, mirrorHigh := ExactInterval(trials-k, trials, level)
			assert.InDelta(t, 1-low, mirrorHigh, 1e-9)
			assert.InDelta(t, 1-high, mirrorLow, 1e-9)
			if low <= p && p <= high {
				covered += chance
			}
			share := float64(k) / trials
			if math.Abs(share-p) <= 1.959964*math.Sqrt(share*(1-share)/trials) {
				wald += chance
			}
			chance *= float64(trials-k) / float64(k+1) * p / (1 - p)
		}
		assert.GreaterOrEqual(t, covered, level, "at %v", p)
		assert.Less(t, wald, level, "at %v the interval by the normal distribution passes as well: this test cannot fail", p)
	}
}

// Source: the rule of three, exact: 1 − 0.05^(1/n), computed.
func TestNoneSeen(t *testing.T) {
	for n, want := range map[int64]float64{14: 0.192636, 30: 0.095034, 100: 0.029513, 1000: 0.002991, 3000: 0.000998} {
		_, high := ExactInterval(0, n, 0.90)
		assert.InDelta(t, want, high, 1e-6, "none in %d", n)
	}
	_, high := ExactInterval(0, 1e6, 0.90)
	assert.InDelta(t, 2.995728, 1e6*high, 1e-5)
}

// Source: sums of binomial probabilities to 50 digits by mpmath 1.3.0, solved for the probability;
// of none, 1 − 0.05^(1/n).
func TestExactIntervalOfMany(t *testing.T) {
	for _, c := range []struct {
		successes, trials int64
		low, high         float64
	}{
		{0, 1e9, 0, 2.99573226906679e-9},
		{0, 1e12, 0, 2.9957322735495e-12},
		{1, 1e12, 5.12932943875492e-14, 4.7438645183817e-12},
		{10, 1e9, 5.4254057067881e-9, 1.69622191766746e-8},
		{10, 1e12, 5.42540569710099e-12, 1.69622192356629e-11},
		{1000, 1e12, 9.48559849407574e-10, 1.05360312210506e-9},
	} {
		low, high := ExactInterval(c.successes, c.trials, 0.9)
		if c.low > 0 {
			assert.InEpsilon(t, c.low, low, 2e-5, "%d of %d", c.successes, c.trials)
		}
		assert.InEpsilon(t, c.high, high, 2e-5, "%d of %d", c.successes, c.trials)
	}
}

// Half of a million million: the normal distribution, 1.644854 standard deviations of half a
// millionth, and half a trial on each side.
func TestExactIntervalOfHalf(t *testing.T) {
	low, high := ExactInterval(5e11, 1e12, 0.9)
	assert.InEpsilon(t, 8.22427e-7, high-0.5, 1e-4)
	assert.InEpsilon(t, 8.22427e-7, 0.5-low, 1e-4)
}

func TestExactIntervalRefuses(t *testing.T) {
	assert.Panics(t, func() { ExactInterval(-1, 10, 0.95) })
	assert.Panics(t, func() { ExactInterval(11, 10, 0.95) })
	assert.Panics(t, func() { ExactInterval(0, 0, 0.95) })
	assert.Panics(t, func() { ExactInterval(1, 10, math.NaN()) })
}

// With very many successes the interval is that of the true values: of a cv of 1/√5 and rare ones a
// gamma of shape 5, whose quantiles are those of χ² with 10 degrees of freedom over 10. With none it
// is wider than without a spread: of a cv of 1 that of half an event, a χ² with one degree. Source:
// tables of χ² in any textbook (from memory): 3.247 and 20.483; 5.024.
func TestVaryingInterval(t *testing.T) {
	low, high := VaryingInterval(1e8, 1e12, 1/math.Sqrt(5), 0.95)
	assert.InEpsilon(t, 0.3247e-4, low, 1e-3)
	assert.InEpsilon(t, 2.0483e-4, high, 1e-3)
	_, high = VaryingInterval(0, 1e12, 1, 0.95)
	assert.InEpsilon(t, 5.024e-12, high, 1e-3)

	low, high = VaryingInterval(7, 100, 0, 0.95)
	exactLow, exactHigh := ExactInterval(7, 100, 0.95)
	assert.Equal(t, [2]float64{exactLow, exactHigh}, [2]float64{low, high})
	low, high = VaryingInterval(50, 100, 100, 0.95) // beyond what a share can vary by
	assert.Less(t, low, 0.001)
	assert.Greater(t, high, 0.999)
	assert.Panics(t, func() { VaryingInterval(1, 2, math.NaN(), 0.95) })
}
