package money

import (
	"fmt"

	"netrate/sim"
	"netrate/sim/output"
)

// Value is a figure known only within a range: triangular, likeliest at Likely and never
// beyond Low and High. Where all three are equal it is fixed; the zero Value is fixed at 0.
type Value struct {
	Low, Likely, High float64
}

// Fixed returns a value without uncertainty.
func Fixed(x float64) Value { return Value{x, x, x} }

// Check returns an error unless −10¹³ ≤ Low ≤ Likely ≤ High ≤ 10¹³, so also for NaN.
func (v Value) Check() error {
	if !(-largest <= v.Low && v.Low <= v.Likely && v.Likely <= v.High && v.High <= largest) {
		return fmt.Errorf("low, likely and high are %g, %g and %g, want %g ≤ low ≤ likely ≤ high ≤ %g",
			v.Low, v.Likely, v.High, -largest, largest)
	}
	return nil
}

// Mean returns the mean, which is not Likely unless the range is even.
func (v Value) Mean() float64 { return (v.Low + v.Likely + v.High) / 3 }

// Draw returns a value from the range. It takes exactly one number from the stream, a fixed
// value too, so that fixing one figure leaves the random numbers of the others as it was. It panics
// on a value that Check refuses.
func (v Value) Draw(s *sim.Stream) float64 {
	if err := v.Check(); err != nil {
		panic("money: " + err.Error())
	}
	u := s.Uniform()
	if v.Low == v.High {
		return v.Low
	}
	return output.Between(v).Quantile(u)
}
