package order

import (
	"fmt"
	"math"

	"netrate/sim"
)

// mostExact is how many products can be put in the best order for certain: the work
// doubles with each.
const mostExact = 12

// Best returns an order of products with little time for the changeovers between
// them, and whether no order has less. cost[i][k] is the mean time of a changeover from
// product i to product k; what stands at [i][i] is not looked at.
//
// From is what the line is set up for now. It is a row of cost, and not in the order. With
// -1 there is nothing before the first product, and no changeover to it.
//
// Up to 12 products the order is the best there is, by dynamic programming (Held and Karp
// 1962, from memory). For more it is a heuristic: the order given, and those that begin
// with each product and go on to the nearest; in each of them products are moved, up to
// three in a row, and stretches turned round, until nothing improves; then the shortest. It
// is never longer than the order in which the products are given.
//
// The costs must be a square of times, none negative; otherwise, NaN included, Best
// panics.
func Best(from int, cost [][]sim.Seconds) (order []int, exact bool) {
	checkCosts(from, cost)
	for i := range cost {
		if i != from {
			order = append(order, i)
		}
	}
	t := tour{from, cost}
	if len(order) <= mostExact {
		return t.best(order), true
	}
	return t.near(order), false
}

// Time returns the time of all changeovers in an order, as for Best.
func Time(from int, cost [][]sim.Seconds, order []int) sim.Seconds {
	t := tour{from, cost}
	return t.time(order)
}

func checkCosts(from int, cost [][]sim.Seconds) {
	if from < -1 || from >= len(cost) {
		panic(fmt.Sprintf("order: an order from product %d of %d", from, len(cost)))
	}
	for i, row := range cost {
		if len(row) != len(cost) {
			panic(fmt.Sprintf("order: %d products and %d changeovers from product %d", len(cost), len(row), i))
		}
		for k, c := range row {
			if i != k && !(c >= 0 && c < sim.Seconds(math.Inf(1))) {
				panic(fmt.Sprintf("order: a changeover from product %d to %d of %v s", i, k, float64(c)))
			}
		}
	}
}

// tour is what an order is looked for in.
type tour struct {
	from int
	cost [][]sim.Seconds
}

// step returns the time of the changeover to product k from i, or from nothing, -1.
func (t *tour) step(i, k int) sim.Seconds {
	if i < 0 {
		return 0
	}
	return t.cost[i][k]
}

func (t *tour) time(order []int) (sum sim.Seconds) {
	at := t.from
	for _, k := range order {
		sum += t.step(at, k)
		at = k
	}
	return sum
}
