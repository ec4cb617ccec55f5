package accept

import "netrate/sim/portable"

// TimePlan is a test of a number of times: a line passes if their mean is at most Limit.
type TimePlan struct {
	Number int64
	Limit  float64 // in the unit of the means
	CV     float64 // coefficient of variation of a single time, which the plan supposes
}

// Times returns the plan with the fewest times for a mean time, good or bad, where a single time
// has the coefficient of variation cv. It panics unless 0 < good < bad and cv > 0, and on risks that
// cannot be.
//
// The sum is taken to have a gamma distribution, which has its mean and its variance. For gamma
// times that is exact; for lognormal ones it is near from some twenty times on.
func Times(good, bad, cv float64, r Risks) TimePlan {
	levels(good, bad, r)
	if !(cv > 0) {
		panic("accept: times that do not vary")
	}
	n := max(1, least(1<<40, func(n int64) bool {
		return n > 0 && timePlan(n, good, cv, r.Seller).Passes(bad) <= r.Buyer
	}))
	return timePlan(n, good, cv, r.Seller)
}

// timePlan returns the plan with n times that has the seller’s risk.
func timePlan(n int64, good, cv, seller float64) TimePlan {
	shape := float64(n) / float64(cv*cv)
	return TimePlan{n, good * portable.GammaQuantile(shape, 1-seller) / shape, cv}
}

// Passes returns the probability that a line with a mean time passes.
func (p TimePlan) Passes(mean float64) float64 {
	shape := float64(p.Number) / float64(p.CV*p.CV)
	return portable.GammaBelow(shape, shape*p.Limit/mean)
}

// Risks returns the risks at the two means.
func (p TimePlan) Risks(good, bad float64) Risks {
	return Risks{1 - p.Passes(good), p.Passes(bad)}
}

// TimesIn returns the plan with a number of times that has the seller’s risk; the buyer’s is what
// comes of it.
func TimesIn(n int64, good, cv, seller float64) TimePlan {
	return timePlan(max(1, n), good, cv, seller)
}
