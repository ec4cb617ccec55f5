package sim

import (
	"fmt"
	"math"

	"netrate/sim/portable"
)

// Binomial returns how many of n trials succeed, each with probability p. It
// panics unless p is in [0, 1] and n is not negative.
//
// Source: up to a mean of ten by adding up probabilities, beyond by the transformed rejection
// of Hörmann, The generation of binomial random variates, Journal of Statistical Computation
// and Simulation 46 (1993) 101–110, algorithm BTRS (from memory). Both are exact.
func (s *Stream) Binomial(n int64, p float64) int64 {
	switch {
	case !(p >= 0 && p <= 1) || n < 0:
		panic(fmt.Sprintf("sim: binomial of %d trials with probability %v", n, p))
	case n == 0 || p == 0:
		return 0
	case n == 1:
		if s.Chance(p) {
			return 1
		}
		return 0
	case p > 0.5:
		return n - s.Binomial(n, 1-p)
	case float64(n)*p < 10:
		return s.fewOf(n, p)
	}
	return s.manyOf(n, p)
}

// fewOf goes up the probabilities until they come to a uniform number. The probability of none
// is at least 10⁻⁶; what lies above 200 has none that a number could tell from 0.
func (s *Stream) fewOf(n int64, p float64) int64 {
	none := portable.Exp(float64(n) * portable.Log1p(-p))
	odds := p / (1 - p)
	for {
		u, share := s.Uniform(), none
		for k := int64(0); k <= min(n, 200); k++ {
			if u < share {
				return k
			}
			u -= share
			share = float64(share * odds * float64(n-k) / float64(k+1))
		}
	}
}

// manyOf draws under a hat, most of which needs no look at a probability.
func (s *Stream) manyOf(n int64, p float64) int64 {
	trials := float64(n)
	sd := math.Sqrt(trials * p * (1 - p))
	b := 1.15 + float64(2.53*sd)
	a := -0.0873 + float64(0.0248*b) + float64(0.01*p)
	center := float64(trials*p) + 0.5
	alpha := (2.83 + 5.1/b) * sd
	quick := 0.92 - 4.2/b
	for {
		u, v := s.Uniform()-0.5, s.Uniform()
		us := 0.5 - math.Abs(u)
		k := math.Floor(float64((2*a/us+b)*u) + center)
		if us >= 0.07 && v <= quick {
			return int64(k)
		}
		if !(k >= 0 && k <= trials) {
			continue
		}
		mode := math.Floor((trials + 1) * p)
		height := v * alpha / (a/(us*us) + b)
		if portable.Log(height) <= logChance(trials, p, k)-logChance(trials, p, mode) {
			return int64(k)
		}
	}
}

// logChance returns the logarithm of the probability of k in n trials.
func logChance(n, p, k float64) float64 {
	ways := portable.Lgamma(n+1) - portable.Lgamma(k+1) - portable.Lgamma(n-k+1)
	return ways + float64(k*portable.Log(p)) + float64((n-k)*portable.Log1p(-p))
}
