package study_test

import (
	"context"
	"fmt"

	"netrate/model/study"
	"netrate/sim"
)

// Which rate or time of a line is worth most to halve. The rates of the line are invented.
func ExampleSensitivityAnalysis() {
	q := study.SensitivityAnalysis{Line: twoInserts(), Plan: sim.Plan{Seed: 1, Min: 100, Max: 100}}
	a, err := q.Ask(context.Background(), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, x := range a.Effects[:3] {
		fmt.Printf("%s, now %s: %+.0f ± %.0f if halved\n", x.Name, x.Value, x.Lower.Change.Mean, x.Lower.Change.Half)
	}
	fmt.Printf("on %.0f good envelopes an hour; %d of %d are shown to matter\n", a.NetRate.Mean, a.Matter, len(a.Effects))
	// Output:
	// walking time, now 10 s: +417 ± 11 if halved
	// card, misfeeds, now 1/1000: +257 ± 23 if halved
	// letter, refilling time, now 30 s: +239 ± 9 if halved
	// on 5685 good envelopes an hour; 15 of 16 are shown to matter
}
