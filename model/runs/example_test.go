package runs_test

import (
	"context"
	"fmt"

	"netrate/model"
	"netrate/model/modeltest"
	"netrate/model/runs"
	"netrate/sim"
)

// Forty shifts of a line, their net rate and what most of the rest is lost to. The line is
// invented; what it comes to is what the program gives.
func ExampleRun() {
	s, err := runs.Run(context.Background(), modeltest.ReferenceLine(), sim.Plan{Seed: 1, Min: 40, Max: 40}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	rate := s.NetRates().Interval(0.95)
	fmt.Printf("%.0f ± %.0f an hour\n", rate.Mean, rate.Half)
	rated, losses, _ := s.Losses()
	most := losses[0]
	for _, l := range losses {
		if l.PerHour > most.PerHour {
			most = l
		}
	}
	fmt.Printf("of %.0f, %.0f are lost to %s\n", rated, most.PerHour, most.Name)
	// Output:
	// 13391 ± 130 an hour
	// of 18000, 3168 are lost to clearing faults
}

// Two lines in the same shifts, with common random numbers: their difference is known better than
// either of them.
func ExampleTogether() {
	one, two := modeltest.ReferenceLine(), modeltest.ReferenceLine()
	two.Crew.Operators = 2
	studies, err := runs.Together(context.Background(), []*model.Line{one, two}, sim.Plan{Seed: 1, Min: 40, Max: 40}, nil, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	a, b := studies[0].NetRates(), studies[1].NetRates()
	gain := make(sim.Sample, len(a))
	for shift := range gain {
		gain[shift] = b[shift] - a[shift]
	}
	e := gain.Interval(0.95)
	fmt.Printf("a second operator gains %.0f ± %.0f an hour\n", e.Mean, e.Half)
	// Output:
	// a second operator gains 289 ± 24 an hour
}
