package sim

import "fmt"

type scaled struct {
	Duration
	factor Seconds
}

// Scaled returns a duration that is a factor times another: with the same luck each draw is
// that factor longer. It panics unless the factor is positive and finite.
func Scaled(d Duration, factor float64) Duration {
	if !(factor > 0 && factor <= 1e9) {
		panic(fmt.Sprintf("sim: a duration times %v", factor))
	}
	return scaled{d, Seconds(factor)}
}

func (d scaled) Draw(s *Stream) Seconds { return d.factor * d.Duration.Draw(s) }
func (d scaled) Mean() Seconds          { return d.factor * d.Duration.Mean() }
