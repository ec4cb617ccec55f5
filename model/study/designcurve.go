package study

import (
	"cmp"
	"slices"
)

// A moneyPoint is a design on the plane of price and figure, the larger the better.
type moneyPoint struct {
	price, figure float64
	asItIs        bool // nothing is bought
	advised       bool
}

// designNoMore is the part of what counts as equal by which the best may be ahead of the last of the frontier.
const designNoMore = 0.1

// frontierOf returns which designs are best for their money, by rising price. Each dearer one gains more than
// what counts as equal on the one before, and is shown to be ahead of it; so what is left out gains no more than
// that on a kept one that is no dearer, or is not shown to gain.
// Two may gain less: what is advised, and the last, which is the cheapest that is as good as the best but for a
// little ([designNoMore]). None of the same price follows another: it takes its place, and nothing bought is
// first of all that cost nothing.
func frontierOf(points []moneyPoint, equal float64, shown func(of, from int) bool) (on []int) {
	order := byPrice(points)
	end := endOf(points, order, equal)
	for _, i := range order {
		x := &points[i]
		if len(on) == 0 {
			on = append(on, i)
			continue
		}
		last := on[len(on)-1]
		gain, dearer := x.figure-points[last].figure, x.price > points[last].price
		switch {
		case gain > equal && shown(i, last):
		case gain > 0 && x.advised:
		case gain > designNoMore*equal && dearer && i == end && shown(i, last):
		default:
			continue
		}
		if !dearer {
			on = on[:len(on)-1]
		}
		on = append(on, i)
	}
	return on
}

// byPrice returns the numbers of designs by rising price. Of one price the line as it is comes first, then what is
// advised, then the best.
func byPrice(points []moneyPoint) []int {
	order := make([]int, len(points))
	for i := range order {
		order[i] = i
	}
	rank := func(p *moneyPoint) int {
		switch {
		case p.asItIs:
			return 0
		case p.advised:
			return 1
		}
		return 2
	}
	slices.SortStableFunc(order, func(i, k int) int {
		x, y := &points[i], &points[k]
		return cmp.Or(cmp.Compare(x.price, y.price), rank(x)-rank(y), cmp.Compare(y.figure, x.figure))
	})
	return order
}

// endOf returns the cheapest design that is as good as the best, but for a little; -1 of none.
func endOf(points []moneyPoint, order []int, equal float64) int {
	if len(order) == 0 {
		return -1
	}
	top := slices.MaxFunc(points, func(x, y moneyPoint) int { return cmp.Compare(x.figure, y.figure) }).figure
	at := slices.IndexFunc(order, func(i int) bool { return points[i].figure >= top-float64(designNoMore*equal) })
	if at < 0 {
		return -1
	}
	return order[at]
}

// thinned returns as many designs of a frontier as there is room for. What is left out one after the other is that
// without which what is to be had for a price changes least: the gain that is lost, times the money up to the next.
// The first, the last and what is advised stay, and the corners of the concave hull as long as there is
// anything else.
func thinned(points []moneyPoint, on []int, room int) []int {
	on = slices.Clone(on)
	for len(on) > room {
		least := leastOf(points, on, false)
		if least < 0 {
			least = leastOf(points, on, true)
		}
		if least < 0 {
			return on
		}
		on = slices.Delete(on, least, least+1)
	}
	return on
}

// leastOf returns the place on a frontier of the design that is missed least, of those that may go; -1 if none may.
func leastOf(points []moneyPoint, on []int, corners bool) int {
	least, lost := -1, 0.0
	for k := 1; k < len(on)-1; k++ {
		before, own, next := &points[on[k-1]], &points[on[k]], &points[on[k+1]]
		if own.advised || !corners && isCorner(points, on, k) {
			continue
		}
		if x := (own.figure - before.figure) * (next.price - own.price); least < 0 || x < lost {
			least, lost = k, x
		}
	}
	return least
}

// isCorner reports whether a design of a frontier is above every line from a cheaper one to a dearer one.
func isCorner(points []moneyPoint, on []int, k int) bool {
	own := &points[on[k]]
	for _, i := range on[:k] {
		for _, j := range on[k+1:] {
			low, high := &points[i], &points[j]
			if (own.figure-low.figure)*(high.price-low.price) <= (high.figure-low.figure)*(own.price-low.price) {
				return false
			}
		}
	}
	return true
}
