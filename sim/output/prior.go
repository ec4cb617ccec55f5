package output

import (
	"fmt"
	"math"

	"netrate/sim/portable"
)

// Prior is what is known of a number that nobody knows for certain: how likely each value
// is that it may have.
type Prior interface {
	// Quantile returns the value below which the number lies with the probability p, from 0
	// to 1. It never falls as p rises.
	Quantile(p float64) float64
	// Expected returns the mean of the distribution.
	Expected() float64
	// Nominal returns what the number is taken to be where no uncertainty is asked for.
	Nominal() float64
	// FromData reports whether it comes of observations, so that more of them would narrow it.
	FromData() bool
	// Check returns why it cannot be a prior.
	Check() error
}

// Counted is the prior in a probability after a number of trials, some of which were seen to
// bring it about: a beta distribution that is as likely to be too high as too low, with its
// median at the share seen. A line has many such numbers, and what leans to one side in each
// would lean much in all of them together.
//
// Source: the neutral prior of Kerman, Electronic Journal of Statistics 5 (2011) 1450–1470
// (from memory).
type Counted struct {
	Seen, Of int64
	Made     int64 // the trials that were made, where they tell no more than Of independent ones, as of faults in bursts; 0 for Of
}

// Quantile is that of the beta distribution with Seen + ⅓ and Of − Seen + ⅓.
func (c Counted) Quantile(p float64) float64 {
	return portable.BetaQuantile(float64(c.Seen)+neutral, float64(c.Of-c.Seen)+neutral, p)
}

const neutral = 1.0 / 3

// Nominal returns the share that was seen.
func (c Counted) Nominal() float64 { return float64(c.Seen) / float64(c.Of) }

// Expected is the mean of the beta distribution.
func (c Counted) Expected() float64 { return (float64(c.Seen) + neutral) / (float64(c.Of) + 2*neutral) }

// FromData is true.
func (Counted) FromData() bool { return true }

// Worth returns how many trials are to be made for what one independent trial would tell, 1 or more.
func (c Counted) Worth() float64 { return max(1, float64(c.Made)/float64(c.Of)) }

// Check wants 0 ≤ Seen ≤ Of, Of at least 1, and no fewer trials made.
func (c Counted) Check() error {
	if !(0 <= c.Seen && c.Seen <= c.Of && c.Of >= 1) {
		return fmt.Errorf("%d of %d were seen, want from none to all, of 1 at least", c.Seen, c.Of)
	}
	if !(c.Made == 0 || c.Made >= c.Of) {
		return fmt.Errorf("%d trials were made for %d, want as many at least", c.Made, c.Of)
	}
	return nil
}

// About is the prior in a number above 0 that was estimated with a standard error:
// lognormal, with that mean and that standard deviation, of which what is above the highest value
// that the number can have is cut off.
type About struct {
	Mean, Error float64
	Most        float64 // the highest value; 0 for no such bound
}

// lognormal returns mean and standard deviation of the logarithm, and the share that is not cut off.
func (a About) lognormal() (mu, sigma, kept float64) {
	variance := portable.Log1p(a.Error / a.Mean * a.Error / a.Mean)
	mu, sigma, kept = portable.Log(a.Mean)-float64(variance/2), math.Sqrt(variance), 1
	if a.Most > 0 {
		kept = portable.NormalBelow((portable.Log(a.Most) - mu) / sigma)
	}
	return mu, sigma, kept
}

// Quantile is that of the lognormal distribution, 0 at the one end, and +Inf or Most at the other.
func (a About) Quantile(p float64) float64 {
	mu, sigma, kept := a.lognormal()
	x := portable.Exp(mu + float64(sigma*portable.NormalQuantile(float64(p*kept))))
	if a.Most > 0 {
		return min(x, a.Most)
	}
	return x
}

// Nominal returns the estimate.
func (a About) Nominal() float64 { return a.Mean }

// Expected returns the estimate or, where something is cut off, the mean of the rest.
func (a About) Expected() float64 {
	if a.Most == 0 {
		return a.Mean
	}
	mu, sigma, kept := a.lognormal()
	return a.Mean * portable.NormalBelow((portable.Log(a.Most)-mu)/sigma-sigma) / kept
}

// FromData is true.
func (About) FromData() bool { return true }

// Check wants a mean above 0 and an error above 0 and no larger than the mean, and a mean that the
// number can have.
func (a About) Check() error {
	if a.Most != 0 && !(a.Most >= a.Mean) {
		return fmt.Errorf("the estimate is %g, want %g at the most", a.Mean, a.Most)
	}
	if !(a.Mean > 0 && a.Mean <= math.MaxFloat32 && a.Error > 0 && a.Error <= a.Mean) {
		return fmt.Errorf("the estimate is %g with a standard error of %g, want both more than 0, and the error no larger", a.Mean, a.Error)
	}
	return nil
}

// Between is the prior of somebody who knows the least, the likeliest and the most that a
// number may be: triangular.
//
// Source: Kotz and van Dorp, Beyond Beta (2004), chapter 1 (from memory).
type Between struct{ Low, Likely, High float64 }

// Quantile is that of the triangular distribution.
func (b Between) Quantile(p float64) float64 {
	return portable.TriangleQuantile(b.Low, b.Likely, b.High, p)
}

// Nominal returns the likeliest.
func (b Between) Nominal() float64 { return b.Likely }

// Expected is the mean of the triangular distribution.
func (b Between) Expected() float64 { return (b.Low + b.Likely + b.High) / 3 }

// FromData is false.
func (Between) FromData() bool { return false }

// Check wants Low ≤ Likely ≤ High and Low < High.
func (b Between) Check() error {
	if !(b.Low <= b.Likely && b.Likely <= b.High && b.Low < b.High) {
		return fmt.Errorf("low, likely and high are %g, %g and %g, want them rising", b.Low, b.Likely, b.High)
	}
	return nil
}
