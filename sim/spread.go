package sim

import (
	"errors"
	"fmt"
	"math"

	"netrate/sim/portable"
)

// Durations given by their mean and their coefficient of variation, cv: the
// standard deviation over the mean.

// The sizes that make sense. Below the smallest cv a duration is as good as
// constant; above the largest one draw in thousands makes up the whole mean, and no
// run is long enough to see it.
const (
	shortest Seconds = 1e-6
	leastCV  float64 = 1e-3
	mostCV   float64 = 10
)

func checkMean(mean Seconds) error {
	if !(mean >= shortest && mean <= longest) {
		return fmt.Errorf("mean is %g s, want from %g to %g",
			float64(mean), float64(shortest), float64(longest))
	}
	return nil
}

func checkSpread(mean Seconds, cv float64) error {
	err := checkMean(mean)
	if !(cv >= leastCV && cv <= mostCV) {
		err = errors.Join(err, fmt.Errorf("cv is %g, want from %g to %g", cv, leastCV, float64(mostCV)))
	}
	return err
}

type exponential struct{ mean Seconds }

// NewExponential returns an exponential duration: what is left of it does not
// depend on how long it has lasted. It wants a mean from 10⁻⁶ to 10⁹ s.
func NewExponential(mean Seconds) (Duration, error) {
	if err := checkMean(mean); err != nil {
		return nil, err
	}
	return exponential{mean}, nil
}

func (d exponential) Draw(s *Stream) Seconds {
	return d.mean * Seconds(s.Exponential())
}

func (d exponential) Mean() Seconds { return d.mean }

type lognormal struct {
	mean      Seconds
	mu, sigma float64 // mean and standard deviation of the logarithm
}

// NewLognormal returns a lognormal duration: σ² = ln(1 + cv²), μ = ln(mean) − σ²/2.
// It wants a mean from 10⁻⁶ to 10⁹ s and a cv from 0.001 to 10.
func NewLognormal(mean Seconds, cv float64) (Duration, error) {
	if err := checkSpread(mean, cv); err != nil {
		return nil, err
	}
	variance := portable.Log1p(cv * cv)
	return lognormal{mean, portable.Log(float64(mean)) - float64(variance/2), math.Sqrt(variance)}, nil
}

func (d lognormal) Draw(s *Stream) Seconds {
	return Seconds(portable.Exp(float64(s.Normal()*d.sigma) + d.mu))
}

func (d lognormal) Mean() Seconds { return d.mean }

type gamma struct {
	mean        Seconds
	shape, rate float64
}

// NewGamma returns a gamma duration of shape 1/cv². It wants a mean from 10⁻⁶ to
// 10⁹ s and a cv from 0.001 to 10.
func NewGamma(mean Seconds, cv float64) (Duration, error) {
	if err := checkSpread(mean, cv); err != nil {
		return nil, err
	}
	shape := 1 / (cv * cv)
	return gamma{mean, shape, shape / float64(mean)}, nil
}

func (d gamma) Draw(s *Stream) Seconds {
	return Seconds(s.Gamma(d.shape) / d.rate)
}

// Gamma returns a gamma number of the given shape and of scale 1.
//
// Source: Marsaglia and Tsang, ACM Transactions on Mathematical Software 26 (2000) 363–372,
// with their step for shapes below 1.
func (s *Stream) Gamma(shape float64) float64 {
	if shape < 1 {
		u := s.Uniform()
		return s.Gamma(shape+1) * portable.Pow(u, 1/shape)
	}
	d := shape - 1.0/3
	c := 1 / (3 * math.Sqrt(d))
	for {
		x := s.Normal()
		v := 1 + float64(x*c)
		if v <= 0 {
			continue
		}
		v = float64(v * v * v)
		u := s.Uniform()
		if u < 1-float64(0.0331*(x*x)*(x*x)) || portable.Log(u) < float64(0.5*x*x)+float64(d*(1-v+portable.Log(v))) {
			return float64(d * v)
		}
	}
}

func (d gamma) Mean() Seconds { return d.mean }

type weibull struct {
	mean         Seconds
	shape, scale float64
}

// NewWeibull returns a Weibull duration, its shape found from the cv. It wants a
// mean from 10⁻⁶ to 10⁹ s and a cv from 0.001 to 10.
func NewWeibull(mean Seconds, cv float64) (Duration, error) {
	if err := checkSpread(mean, cv); err != nil {
		return nil, err
	}
	shape := weibullShape(cv)
	return weibull{mean, shape, float64(mean) / portable.Exp(portable.Lgamma(1+1/shape))}, nil
}

func (d weibull) Draw(s *Stream) Seconds {
	return Seconds(d.scale * portable.Pow(-portable.Log1p(-s.Uniform()), 1/d.shape))
}

func (d weibull) Mean() Seconds { return d.mean }

// weibullShape solves 1 + cv² = Γ(1+2/k) / Γ(1+1/k)² for the shape k by halving an
// interval of 1/k; the right-hand side grows with 1/k. For a cv from leastCV to
// mostCV, 1/k lies well within the interval.
func weibullShape(cv float64) float64 {
	want := portable.Log1p(cv * cv)
	low, high := 1e-4, 10.0
	for range 64 { // the interval is then narrower than a float64 can tell
		x := float64((low + high) / 2)
		second := portable.Lgamma(1 + float64(2*x))
		first := portable.Lgamma(1 + x)
		if second-float64(2*first) < want {
			low = x
		} else {
			high = x
		}
	}
	return 2 / (low + high)
}
