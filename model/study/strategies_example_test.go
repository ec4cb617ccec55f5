package study_test

import (
	"context"
	"fmt"

	"netrate/model/study"
	"netrate/sim"
)

// What a line should answer to which fault, if 20 in a million may be defective: of its doubles,
// two in 10,000 at each of two feeders, one in 50 is not caught, which makes 8 in a million.
func ExampleStrategies() {
	most := 20e-6
	q := study.Strategies{Line: twoInserts(), MaxDefective: &most, Plan: sim.Plan{Seed: 1, Min: 40, Max: 40}}
	a, err := q.Ask(context.Background(), func(so study.Sofar[study.StrategiesAnswer]) {
		if so.Done == 10 {
			fmt.Printf("after %d of %d shifts %s leads\n", so.Done, so.Most, so.Answer().Best)
		}
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	best := a.Strategies[a.Leader]
	fmt.Printf("%s is best: %s; shown: %t\n", best.Name, best.Otherwise, a.Shown)
	fmt.Printf("%.0f more than now, %.1f in a million defective\n", a.Over(0).Mean, best.Defective.PerMillion)
	// Output:
	// after 10 of 40 shifts A leads
	// A is best: all feeders: misfeed divert, double divert; shown: true
	// 1089 more than now, 8.0 in a million defective
}
