package order_test

import (
	"fmt"

	"netrate/model/order"
	"netrate/sim"
)

// Three products on a line that is set up for nothing yet, the last row. The times are
// invented.
func ExampleBest() {
	const empty = 3
	cost := [][]sim.Seconds{
		{0, 600, 120, 0},
		{600, 0, 600, 0},
		{900, 60, 0, 0},
		{1200, 1200, 1200, 0},
	}
	best, exact := order.Best(empty, cost)
	fmt.Println(best, exact, order.Time(empty, cost, best))
	// Output: [0 2 1] true 1380
}
