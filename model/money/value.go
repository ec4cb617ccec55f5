package money

import (
	"errors"
	"fmt"

	"netrate/sim"
	"netrate/sim/output"
)

// Value is a figure known only within a range: triangular, likeliest at Likely and never
// beyond Low and High. Where all three are equal it is fixed; the zero Value is fixed at 0.
type Value struct {
	Low, Likely, High float64
}

// Fixed returns a value without doubt.
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
// value too, so that fixing one figure leaves the luck of the others as it was. It panics
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

// Uncertain is an investment of which the sums are ranges, each independent of the others.
// Its life and its rate are chosen, not met, so they are not drawn: to see what they do,
// try others.
type Uncertain struct {
	Price    Value // as in [Investment], and so are the others
	Life     int
	Residual Value
	Rate     float64
	Saving   Value
	Upkeep   Value
}

// Check returns everything that is wrong with the investment.
func (u Uncertain) Check() error {
	var errs []error
	for _, sum := range []struct {
		what string
		Value
	}{
		{"price", u.Price}, {"residual value", u.Residual}, {"saving", u.Saving}, {"upkeep", u.Upkeep},
	} {
		if err := sum.Check(); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", sum.what, err))
		}
	}
	if len(errs) > 0 {
		return errors.Join(errs...)
	}
	least := Investment{u.Price.Low, u.Life, u.Residual.Low, u.Rate, u.Saving.Low, u.Upkeep.Low}
	return least.Check() // the ranges are bounded above, so their low ends show all there is
}

// Draw returns the investment as it may turn out. It takes four numbers from the stream,
// and panics on a range that cannot be.
func (u Uncertain) Draw(s *sim.Stream) Investment {
	return Investment{
		Price:    u.Price.Draw(s),
		Life:     u.Life,
		Residual: u.Residual.Draw(s),
		Rate:     u.Rate,
		Saving:   u.Saving.Draw(s),
		Upkeep:   u.Upkeep.Draw(s),
	}
}

// NPVs returns n net present values that may come of the investment; see [Distribution].
func (u Uncertain) NPVs(n int, seed uint64) (sim.Sample, error) {
	if err := u.Check(); err != nil {
		return nil, err
	}
	return Distribution(n, seed, func(s *sim.Stream) (float64, error) { return u.Draw(s).NPV() })
}
