package model_test

import (
	"fmt"

	"netrate/model"
	"netrate/sim"
)

// A line of one feeder, an inserter and a delivery, run for one shift. The numbers are invented; what they
// come to is what the program gives.
func Example() {
	line := &model.Line{
		Shift:   8 * 3600,
		Restart: sim.Constant(4),
		Crew:    model.Crew{Operators: 1, Walk: sim.Constant(15)},
		Stations: []model.Station{
			&model.Feeder{
				Place:   model.Place{Name: "letter", At: 0, Rated: 12_000},
				Hopper:  model.Stock{Capacity: 3000, Warn: 600, Work: sim.Constant(25)},
				Misfeed: 1.0 / 900, Double: 1.0 / 9000, Jam: 1.0 / 4000,
				Material: 1, Noticed: 1, Caught: 1, Share: 1,
				Clear: sim.Constant(60),
			},
			&model.Inserter{
				Place:  model.Place{Name: "inserter", At: 4, Rated: 11_000},
				Hopper: model.Stock{Capacity: 1500, Warn: 500, Work: sim.Constant(20)},
				Flap:   1.0 / 1500, Jam: 1.0 / 5000,
				Clear: sim.Constant(90),
			},
			&model.Delivery{Place: model.Place{Name: "delivery", At: 7}},
		},
	}
	s, err := model.New(line)
	if err != nil {
		fmt.Println(err)
		return
	}
	var out model.Outcome
	if err := s.Run(1, 0, &out); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("good: %d, misfeeds: %d\n", out.Sets.Good, out.Stations[0].Faults[model.Misfeed])
	fmt.Printf("%.0f an hour; on paper %.0f\n", out.NetRate(), line.Analytic().NetRate)
	// Output:
	// good: 49688, misfeeds: 65
	// 6211 an hour; on paper 6688
}

// What is missing is said before anything runs.
func ExampleLine_Check() {
	line := &model.Line{Shift: 3600, Stations: []model.Station{
		&model.Feeder{Place: model.Place{Name: "letter", Rated: 12_000}, Misfeed: 0.001},
	}}
	for _, err := range line.Check() {
		fmt.Println(err)
	}
	// Output:
	// the line has no restart delay: give 0 s if it has none
	// the crew has 0 operators, want at least 1
	// the crew has no walk time: give 0 s if it has none
	// feeder letter: material is 0, want a factor above 0, at most 1000
	// feeder letter: noticed is 0, so that nobody would notice a misfeed: give the share that is noticed, 1 as a rule, or say Unwatched
	// feeder letter: share is 0, want a share above 0, at most 1
	// feeder letter: the hopper holds 0, want at least 1
	// feeder letter: the hopper has no time for the operator's work
	// feeder letter: there is no time for clearing a fault
	// the line has no inserter
	// feeder letter is the last station and no delivery: a delivery comes last
}
