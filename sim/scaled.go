package sim

import "fmt"

type scaled struct {
	Duration
	factor Seconds
}

// Scaled returns a duration that is a factor times another: with common random numbers each draw is
// that factor longer. It panics unless the factor is positive and finite.
func Scaled(d Duration, factor float64) Duration {
	if !(factor > 0 && factor <= 1e9) {
		panic(fmt.Sprintf("sim: a duration times %v", factor))
	}
	return scaled{d, Seconds(factor)}
}

func (d scaled) Draw(s *Stream) Seconds { return d.factor * d.Duration.Draw(s) }
func (d scaled) Mean() Seconds          { return d.factor * d.Duration.Mean() }

// Spread returns a duration of the same kind and mean with another coefficient of variation,
// or the nearest that [NewLognormal] and its like take. Only lognormal, gamma and Weibull
// durations have one to change.
func Spread(d Duration, cv float64) (Duration, error) {
	cv = min(mostCV, max(leastCV, cv)) // NaN stays what it is
	switch d := d.(type) {
	case lognormal:
		return NewLognormal(d.mean, cv)
	case gamma:
		return NewGamma(d.mean, cv)
	case weibull:
		return NewWeibull(d.mean, cv)
	case scaled:
		spread, err := Spread(d.Duration, cv)
		if err != nil {
			return nil, err
		}
		return Scaled(spread, float64(d.factor)), nil
	}
	return nil, fmt.Errorf("a duration of this kind has no cv that could be %g", cv)
}
