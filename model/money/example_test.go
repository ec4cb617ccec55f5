package money_test

import (
	"fmt"

	"netrate/model/money"
	"netrate/sim"
)

// All figures in the examples are invented.

// What 10 000 borrowed at 8 % a year costs in each of ten months.
func ExampleNewFactors() {
	f, err := money.NewFactors(0.08/12, 10)
	fmt.Printf("%.2f %v\n", 10_000*f.AP, err)
	// Output:
	// 1037.03 <nil>
}

// A machine that costs 1000 now and saves less every year.
func ExampleFlows() {
	flows := money.Flows{-1000, 500, 400, 300, 100}
	npv, _ := flows.NPV(0.10)
	years, _, _ := flows.Payback()
	discounted, _, _ := flows.DiscountedPayback(0.10)
	fmt.Printf("worth %.2f now\n", npv)
	fmt.Printf("pays back in %.2f years, with interest in %.2f\n", years, discounted)
	// Output:
	// worth 78.82 now
	// pays back in 2.33 years, with interest in 2.95
}

// Of ten draws of what a machine is worth, seven are gains.
func ExampleChanceOfGain() {
	npv := sim.Sample{-4_000, 1_200, 3_100, -900, 2_500, 5_000, -1_500, 800, 4_100, 1_900}
	gain := money.ChanceOfGain(npv, 0.95)
	fmt.Printf("it pays with a probability of %.0f %% (%.0f to %.0f %%)\n", 100*gain.Share, 100*gain.Low, 100*gain.High)
	// Output:
	// it pays with a probability of 70 % (35 to 93 %)
}
