package study_test

import (
	"context"
	"fmt"

	"netrate/model"
	"netrate/model/study"
	"netrate/sim"
)

// Is a second operator worth more than a faster inserter? Two lines built by hand, set against
// the first.
func ExampleComparison() {
	second := twoInserts()
	second.Crew.Operators = 2
	faster := twoInserts()
	faster.Stations[3].(*model.Inserter).Rated = 11_000
	q := study.Comparison{
		Alternatives: []study.Alternative{
			{Name: "base", Line: twoInserts()}, {Name: "second operator", Line: second}, {Name: "faster inserter", Line: faster},
		},
		Plan: sim.Plan{Seed: 1, Min: 100, Max: 100},
	}
	a, err := q.Ask(context.Background(), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s delivers most, shown: %t\n", a.Best.Name, a.Best.Shown)
	for _, p := range a.Pairs.Pairs {
		fmt.Printf("%s against %s: %+.0f ± %.0f an hour\n", p.Of, p.Against, p.Difference.Mean, p.Difference.Half)
	}
	fmt.Printf("most of what it gains: %s, %.0f an hour\n", a.Ranked()[0].Name, a.Ranked()[0].Change)
	// Output:
	// second operator delivers most, shown: true
	// second operator against base: +643 ± 16 an hour
	// faster inserter against base: +217 ± 6 an hour
	// faster inserter against second operator: -427 ± 13 an hour
	// most of what it gains: refilling and emptying, 524 an hour
}

// The answer so far, while shifts are run; the question is dropped when it is seen well enough,
// and taken up again later with the shifts that were run.
func ExampleComparison_Ask() {
	second := twoInserts()
	second.Crew.Operators = 2
	q := study.Comparison{
		Alternatives: []study.Alternative{{Name: "base", Line: twoInserts()}, {Name: "second operator", Line: second}},
		Plan:         sim.Plan{Seed: 1, Min: 1000, Max: 1000},
	}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	a, err := q.Ask(ctx, func(so study.Sofar[study.ComparisonAnswer]) {
		if so.Done == 5 || so.Done == 20 {
			now := so.Answer()
			fmt.Printf("after %d of %d shifts: %s leads, shown: %t\n", so.Done, so.Most, now.Best.Name, now.Best.Shown)
		}
		if so.Done == 20 {
			stop()
		}
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("dropped, those begun were finished: %t; partial: %t\n", a.Settings.Reps >= 20, a.Settings.Partial)

	q.Plan.Min, q.Plan.Max, q.Kept = 150, 150, a
	if a, err = q.Ask(context.Background(), nil); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("in the end after %d shifts: %+.0f ± %.0f an hour\n", a.Settings.Reps, a.Pairs.Pairs[0].Difference.Mean, a.Pairs.Pairs[0].Difference.Half)
	// Output:
	// after 5 of 1000 shifts: second operator leads, shown: true
	// after 20 of 1000 shifts: second operator leads, shown: true
	// dropped, those begun were finished: true; partial: true
	// in the end after 150 shifts: +639 ± 10 an hour
}
