package study_test

import (
	"context"
	"fmt"

	"netrate/model/study"
	"netrate/sim"
)

// What does a line deliver, how sure is that, and what does paper say?
func ExampleRun() {
	q := study.Run{
		Alternative: study.Alternative{Name: "two inserts", Line: twoInserts()},
		Plan:        sim.Plan{Seed: 1, Min: 100, Max: 100},
	}
	a, err := q.Ask(context.Background(), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f ± %.0f good envelopes an hour\n", a.NetRate.Mean, a.NetRate.Half)
	fmt.Printf("of a shift of %.0f s: running %.0f, waiting for an operator %.0f\n", a.Time.Shift, a.Time.Running.Mean, a.Time.Waiting.Mean)
	// Output:
	// 5685 ± 24 good envelopes an hour
	// of a shift of 28800 s: running 16378, waiting for an operator 1952
}

// Which of three lines is the best, where 100 envelopes an hour are worth finding? Lines that
// are known to be behind are run no further.
func ExampleComparisonSelection() {
	q := study.Comparison{Plan: sim.Plan{Seed: 1, Max: 2000}, Selection: &study.ComparisonSelection{Indifference: 100}}
	for operators := 1; operators <= 3; operators++ {
		line := twoInserts()
		line.Crew.Operators = operators
		q.Alternatives = append(q.Alternatives, study.Alternative{Name: fmt.Sprint(operators), Line: line})
	}
	a, err := q.Ask(context.Background(), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range a.Selection.Dropped {
		fmt.Printf("operators %s: dropped after %d shifts\n", d.Name, d.At)
	}
	fmt.Printf("operators %s: best, at %.0f %% confidence: %t\n", a.Best.Name, 100*a.Selection.Confidence, a.Selection.Promised)
	// Output:
	// operators 1: dropped after 64 shifts
	// operators 2: dropped after 64 shifts
	// operators 3: best, at 95 % confidence: true
}
