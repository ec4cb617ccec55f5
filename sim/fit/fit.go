package fit

import (
	"errors"
	"fmt"
	"math"

	"netrate/sim"
	"netrate/sim/portable"
)

// Fitted is the distribution of one kind under which the observations are likeliest.
type Fitted struct {
	Kind          Kind
	Parameters    []Parameter // as listed at the kinds
	LogLikelihood float64     // natural, of times in seconds (not of their logarithms)
	Events        int         // observations that ran to their end
	Censored      int         // observations cut short

	place place
	slack [2][2]float64 // covariance of the place, in the units of its moves
}

// Parameter is one fitted number with its uncertainty.
type Parameter struct {
	Name  string
	Value float64
	SE    float64 // standard error, same unit: from the curvature of the likelihood
}

// Fit returns the distribution of the kind that makes the observations likeliest. One cut
// short counts with the probability of lasting longer: right if what cut it short had
// nothing to do with how long it would have lasted.
//
// It wants durations above 0 and at most 10⁹ s, at least one of them complete; all kinds
// but the exponential want two complete ones that differ. Durations recorded in coarse
// steps, such as whole minutes, are taken for exact unless their Step is given; they then count
// with the probability of what is rounded to them.
//
// Source: Lawless, Statistical Models and Methods for Lifetime Data (2nd ed. 2003),
// chapters 4 and 5 (from memory).
func Fit(kind Kind, obs []Observation) (Fitted, error) {
	r, err := look(obs)
	if err != nil {
		return Fitted{}, err
	}
	p, err := r.likeliest(kind)
	if err != nil {
		return Fitted{}, fmt.Errorf("%v: %w", kind, err)
	}
	f := Fitted{
		Kind: kind, Parameters: kind.parameters(p), LogLikelihood: r.logLikelihood(kind, p),
		Events: len(r.events) + len(r.ranges), Censored: len(r.cut), place: p,
	}
	if f.slack, err = r.slack(kind, p); err != nil {
		return Fitted{}, fmt.Errorf("%v: %w", kind, err)
	}
	for i := range f.Parameters {
		f.Parameters[i].SE = f.se(func(p place) float64 { return kind.parameters(p)[i].Value })
	}
	return f, nil
}

// AIC returns twice the number of free parameters less twice the log likelihood: of kinds
// fitted to the same observations, the smaller describes them better.
//
// Source: Akaike, IEEE Trans. Automatic Control 19 (1974) 716–723 (from memory).
func (f Fitted) AIC() float64 { return float64(2*float64(f.Kind.free())) - float64(2*f.LogLikelihood) }

// Mean returns the mean of the distribution, +Inf where it is too large for a number.
func (f Fitted) Mean() sim.Seconds { return sim.Seconds(f.law().Mean()) }

// CV returns the coefficient of variation, the standard deviation over the mean. It does
// not go by way of either, so that it is there where they are too large for numbers.
func (f Fitted) CV() float64 {
	switch f.Kind {
	case Lognormal:
		return math.Sqrt(portable.Expm1(f.place.spread * f.place.spread))
	case Weibull:
		once := portable.Lgamma(1 + f.place.spread)
		twice := portable.Lgamma(1 + float64(2*f.place.spread))
		return math.Sqrt(portable.Expm1(twice - float64(2*once)))
	case Exponential, Gamma:
	}
	return f.place.spread
}

// MeanInterval returns the confidence interval of the mean of the distribution: by the
// normal distribution for the logarithm of the mean, so good for many observations and
// somewhat too narrow for few. It panics unless level is in (0, 1).
func (f Fitted) MeanInterval(level float64) (low, high sim.Seconds) {
	if !(level > 0 && level < 1) {
		panic(fmt.Sprintf("fit: an interval of level %v", level))
	}
	factor := sim.Seconds(portable.Exp(portable.NormalQuantile((1+level)/2) * f.logMeanSE()))
	return f.Mean() / factor, f.Mean() * factor
}

// MeanSE returns the standard error of the mean of the distribution.
func (f Fitted) MeanSE() sim.Seconds { return f.Mean() * sim.Seconds(f.logMeanSE()) }

// CVSE returns the standard error of the coefficient of variation; 0 of the exponential,
// whose cv is 1 by assumption.
func (f Fitted) CVSE() float64 {
	return f.se(func(p place) float64 { return Fitted{Kind: f.Kind, place: p}.CV() })
}

// logMeanSE returns the standard error of the logarithm of the mean.
func (f Fitted) logMeanSE() float64 {
	return f.se(func(p place) float64 { return portable.Log(f.Kind.law(p).Mean()) })
}

// CDF returns the probability of a duration of at most this many seconds.
func (f Fitted) CDF(t sim.Seconds) float64 { return f.law().CDF(float64(t)) }

// Quantile returns the duration that a share p stays below. It panics unless p is in
// [0, 1].
func (f Fitted) Quantile(p float64) sim.Seconds {
	if !(p >= 0 && p <= 1) {
		panic(fmt.Sprintf("fit: quantile %v", p))
	}
	return sim.Seconds(f.law().Quantile(p))
}

// Duration returns the distribution to simulate with. It is an error if its mean or cv
// is beyond what package sim takes for a duration.
func (f Fitted) Duration() (sim.Duration, error) {
	switch f.Kind {
	case Exponential:
		return sim.NewExponential(f.Mean())
	case Lognormal:
		return sim.NewLognormal(f.Mean(), f.CV())
	case Gamma:
		return sim.NewGamma(f.Mean(), f.CV())
	case Weibull:
		return sim.NewWeibull(f.Mean(), f.CV())
	}
	return nil, errors.New("nothing has been fitted")
}

func (f Fitted) law() law { return f.Kind.law(f.place) }

// logLikelihood returns the sum of log densities of the events and log probabilities of
// lasting longer of those cut short.
func (r records) logLikelihood(kind Kind, p place) float64 {
	law := kind.law(p)
	sum := 0.0
	for _, x := range r.events {
		sum += law.LogProb(x)
	}
	for _, x := range r.cut {
		sum += portable.Log(law.Survival(x))
	}
	for _, x := range r.ranges {
		sum += logOf(law.Survival(x[0]) - law.Survival(x[1]))
	}
	return sum
}
