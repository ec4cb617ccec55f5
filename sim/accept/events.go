package accept

import (
	"fmt"

	"netrate/sim/portable"
)

// EventPlan is a test of fixed length: a line passes if at most Allowed events come.
type EventPlan struct {
	Length     float64 // in the unit that rates are per
	Allowed    int64
	Dispersion float64 // variance of the count over its mean: more than 1 where several events come at a time; 0 is 1, one by one
}

// Events returns the shortest plan for events that come one by one at a constant rate (a Poisson
// process), good or bad, events per unit of length. Of all lengths that hold both risks with the
// number it allows, it has the shortest. It panics unless 0 < good < bad, on risks that cannot be,
// and where more than a million events would have to be allowed.
//
// Source: the fixed-length plans of MIL-HDBK-781A are of this kind (from memory); the sums are
// those of the Poisson distribution, by quantiles of the gamma distribution.
func Events(good, bad float64, r Risks) EventPlan {
	levels(good, bad, r)
	holds := func(allowed int64) bool {
		k := float64(allowed + 1)
		return portable.GammaQuantile(k, 1-r.Buyer)/bad <= portable.GammaQuantile(k, r.Seller)/good
	}
	allowed := least(mostAllowed, holds)
	return EventPlan{Length: EventLength(allowed, bad, r.Buyer), Allowed: allowed}
}

// mostAllowed is the largest number of events that a plan may allow.
const mostAllowed = 1_000_000

// EventLength returns the length at which a line with the bad rate passes with the probability
// risk, if that many events are allowed.
func EventLength(allowed int64, bad, risk float64) float64 {
	return portable.GammaQuantile(float64(allowed+1), 1-risk) / bad
}

// EventsAllowed returns the smallest number to be allowed in a length so that a line with the good
// rate, whose events have a dispersion, fails at most with the probability risk. It panics where that
// is more than 2⁵⁰.
func EventsAllowed(length, dispersion, good, risk float64) int64 {
	return least(1<<50, func(allowed int64) bool {
		return 1-EventPlan{length, allowed, dispersion}.Passes(good) <= risk
	})
}

// Passes returns the probability that a line with a rate passes: the operating characteristic. For
// events that come one by one it is exact. Where several come at a time (a compound Poisson process)
// the count over its dispersion is taken to have the Poisson distribution, the step of a whole number
// in the middle of it: that has the mean and the variance of the count.
func (p EventPlan) Passes(rate float64) float64 {
	d := max(1, p.Dispersion)
	return portable.GammaAbove((float64(p.Allowed)+float64((1+d)/2))/d, float64(rate*p.Length)/d)
}

// Risks returns the true risks at the two rates.
func (p EventPlan) Risks(good, bad float64) Risks {
	return Risks{1 - p.Passes(good), p.Passes(bad)}
}

// least returns the least number from 0 that does, if all beyond one that does do so too, or
// nearly: it looks one by one below the first power of two that does.
func least(most int64, does func(int64) bool) int64 {
	if does(0) {
		return 0
	}
	high := int64(1)
	for !does(high) {
		if high >= most {
			panic(fmt.Sprintf("accept: more than %d would have to be allowed: the two levels are too near each other", most))
		}
		high *= 2
	}
	low := high / 2 // does not
	for high-low > 1 {
		if middle := (low + high) / 2; does(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high
}
