package study_test

import (
	"context"
	"fmt"

	"netrate/model/seasons"
	"netrate/model/setup"
	"netrate/model/study"
	"netrate/sim"
)

// How many operators have all work of two weeks done in time in 19 of 20 seasons. All figures are
// invented.
func ExampleSeasons() {
	piece := func(feeder string) setup.Insert {
		return setup.Insert{Name: feeder, Feeder: feeder, Thickness: 0.3, Material: 1, Share: 1}
	}
	product := &setup.Product{
		Name: "letters", Envelope: setup.Envelope{Name: "C5", Height: 162, Length: 229},
		Inserts: []setup.Insert{piece("letter"), piece("card")},
	}
	calendar := &seasons.Calendar{Days: 5, Shifts: []seasons.ShiftTime{{Start: 6 * 3600, Length: 8 * 3600}}}
	q := study.Seasons{Service: 0.95, Plan: sim.Plan{Seed: 1, Min: 100, Max: 100}}
	for _, operators := range []int{3, 2, 1} {
		line := twoInserts()
		line.Crew.Operators = operators
		q.Configurations = append(q.Configurations, study.SeasonsConfiguration{
			Name: fmt.Sprint(operators, " in the crew"),
			Season: &seasons.Season{
				Line: line, Calendar: calendar, Products: []*setup.Product{product},
				Weeks: []seasons.Week{{Name: "before Easter", Sets: []int64{235_000}}, {Name: "Easter", Sets: []int64{250_000}}},
			},
		})
	}
	a, err := q.Ask(context.Background(), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, x := range a.Lines {
		fmt.Printf("%s: in time in %.0f %% of the seasons, the first week takes %.1f h of %.0f\n", x.Name, 100*x.InTime.Share, x.Weeks[0].Work.Mean, x.Hours)
	}
	fmt.Println("smallest:", a.Service.Name)
	// Output:
	// 3 in the crew: in time in 100 % of the seasons, the first week takes 36.1 h of 40
	// 2 in the crew: in time in 92 % of the seasons, the first week takes 37.2 h of 40
	// 1 in the crew: in time in 0 % of the seasons, the first week takes 41.1 h of 40
	// smallest: 3 in the crew
}
