package money

import (
	"math"
)

// Payback returns the years until the flows, added up from now, are first not negative;
// inside a year they are taken to come evenly. It is 0 if nothing has to be paid back, and
// ok is false if it never is.
//
// What comes after that time counts for nothing, a costly overhaul no more than a good
// year: the net present value is there for that. A residual value is spread over its year
// like any other flow, although it comes at the end.
//
// Source: Brigham and Ehrhardt, Financial Management, chapter on capital budgeting (from
// memory).
func (f Flows) Payback() (years float64, ok bool, err error) {
	if err := f.Check(); err != nil {
		return 0, false, err
	}
	years, ok = f.payback()
	return years, ok, nil
}

// DiscountedPayback returns the same for what the flows are worth now.
func (f Flows) DiscountedPayback(rate float64) (years float64, ok bool, err error) {
	worth, err := f.Discounted(rate)
	if err != nil {
		return 0, false, err
	}
	years, ok = worth.payback()
	return years, ok, nil
}

// payback takes a balance that is negative by no more than rounding for 0, so that what is
// paid back at the very end is paid back.
func (f Flows) payback() (years float64, ok bool) {
	hair := 1e-12 * f.gross()
	balance := 0.0
	for year, x := range f {
		before := balance
		balance += x
		switch {
		case !(balance >= -hair):
		case year == 0:
			return 0, true
		default:
			return float64(year-1) + math.Min(1, -before/x), true
		}
	}
	return 0, false
}
