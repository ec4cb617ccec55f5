package money

import (
	"errors"
	"fmt"
)

// Investment is a machine bought now that saves money every year.
type Investment struct {
	Price    float64 // paid now, 0 or more
	Life     int     // years it is used, from 1 to 1200
	Residual float64 // got for it at the end of its life; negative if its removal costs money
	Rate     float64 // a year, as a share, above −1 and below 2: 0.08 is 8 %
	Saving   float64 // at the end of each year; negative if it costs more than what it replaces
	Upkeep   float64 // cost at the end of each year however much is done, 0 or more: service, rent
}

// slip is where a rate a year is taken for a slip, 8 for 8 %.
const slip = 2

// Check returns everything that is wrong with the investment.
func (v Investment) Check() error {
	var rate error
	if !(v.Rate > -1 && v.Rate < slip) {
		rate = fmt.Errorf("rate is %g, want a share above -1 and below %d (0.08 is 8 %%)", v.Rate, slip)
	}
	return errors.Join(
		checkSum("price", v.Price, 0),
		checkPeriods("life", v.Life),
		checkSum("residual value", v.Residual, -largest),
		rate,
		checkSum("saving", v.Saving, -largest),
		checkSum("upkeep", v.Upkeep, 0),
	)
}

// Flows returns the flows of the investment, one more than its life has years.
func (v Investment) Flows() (Flows, error) {
	if err := v.Check(); err != nil {
		return nil, err
	}
	flows := make(Flows, v.Life+1)
	for year := range flows {
		flows[year] = v.Saving - v.Upkeep
	}
	flows[0] = -v.Price
	flows[v.Life] += v.Residual
	return flows, nil
}

// NPV returns the net present value of the investment at its rate.
func (v Investment) NPV() (float64, error) {
	flows, err := v.Flows()
	if err != nil {
		return 0, err
	}
	return flows.NPV(v.Rate)
}

// AnnualCost returns the equivalent annual cost: what having the machine costs each year of
// its life, its saving left out,
//
//	Upkeep + Price·A/P − Residual·A/F.
//
// It is the break-even saving as well: with that saving the net present value is 0. It is
// negative if the machine is sold for more than it cost with interest.
//
// Source: capital recovery with salvage value, Blank and Tarquin, Engineering Economy,
// chapter 6 (from memory).
func (v Investment) AnnualCost() (float64, error) {
	if err := v.Check(); err != nil {
		return 0, err
	}
	factors, err := NewFactors(v.Rate, v.Life)
	if err != nil {
		return 0, err
	}
	return v.Upkeep + float64(v.Price*factors.AP) - float64(v.Residual*factors.AF), nil
}

// BreakEvenVolume returns the least yearly volume, in pieces, at which the machine pays for
// itself, if every thousand pieces save so much: the one at which the net present value is
// 0, or 0 if it pays at any. The saving per thousand must be from 10⁻⁶ to
// 10¹³; the Saving of the investment is not looked at.
func (v Investment) BreakEvenVolume(perThousand float64) (float64, error) {
	cost, err := v.AnnualCost()
	if err := errors.Join(err, checkSum("saving per thousand", perThousand, 1e-6)); err != nil {
		return 0, err
	}
	return max(0, 1000*cost/perThousand), nil
}
