package model_test

import (
	"fmt"

	"netrate/model"
	"netrate/sim"
)

// Two operators share three feeders while the line sets the rails by itself: one does the
// throat and a feeder, the other two feeders.
func ExampleTotal() {
	feeder := model.Change{Time: sim.Constant(240)}
	items := []model.Item{
		{Name: "length of the envelope", Change: model.Change{Time: sim.Constant(90), Automatic: true}},
		{Name: "throat", Change: model.Change{Time: sim.Constant(60)}},
		{Name: "feeder 1", Change: feeder},
		{Name: "feeder 2", Change: feeder},
		{Name: "feeder 3", Change: feeder},
	}
	fmt.Println(model.Total(items, 2, 1, 0))
	// Output: 480
}
