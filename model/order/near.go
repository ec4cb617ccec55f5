package order

import "slices"

// near returns a good order: of the one given and of one that begins with each product,
// all improved, the shortest.
func (t *tour) near(products []int) []int {
	short := t.improved(products)
	for _, first := range products {
		if order := t.improved(t.nearest(products, first)); t.time(order) < t.time(short) {
			short = order
		}
	}
	return short
}

// nearest returns the order that begins with the first product and goes on to whichever
// takes the least time.
func (t *tour) nearest(products []int, first int) []int {
	order := []int{first}
	left := slices.DeleteFunc(slices.Clone(products), func(k int) bool { return k == first })
	for at := first; len(left) > 0; {
		next := 0
		for i, k := range left {
			if t.step(at, k) < t.step(at, left[next]) {
				next = i
			}
		}
		at = left[next]
		order, left = append(order, at), slices.Delete(left, next, next+1)
	}
	return order
}

// saving is the share of the time that an improvement must save at least: less is rounding.
const saving = 1e-9

// improved moves products, up to three in a row, and turns stretches round until that
// saves no more.
func (t *tour) improved(order []int) []int {
	for {
		better := t.moved(order)
		if better == nil {
			better = t.turned(order)
		}
		if better == nil {
			return order
		}
		order = better
	}
}

// moved returns a shorter order with some products moved together, or nil.
func (t *tour) moved(order []int) []int {
	enough := t.time(order) * (1 - saving)
	next := make([]int, len(order))
	for length := 1; length <= 3; length++ {
		for i := range len(order) - length + 1 {
			rest := slices.Delete(slices.Clone(order), i, i+length)
			for k := range len(rest) + 1 {
				next = append(append(append(next[:0], rest[:k]...), order[i:i+length]...), rest[k:]...)
				if t.time(next) < enough {
					return next
				}
			}
		}
	}
	return nil
}

// turned returns a shorter order with a stretch turned round, or nil.
func (t *tour) turned(order []int) []int {
	enough := t.time(order) * (1 - saving)
	next := make([]int, len(order))
	for i := range order {
		for k := i + 2; k <= len(order); k++ {
			copy(next, order)
			slices.Reverse(next[i:k])
			if t.time(next) < enough {
				return next
			}
		}
	}
	return nil
}
