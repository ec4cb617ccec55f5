package money

import (
	"errors"
	"fmt"
	"math"

	"netrate/sim/portable"
)

// Flows are sums of money by year, what comes in positive, what goes out negative. Flows[0]
// is now and is not discounted; Flows[k] comes at the end of year k.
//
// There is at least one flow and at most 1201, each from −10¹³ to 10¹³: every method
// returns an error for others, NaN included, and leaves the flows as they are.
type Flows []float64

// Check returns everything that is wrong with the flows.
func (f Flows) Check() error {
	if len(f) < 1 || len(f) > mostPeriods+1 {
		return fmt.Errorf("there are %d flows, want from 1 to %d", len(f), mostPeriods+1)
	}
	var errs []error
	for year, x := range f {
		errs = append(errs, checkSum(fmt.Sprintf("flow of year %d", year), x, -largest))
	}
	return errors.Join(errs...)
}

// Discounted returns what each flow is worth now: the flow of year k over (1 + rate)ᵏ. The
// rate must be above −1, up to 10⁶. What a float64 cannot hold, very near −1, is an error.
func (f Flows) Discounted(rate float64) (Flows, error) {
	if err := errors.Join(f.Check(), checkRate(rate)); err != nil {
		return nil, err
	}
	worth := make(Flows, len(f))
	for year, x := range f {
		worth[year] = x / portable.Pow(1+rate, float64(year))
	}
	if !(worth.gross() <= math.MaxFloat64) {
		return nil, fmt.Errorf("at rate %g the flows are worth more now than a number can hold", rate)
	}
	return worth, nil
}

// NPV returns the net present value: what all flows together are worth now. The flow of
// year 0 counts in full, as in textbooks.
func (f Flows) NPV(rate float64) (float64, error) {
	worth, err := f.Discounted(rate)
	if err != nil {
		return 0, err
	}
	return portable.Sum(worth), nil
}

// gross returns the sum of the flows, in and out alike.
func (f Flows) gross() float64 {
	sum := 0.0
	for _, x := range f {
		sum += math.Abs(x)
	}
	return sum
}
