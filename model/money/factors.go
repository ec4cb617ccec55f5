package money

import (
	"errors"
	"fmt"
	"math"

	"netrate/sim/portable"
)

// Factors are the factors of the interest tables for one rate i and n periods. X/Y is read
// "X, given Y": the factor by which Y is multiplied.
//
// P is a sum now, F a sum at the end of the last period, A the same sum at the end of every
// period, and G the step of a rising row: nothing at the end of the first period, G at the
// end of the second, (n−1)·G at the end of the last.
type Factors struct {
	FP float64 // F/P, single-payment compound amount: (1+i)ⁿ
	PF float64 // P/F, single-payment present worth: (1+i)⁻ⁿ
	AF float64 // A/F, sinking fund: i/((1+i)ⁿ − 1)
	FA float64 // F/A, uniform-series compound amount: ((1+i)ⁿ − 1)/i
	AP float64 // A/P, capital recovery: i/(1 − (1+i)⁻ⁿ)
	PA float64 // P/A, uniform-series present worth: (1 − (1+i)⁻ⁿ)/i
	PG float64 // P/G, gradient present worth: (P/A − n·(1+i)⁻ⁿ)/i
	AG float64 // A/G, gradient to uniform series: P/G over P/A
}

// NewFactors returns the factors for a rate above −1, up to 10⁶, and from 1 to 1200 periods. At rate 0
// they are the limits: n for P/A and F/A, n(n−1)/2 for P/G. Anything else, NaN included, is
// an error, and so is a factor too large for a float64. It takes a time proportional to the
// number of periods.
//
// Source: Blank and Tarquin, Engineering Economy, chapter 2 (from memory).
func NewFactors(rate float64, periods int) (Factors, error) {
	if err := errors.Join(checkRate(rate), checkPeriods("number of periods", periods)); err != nil {
		return Factors{}, err
	}
	var f Factors
	growth := 1 + rate
	// The rows are added up one period at a time: the closed forms divide by the rate, and
	// near rate 0 nothing but rounding is left of their difference.
	for range periods {
		f.PG = (f.PG + f.PA) / growth
		f.PA = (f.PA + 1) / growth
		f.FA = float64(f.FA*growth) + 1
	}
	f.FP = portable.Pow(growth, float64(periods))
	f.PF = 1 / f.FP
	f.AF, f.AP, f.AG = 1/f.FA, 1/f.PA, f.PG/f.PA
	if !(max(f.FP, f.PF, f.FA, f.PA, f.PG) <= math.MaxFloat64) {
		return Factors{}, fmt.Errorf("the factors for rate %g and %d periods are too large for a number", rate, periods)
	}
	return f, nil
}
