package worth_test

import (
	"context"
	"fmt"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/money"
	"netrate/model/runs"
	"netrate/model/worth"
	"netrate/sim"
)

// What a second operator is worth a year on a line, at 8 million envelopes. All numbers are
// invented; an estimate, not financial advice.
func ExampleWeigh() {
	one, two := modeltest.ReferenceLine(), modeltest.ReferenceLine()
	two.Crew.Operators = 2
	studies, err := runs.Together(context.Background(), []*model.Line{one, two}, sim.Plan{Seed: 1, Min: 40, Max: 40}, nil, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	costs := &worth.Costs{
		Currency: "EUR", Life: 5, Rate: 0.08, Volume: money.Fixed(8e6),
		LineHour: money.Fixed(60), OperatorHour: money.Value{Low: 24, Likely: 30, High: 36},
	}
	w, err := worth.Weigh(studies, []*worth.Costs{costs, costs}, 200, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, x := range w.Lines {
		fmt.Printf("operators %d: %.0f hours, %.0f EUR a year\n", i+1, x.Hours.Mean(), x.Cost.Mean())
	}
	dollars := *costs
	dollars.Currency = "USD"
	fmt.Println(worth.Comparable([]*worth.Costs{costs, &dollars}))
	// Output:
	// operators 1: 598 hours, 53781 EUR a year
	// operators 2: 585 hours, 70198 EUR a year
	// costs are not evaluated: currencies differ, ["EUR" "USD"]
}
