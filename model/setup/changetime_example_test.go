package setup_test

import (
	"fmt"

	"netrate/model/setup"
	"netrate/sim"
)

// Two operators share three feeders while the line sets the rails by itself: one does the
// throat and a feeder, the other two feeders.
func ExampleTotal() {
	feeder := setup.Change{Time: sim.Constant(240)}
	items := []setup.Item{
		{Name: "length of the envelope", Change: setup.Change{Time: sim.Constant(90), Automatic: true}},
		{Name: "throat", Change: setup.Change{Time: sim.Constant(60)}},
		{Name: "feeder 1", Change: feeder},
		{Name: "feeder 2", Change: feeder},
		{Name: "feeder 3", Change: feeder},
	}
	fmt.Println(setup.Total(items, 2, 1, 0))
	// Output: 480
}
