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
	rate, _, _ := flows.IRR()
	years, _, _ := flows.Payback()
	discounted, _, _ := flows.DiscountedPayback(0.10)
	fmt.Printf("worth %.2f now, earns %.1f %% a year\n", npv, 100*rate)
	fmt.Printf("pays back in %.2f years, with interest in %.2f\n", years, discounted)
	// Output:
	// worth 78.82 now, earns 14.5 % a year
	// pays back in 2.33 years, with interest in 2.95
}

// With an overhaul at the end there is no single rate of return.
func ExampleFlows_IRR() {
	flows := money.Flows{-100, 100, 0, -7}
	_, ok, err := flows.IRR()
	fmt.Println(ok, err, flows.SignChanges(), "changes of sign")
	// Output:
	// false <nil> 2 changes of sign
}

// Spreadsheets discount the first value by a year, textbooks do not.
func ExampleSpreadsheetNPV() {
	values := []float64{-10_000, 3_000, 4_200, 6_800}
	spreadsheet, _ := money.SpreadsheetNPV(0.10, values)
	textbook, _ := money.Flows(values).NPV(0.10)
	fmt.Printf("%.2f %.2f\n", spreadsheet, textbook)
	// Output:
	// 1188.44 1307.29
}

// What a machine costs a year, and how much it must do to pay for itself.
func ExampleInvestment() {
	v := money.Investment{Price: 100_000, Life: 8, Residual: 10_000, Rate: 0.08, Upkeep: 2_000}
	cost, _ := v.AnnualCost()
	pieces, _ := v.BreakEvenVolume(4)
	fmt.Printf("%.0f a year, paid from %.0f pieces a year\n", cost, pieces)

	v.Rate = 8
	_, err := v.AnnualCost()
	fmt.Println(err)
	// Output:
	// 18461 a year, paid from 4615332 pieces a year
	// rate is 8, want a share above -1 and below 2 (0.08 is 8 %)
}

// A machine whose price and saving are not yet known for certain.
func ExampleUncertain() {
	u := money.Uncertain{
		Price:  money.Value{Low: 90_000, Likely: 100_000, High: 120_000},
		Life:   8,
		Rate:   0.08,
		Saving: money.Value{Low: 12_000, Likely: 20_000, High: 30_000},
		Upkeep: money.Fixed(2_000),
	}
	npv, _ := u.NPVs(10_000, 1)
	gain := money.ChanceOfGain(npv, 0.95)
	fmt.Printf("it pays with a probability of %.0f %% (%.1f to %.1f %%)\n", 100*gain.Share, 100*gain.Low, 100*gain.High)
	fmt.Printf("9 in 10 of the draws lie between %.0f and %.0f\n", npv.Quantile(0.05), npv.Quantile(0.95))
	// Output:
	// it pays with a probability of 55 % (54.4 to 56.3 %)
	// 9 in 10 of the draws lie between -31833 and 41067
}

// A saving that depends on a volume and on a saving per thousand, both uncertain.
func ExampleDistribution() {
	thousands := money.Value{Low: 3_000, Likely: 5_000, High: 6_000}
	each := money.Value{Low: 3.5, Likely: 4, High: 4.8}
	npv, err := money.Distribution(10_000, 1, func(s *sim.Stream) (float64, error) {
		saving := thousands.Draw(s) * each.Draw(s)
		return money.Investment{Price: 100_000, Life: 8, Rate: 0.08, Saving: saving}.NPV()
	})
	fmt.Printf("%.0f %v\n", npv.Mean(), err)
	// Output:
	// 9906 <nil>
}
