package order

import "netrate/sim"

// leg is the best way through a set of products to the one that is last of them.
type leg struct {
	time   sim.Seconds
	before int // index of the last but one; -1 if there is none
}

// best returns the best order of the products. Sets of them are numbers with a bit for
// each.
func (t *tour) best(products []int) []int {
	legs := t.legs(products)
	set, last := len(legs)-1, 0
	for k, l := range legs[set] {
		if l.time < legs[set][last].time {
			last = k
		}
	}
	order := make([]int, len(products))
	for i := len(order) - 1; i >= 0; i-- {
		order[i] = products[last]
		set, last = set&^(1<<last), legs[set][last].before
	}
	return order
}

// legs returns the best leg of each set to each of its products, from those of the sets
// with one product less.
func (t *tour) legs(products []int) [][]leg {
	n := len(products)
	legs := make([][]leg, 1<<n)
	for set := range legs {
		legs[set] = make([]leg, n)
		for last := range n {
			if set>>last&1 == 1 {
				legs[set][last] = t.leg(products, legs, set&^(1<<last), last)
			}
		}
	}
	return legs
}

// leg returns the best leg through the rest of a set to its last product.
func (t *tour) leg(products []int, legs [][]leg, rest, last int) leg {
	best := leg{t.step(t.from, products[last]), -1} // where there is no rest
	for before, l := range legs[rest] {
		if rest>>before&1 == 0 {
			continue
		}
		if time := l.time + t.step(products[before], products[last]); best.before < 0 || time < best.time {
			best = leg{time, before}
		}
	}
	return best
}
