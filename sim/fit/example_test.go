package fit_test

import (
	"fmt"
	"log"

	"netrate/sim"
	"netrate/sim/fit"
)

// Active repair times of an airborne transceiver, in hours (von Alven 1964), as clearing
// times would be.
func ExampleCompare() {
	var repairs []sim.Seconds
	for _, hours := range []float64{
		0.2, 0.3, 0.5, 0.5, 0.5, 0.5, 0.6, 0.6, 0.7, 0.7, 0.7, 0.8, 0.8, 1, 1, 1, 1, 1.1, 1.3, 1.5, 1.5, 1.5, 1.5,
		2, 2, 2.2, 2.5, 2.7, 3, 3, 3.3, 3.3, 4, 4, 4.5, 4.7, 5, 5.4, 5.4, 7, 7.5, 8.8, 9, 10.3, 22, 24.5,
	} {
		repairs = append(repairs, sim.Seconds(3600*hours))
	}
	c, err := fit.Compare(fit.Complete(repairs...), 999, 1)
	if err != nil {
		log.Fatal(err)
	}
	for _, k := range c.Candidates {
		fmt.Printf("%-11v mean %5.0f s, cv %.2f, AIC %+.1f, gap %.3f\n", k.Kind, k.Mean(), k.CV(), k.Behind, k.Goodness.KS)
	}
	fmt.Println(c.Notes[0])
	// Output:
	// lognormal   mean 12760 s, cv 1.54, AIC +0.0, gap 0.095
	// exponential mean 12983 s, cv 1.00, AIC +8.0, gap 0.160
	// weibull     mean 12857 s, cv 1.11, AIC +8.9, gap 0.120
	// gamma       mean 12983 s, cv 1.04, AIC +9.8, gap 0.145
	// The lognormal describes the records best.
}

// Three jams were cleared, a fourth was still being cleared when the record ended.
func ExampleFit() {
	f, err := fit.Fit(fit.Exponential, []fit.Observation{{Seconds: 40}, {Seconds: 90}, {Seconds: 50}, {Seconds: 120, Censored: true}})
	if err != nil {
		log.Fatal(err)
	}
	low, high := f.MeanInterval(0.95)
	fmt.Printf("mean %.0f s (%.0f to %.0f)\n", f.Mean(), low, high)
	// Output:
	// mean 100 s (32 to 310)
}

func ExampleNewRate() {
	r, err := fit.NewRate(0, 30_000, 0.95)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("no double in %d feeds: at most one in %.0f\n", r.Feeds, 1/r.AtMost)
	// Output:
	// no double in 30000 feeds: at most one in 10015
}

func ExampleDiffer() {
	d, err := fit.Differ([]fit.Group{
		{Name: "coated", Faults: 31, Feeds: 40_000},
		{Name: "plain", Faults: 18, Feeds: 52_000},
	}, 1)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(d.Finding())
	// Output:
	// The groups differ: chance alone seldom gives counts so far apart (P = 0.0052).
}

func ExampleGrow() {
	g, err := fit.Grow([]fit.Run{
		{Speed: 6000, Faults: 9, Feeds: 120_000},
		{Speed: 8000, Faults: 25, Feeds: 200_000},
		{Speed: 10_000, Faults: 52, Feeds: 250_000},
	}, 10_000, 0.95)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(g.Finding())
	fmt.Printf("at 12 000: one in %.0f\n", 1/g.At(12_000))
	// Output:
	// Faults per feed grow with the speed to the power 2.1 (0.83 to 3.4).
	// at 12 000: one in 3331
}

func ExamplePattern() {
	gaps := []int64{2100, 40, 12, 55, 3900, 18, 70, 2600, 5, 31, 22, 4100, 90, 8, 3300, 61, 14, 33, 5200, 7, 25, 2900, 44, 9}
	b, err := fit.Pattern([]fit.Stretch{{Gaps: gaps, Rest: 1500}}, 0.05, 1)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(b.Finding())
	// Output:
	// The stops come in bursts, or there are good and bad times: stops in windows vary 1.4 times as much as independent ones (P = 0.3910), gaps 1.6 times (P = 0.0044), and a gap's rank correlation with the next is -0.28 (P = 0.2394). With independent faults a simulation spreads too little from shift to shift.
}
